package canvas

import (
	"fmt"
	"math"
	"slices"

	"example.com/forepeak/internal/imperial"
	"example.com/forepeak/units"
)

// Cylinder is an upright round thing: a winch, a bucket, a rolled dinghy.
type Cylinder struct {
	Name             string
	Diameter, Height units.Length // as measured
	Ease             units.Length // added to the diameter before anything is computed
	// Rise of a domed top, half an ellipsoid above Height; 0 is a flat top.
	Rise        units.Length
	Gores       int          // of a domed top
	Opening     units.Length // diameter of a round hole in the middle of the top; 0 is none
	Seam        units.Length
	Hem         units.Length // of the bottom
	OpeningEdge Finish       // none, binding, a hem or a plain seam on a flat top
	Sides       []Hole       // in the wall, from the lower end of its seam, to the right and up
	// Imperial is that of the Cover.
	Imperial bool `json:",omitempty"`
}

// Cover makes a wall of pi diameter by height and a top that is as long round:
// a disk, or gores as of [Dome].
func (y Cylinder) Cover() (Cover, error) {
	var c checker
	c.size("Diameter", y.Diameter)
	c.size("Height", y.Height)
	c.size0("Ease", y.Ease)
	c.size0("Rise", y.Rise)
	c.size("Seam", y.Seam)
	c.size("Hem", y.Hem)
	c.size0("Opening", y.Opening)
	d := y.Diameter + y.Ease
	if c.err == nil && y.Opening > d.Scale(0.9) {
		c.err = refuse("Opening", y.Opening, fmt.Sprintf("at most nine tenths of the diameter of %.3v", d))
	}
	dome := Dome{Diameter: d, Rise: y.Rise, Gores: y.Gores, Opening: y.Opening, Seam: y.Seam, OpeningEdge: y.OpeningEdge}
	dome.BaseEdge = Finish{Kind: PlainSeam, Width: y.Seam}
	if y.Rise > 0 {
		dome.check(&c)
	} else {
		c.count("Gores", y.Gores, 0, 0)
		width := y.Opening
		if width == 0 {
			width = d // nothing to be too narrow for
		}
		y.OpeningEdge.checkHole(&c, "OpeningEdge", width)
	}
	if c.err != nil {
		return Cover{}, c.err
	}
	v := Cover{Title: y.Name, Imperial: y.Imperial, Panels: []Panel{wall(float64(d), float64(y.Height), y.Seam, y.Hem, y.Sides)}, Seams: []Seam{wallSeam()}}
	top := Seam{Name: "top", B: Side{Panel: "wall", Edges: []string{"top"}, Backward: true}}
	if y.Rise == 0 {
		disk := disk("top", float64(d), dome.BaseEdge)
		if y.Opening > 0 {
			disk.Holes = []Hole{{Name: "opening", Width: y.Opening, Finish: y.OpeningEdge}}
		}
		v.Panels = append(v.Panels, disk)
		top.A = Side{Panel: "top", Edges: edgeNames(disk.Edges)}
	} else {
		dev, err := dome.Deviation()
		if err != nil {
			return Cover{}, err
		}
		v.Panels = append(v.Panels, dome.gore())
		v.Seams = append(v.Seams, goreSeam())
		top.A = Side{Panel: "gore", Edges: []string{"base"}, Times: y.Gores}
		in, out := fmt.Sprintf("%.1f mm", dev.Flat.Millimetres()), fmt.Sprintf("%.1f mm", dev.Ridge.Millimetres())
		if y.Imperial {
			in, out = imperial.Tape(dev.Flat), imperial.Tape(dev.Ridge)
		}
		v.Remarks = append(v.Remarks, fmt.Sprintf("the flat gores leave a round dome by %s inwards and %s outwards", in, out))
	}
	v.Seams = append(v.Seams, top)
	return v, v.Check()
}

func wall(d, h float64, seam, hem units.Length, holes []Hole) Panel {
	round := math.Pi * d
	upright := Finish{Kind: PlainSeam, Width: seam}
	return Panel{Name: "wall", Holes: slices.Clone(holes), Edges: []Edge{
		{Name: "bottom", From: at(0, 0), Finish: Finish{Kind: DoubleHem, Width: hem, Turn: hem / 2}},
		{Name: "right end", From: at(round, 0), Finish: upright},
		{Name: "top", From: at(round, h), Finish: upright},
		{Name: "left end", From: at(0, h), Finish: upright},
	}}
}

func wallSeam() Seam {
	return Seam{Name: "upright", A: Side{Panel: "wall", Edges: []string{"right end"}}, B: Side{Panel: "wall", Edges: []string{"left end"}, Backward: true}}
}

// disk is two half circles, from the back.
func disk(name string, d float64, f Finish) Panel {
	bulge := Course{Curve: Arc, Depth: units.Length(d / 2)}
	return Panel{Name: name, Edges: []Edge{
		{Name: "left half", From: at(0, d/2), Course: bulge, Finish: f},
		{Name: "right half", From: at(0, -d/2), Course: bulge, Finish: f},
	}}
}

