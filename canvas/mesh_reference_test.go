package canvas_test

import (
	"fmt"
	"math"

	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
)

// meshHandlers compare flattened meshes with smooth surfaces. A mesh of half the
// spacing is off by a quarter, so that two meshes tell what one of no spacing would give:
// (4 fine - coarse)/3.
func meshHandlers() map[string]refcheck.Handler {
	handlers := map[string]refcheck.Handler{
		"canvas.Mesh.Flatten#defect": func(in refcheck.Inputs) (any, error) {
			half, err := angle(in)
			if err != nil {
				return nil, err
			}
			d, err := limited(100, func(sides int) ([]float64, error) {
				s, err := flat(fan(sides, half))
				return []float64{float64(s.Defect)}, err
			})
			return units.Angle(d[0]), err
		},
	}
	caps := map[units.Angle][]float64{}
	for i, name := range []string{"rim", "centre", "hoop", "area", "energy"} {
		handlers["canvas.Mesh.Flatten#"+name] = func(in refcheck.Inputs) (any, error) {
			half, err := angle(in)
			if err != nil {
				return nil, err
			}
			if caps[half] == nil {
				v, err := limited(28, func(rings int) ([]float64, error) { return capFigures(rings, float64(half)) })
				if err != nil {
					return nil, err
				}
				caps[half] = v
			}
			if name == "rim" {
				return units.Length(caps[half][i]), nil
			}
			return caps[half][i], nil
		}
	}
	return handlers
}

func angle(in refcheck.Inputs) (units.Angle, error) {
	half := in.Angle("half")
	if !(half > 0 && half <= math.Pi/2) {
		return 0, fmt.Errorf("half is %v", half)
	}
	return half, nil
}

func limited(n int, of func(n int) ([]float64, error)) ([]float64, error) {
	coarse, err := of(n)
	if err != nil {
		return []float64{0}, err
	}
	fine, err := of(2 * n)
	if err != nil {
		return []float64{0}, err
	}
	for i := range fine {
		fine[i] = (4*fine[i] - coarse[i]) / 3
	}
	return fine, nil
}

func flat(m canvas.Mesh) (canvas.Sheet, error) {
	f, err := m.Flatten(canvas.Limits{})
	if err != nil {
		return canvas.Sheet{}, err
	}
	return f.Sheets[0], nil
}

// fan is a cone of slant 1, its apex the only point inside.
func fan(sides int, half units.Angle) canvas.Mesh {
	m := canvas.Mesh{Points: []canvas.Space{{}}}
	for k := range sides {
		a := 2 * math.Pi * float64(k) / float64(sides)
		m.Points = append(m.Points, space(half.Sin()*math.Cos(a), half.Sin()*math.Sin(a), -half.Cos()))
		m.Triangles = append(m.Triangles, [3]int{0, k + 1, (k+1)%sides + 1})
	}
	return m
}

// capFigures are rim radius, scale at the centre and along the rim, flat area
// and energy of a cap of the unit sphere; scales and areas as parts of those on
// the smooth sphere, the mean energy over the mesh.
func capFigures(rings int, half float64) ([]float64, error) {
	s, err := flat(sphereCap(rings, half))
	if err != nil {
		return nil, err
	}
	at := make([]canvas.Point, len(s.From)) // by point of the mesh
	for p, q := range s.From {
		at[q] = s.Points[p]
	}
	distance := func(a, b int) float64 {
		return math.Hypot(float64(at[a].X-at[b].X), float64(at[a].Y-at[b].Y))
	}
	rim := 0.0
	first := len(at) - 6*rings
	for i := range 3 * rings {
		rim += distance(first+i, first+i+3*rings) / float64(6*rings)
	}
	centre := 0.0
	for k := range 6 {
		centre += distance(0, k+1) / 6 / (half / float64(rings))
	}
	hoop := 0.0
	for _, e := range s.Edges {
		hoop += float64(e.Flat)
	}
	return []float64{rim, centre, hoop / (2 * math.Pi * math.Sin(half)), float64(s.Flat) / (2 * math.Pi * (1 - math.Cos(half))), s.Energy}, nil
}
