package canvas

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/internal/root"
	"example.com/forepeak/units"
)

// reinforce adds patches to the corners, a tenth of the shorter edge and 100 mm
// at least. Where an edge has no tape, they are as long as it takes until
// the plain cloth, spread over the corner's angle, carries its tension:
//
//	along = tension safety/(strength angle)
//
// in steps of 10 mm.
func (f *frame) reinforce(out *AwningPlan) error {
	a := f.awning
	n := len(a.Edges)
	for i := range a.Edges {
		before := (i + n - 1) % n
		pull := 0.0
		for _, k := range out.Cases {
			last, next := f.ends(&k, i)
			if a.Edges[before].Tape > 0 {
				last = plane.Point{}
			}
			if a.Edges[i].Tape > 0 {
				next = plane.Point{}
			}
			pull = math.Max(pull, last.Add(next).Norm())
		}
		last, next := f.chords[before], f.chords[i]
		angle := math.Pi - math.Atan2(last.Cross(next), last.Dot(next)) -
			2*math.Atan(2*a.Edges[before].Hollow) - 2*math.Atan(2*a.Edges[i].Hollow)
		if !(angle > 5*float64(units.Degree)) {
			return refuse(fmt.Sprintf("Edges[%d].Hollow", i), a.Edges[i].Hollow,
				fmt.Sprintf("hollows that leave corner %d more than 5 degrees, not %.1f", i+1, units.Angle(angle).Degrees()))
		}
		along := math.Max(0.1, math.Min(last.Norm(), next.Norm())/10)
		along = math.Max(along, pull*a.Safety/(float64(a.Strength)*angle))
		along = math.Ceil(along*100-1e-9) / 100
		out.Panel.Patches = append(out.Panel.Patches, CornerPatch{
			Corner: i, Along: units.Length(along), Layers: a.Layers, Step: units.Length(along / float64(a.Layers+1)), Round: true,
		})
	}
	f.rig(out)
	if _, err := out.Panel.lay(); err != nil {
		return within("Panel", err)
	}
	return nil
}

// rig draws straps and eyelets at the corners, in the direction in which the worst
// case pulls: a strap over the whole length of the patch and 60 mm beyond the
// corner for its loop, an eyelet a third of the shortest layer inside the corner.
func (f *frame) rig(out *AwningPlan) {
	for i, e := range f.awning.Edges {
		worst := out.Worst(i)
		u := plane.Point{X: float64(worst.X), Y: float64(worst.Y)}
		if !(u.Norm() > 0) {
			continue
		}
		u = u.Unit()
		patch := out.Panel.Patches[i]
		at := func(inside float64) Point { return wrap(e.From.bare().Sub(u.Times(inside))) }
		if e.Tie.Strap > 0 {
			out.Panel.Fittings = append(out.Panel.Fittings, Fitting{
				Name: "strap", At: e.From, Strap: []Point{at(float64(patch.Along)), at(-strapLoop)},
			})
		}
		if e.Tie.Eyelet > 0 {
			least := patch.Along - patch.Step.Scale(float64(patch.Layers-1))
			out.Panel.Fittings = append(out.Panel.Fittings, Fitting{Name: "eyelet", At: at(float64(least) / 3), Diameter: eyeletHole})
		}
	}
}

const (
	strapLoop  = 60e-3                 // m
	eyeletHole = 12 * units.Millimetre // of a common size; check yours
)

// AwningRain is whether rain runs off.
type AwningRain struct {
	Sag units.Length // under the cloth's own wet weight
	// Least is the pitch that drains: twice that at which the sag makes the low edge
	// level, so that water stands. That one is atan(4 sag/span); twice is judgement,
	// room for the boat's trim and for cloth that stretches when wet. Drains says
	// that the awning has more. A valley, a negative pitch, never drains.
	Least  units.Angle
	Drains bool
	// Pull is what the cloth would have to pull with to bear standing water, see
	// [WaterPull]. An awning that does not drain and pulls less fills until something gives way.
	Pull units.ForcePerLength
}

func (a *Awning) rain(span units.Length, prestress units.ForcePerLength) (AwningRain, error) {
	_, sag, err := Membrane{Span: span, Prestress: prestress, Stiffness: a.Stiffness}.Pull(a.Weight)
	if err != nil {
		return AwningRain{}, tooSoft(a.Stiffness, "a calm")
	}
	r := AwningRain{Sag: sag, Least: units.Angle(2 * math.Atan(4*float64(sag)/float64(span)))}
	r.Drains = a.Canopy.Pitch > r.Least
	r.Pull, err = WaterPull(span)
	return r, err
}

// strike finds the wind that is too much.
func (f *frame) strike(w Wind) (Strike, error) {
	over := func(mean float64) (float64, string, error) {
		w.Mean = units.Speed(mean)
		_, cases, err := f.cases(w)
		if err != nil && mean > 0 {
			// The wind was accepted before: it is the cloth that is blown up to a half
			// circle, or pulls more than any cloth.
			return 1, "cloth", nil
		}
		if err != nil {
			return 0, "", err
		}
		worst := cases[0]
		for _, k := range cases[1:] {
			if k.Used > worst.Used {
				worst = k
			}
		}
		return worst.Used - 1, worst.Weakest, nil
	}
	const most = 40.0 // m/s
	for _, mean := range []float64{0, most} {
		used, part, err := over(mean)
		switch {
		case err != nil:
			return Strike{}, err
		case mean == 0 && used >= 0:
			return Strike{Part: part}, nil
		case mean == most && used < 0:
			return Strike{Wind: units.Speed(most)}, nil
		}
	}
	mean, err := root.Find(func(mean float64) (float64, error) {
		used, _, err := over(mean)
		return used, err
	}, 0, most, 1e-9)
	if err != nil {
		return Strike{}, err
	}
	_, part, err := over(mean)
	return Strike{Wind: units.Speed(mean), Part: part}, err
}