// BottleCover is a cover for a gas bottle that stands in the open. It is open
// below, so that leaking gas, which is heavier than air and burns explosively,
// can fall out and is not held in.
type BottleCover struct {
	Name             string
	Diameter, Height units.Length // of the bottle, to where its shoulder begins
	Rise             units.Length // of the shoulder, collar and valve above Height
	Gores            int
	Ease             units.Length // added to the diameter
	// Clearance is how far above the bottle's foot the cover ends, more than 0
	// unless the base is closed.
	Clearance units.Length
	// Valve is the diameter of the opening at the top through which a hand turns
	// the valve off, 100 mm or more.
	Valve units.Length
	// Hose is the hole in the wall for the hose, HoseHeight above the foot.
	Hose, HoseHeight units.Length
	// Closed asks for a base; it is refused without Vent, the diameter of a hole at
	// the lowest point, 19 mm or more.
	Closed bool
	Vent   units.Length
	Seam   units.Length
	Hem    units.Length
	Gap    units.Length // of the zip of a closed base
	// Imperial is that of the Cover.
	Imperial bool `json:",omitempty"`
}

// GasCaution is printed on every panel of a bottle's cover.
const GasCaution = "CAUTION, GAS: heavier than air, it gathers low down and explodes. Keep the lower edge and every vent open, stand the " +
	"bottle where leaking gas runs overboard, turn the valve off after use, never cover a hot or leaking bottle. This cover is no fire protection. " +
	"Local rules for gas on boats come first; have the installation checked by someone licensed."

// flapReach is how far the flap goes under the far side of the hose's slit (practice).
const flapReach = 40 * units.Millimetre

// closures are how far apart a slit is closed (practice).
func closures(inches bool) string {
	if inches {
		return "6 in"
	}
	return "150 mm"
}

// leastVent is what the drain of a gas locker measures inside by common rules
// (19 mm, recalled from ISO 10239); leastValve is the width of a hand (practice).
const (
	leastVent  = 19 * units.Millimetre
	leastValve = 100 * units.Millimetre
)

// Cover makes the wall, a domed top, and a flap behind the slit through which the
// hose is passed into its hole. With a closed base that slit runs into the zip, which has
// to begin and end there: a remark and a note on the wall say so. The error about a base without a vent,
// or a cover that reaches the ground, wraps [ErrVent].
func (b BottleCover) Cover() (Cover, error) {
	var c checker
	c.size("Height", b.Height)
	c.size0("Clearance", b.Clearance)
	between(&c, "Valve", b.Valve, leastValve, largest)
	c.size("Hose", b.Hose)
	c.size("HoseHeight", b.HoseHeight)
	c.size("Rise", b.Rise)
	switch {
	case c.err != nil:
	case b.Closed && !(b.Vent >= leastVent):
		c.err = refuseAs(ErrVent, "Vent", b.Vent, fmt.Sprintf("%v or more at the lowest point of a closed base, or no base at all", leastVent))
	case !b.Closed && b.Clearance < 10*units.Millimetre:
		c.err = refuseAs(ErrVent, "Clearance", b.Clearance, "10 mm or more between the foot and the open lower edge")
	case b.Closed && b.Clearance != 0:
		c.err = refuse("Clearance", b.Clearance, "0 with a closed base")
	case b.Clearance > b.Height/2:
		c.err = refuse("Clearance", b.Clearance, "less than half the height")
	}
	if c.err != nil {
		return Cover{}, c.err
	}
	y := Cylinder{
		Name: b.Name, Diameter: b.Diameter, Height: b.Height - b.Clearance, Ease: b.Ease, Rise: b.Rise, Gores: b.Gores,
		Opening: b.Valve, Seam: b.Seam, Hem: b.Hem, OpeningEdge: Finish{Kind: Bound}, Imperial: b.Imperial,
	}
	// The hose leaves opposite the wall's seam.
	y.Sides = []Hole{{
		Name: "hose", At: Point{(b.Diameter + b.Ease).Scale(math.Pi / 2), b.HoseHeight - b.Clearance},
		Width: b.Hose, Margin: max(20*units.Millimetre, b.Hose/2), Split: true, Edge: "bottom",
	}}
	v, err := y.Cover()
	if err != nil {
		return Cover{}, err
	}
	v.Cautions = []string{GasCaution}
	v.Panels[0].Notes = []string{"slit from the hose to the lower edge: sew each half of the patch to its own lip of the slit only, bind it on both sides, sew the flap under one, and close it every " + closures(b.Imperial)}
	behind := flap("flap of hose", float64(y.Sides[0].At.Y-b.Hose/2), float64(flapReach))
	if !b.Closed {
		v.Panels = append(v.Panels, behind)
		return v, v.Check()
	}
	c.size("Gap", b.Gap)
	if c.err != nil {
		return Cover{}, c.err
	}
	zip := Finish{Kind: Zip, Width: b.Seam, Gap: b.Gap}
	v.Panels[0].Edges[0].Finish = zip
	const parted = "the slit of the hose runs into the zip of the base: begin the zip at one lip of the slit and end it at the other, so that both open together"
	v.Remarks = append(v.Remarks, parted)
	v.Panels[0].Notes = append(v.Panels[0].Notes, parted)
	zip.Clipped = true
	base := disk("base", float64(b.Diameter+b.Ease), zip)
	base.Holes = []Hole{{Name: "vent", Width: b.Vent, Margin: 20 * units.Millimetre}}
	base.Notes = []string{"the vent is the lowest point: nothing may lie under it"}
	v.Panels = append(v.Panels, base, behind)
	v.Seams = append(v.Seams, Seam{
		Name: "base", A: Side{Panel: "wall", Edges: []string{"bottom"}}, B: Side{Panel: "base", Edges: edgeNames(base.Edges), Backward: true},
	})
	return v, v.Check()
}
