package canvas_test

import (
	"fmt"
	"maps"
	"math"
	"strings"
	"testing"

	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
)

//go:generate go test -count=1 -run=^TestReference$ . -args -refcheck.update

const seam = 10 * units.Millimetre

func TestReference(t *testing.T) {
	handlers := map[string]refcheck.Handler{
		"canvas.Survey.Adjust#sum":   func(in refcheck.Inputs) (any, error) { a, err := survey(in); return a.Weighted, err },
		"canvas.Survey.Adjust#limit": limit,
		"canvas.ArcRadius": func(in refcheck.Inputs) (any, error) {
			return canvas.ArcRadius(in.Length("chord"), in.Length("rise"))
		},
		"canvas.Diameter": func(in refcheck.Inputs) (any, error) {
			return canvas.Diameter(in.Length("girth"), in.Length("thickness"))
		},
		"canvas.Panel.Length#arc":      func(in refcheck.Inputs) (any, error) { return curve(in, canvas.Arc).Length("curve") },
		"canvas.Panel.Length#catenary": func(in refcheck.Inputs) (any, error) { return curve(in, canvas.Catenary).Length("curve") },
		"canvas.Panel.Length#batten":   func(in refcheck.Inputs) (any, error) { return curve(in, canvas.Batten).Length("curve") },
		"canvas.Panel.Area#arc":        func(in refcheck.Inputs) (any, error) { return under(in, canvas.Arc) },
		"canvas.Panel.Area#catenary":   func(in refcheck.Inputs) (any, error) { return under(in, canvas.Catenary) },
		"canvas.Cover.Pieces#area":     cutArea,
		"canvas.Piece.Area":            cutArea,
		"canvas.Cover.Split#left":      func(in refcheck.Inputs) (any, error) { return splitArea(in, "p 1") },
		"canvas.Cover.Split#right":     func(in refcheck.Inputs) (any, error) { return splitArea(in, "p 2") },
		"canvas.Cover.SeamLengths": func(in refcheck.Inputs) (any, error) {
			v, err := split(in)
			if err != nil {
				return nil, err
			}
			l, err := v.SeamLengths()
			return l[0][0], err
		},
		"canvas.ClipSpacing": func(in refcheck.Inputs) (any, error) {
			return canvas.ClipSpacing(in.Length("radius"), in.Length("deviation"))
		},
		"canvas.FoldStrain": func(in refcheck.Inputs) (any, error) {
			return canvas.FoldStrain(in.Length("depth"), in.Length("radius"))
		},
		"canvas.Cloth.Cut#x": func(in refcheck.Inputs) (any, error) { p, err := onCloth(in); return p.X, err },
		"canvas.Cloth.Cut#y": func(in refcheck.Inputs) (any, error) { p, err := onCloth(in); return p.Y, err },
		"canvas.ThreadRatio": func(in refcheck.Inputs) (any, error) {
			return canvas.ThreadRatio(canvas.Stitch(in.Text("stitch")), in.Length("thickness"), units.Inch.Scale(1/in.Float("density")))
		},
		"canvas.Sewing.Thread": func(in refcheck.Inputs) (any, error) {
			return canvas.Sewing{Stitch: canvas.Stitch(in.Text("stitch")), Length: in.Length("length"), Waste: in.Float("waste")}.
				Thread(in.Length("seam"), in.Length("thickness"))
		},
		"canvas.Ticket": func(in refcheck.Inputs) (any, error) { return canvas.Ticket(in.LinearDensity("thread")) },
		"canvas.Needle": func(in refcheck.Inputs) (any, error) { return canvas.Needle(in.LinearDensity("thread")) },
	}
	for i, name := range []string{"slant", "inner", "outer", "angle"} {
		handlers["canvas.Frustum.Sector#"+name] = func(in refcheck.Inputs) (any, error) {
			s, err := frustum(in).Sector()
			return []any{s.Slant, s.Inner, s.Outer, s.Angle}[i], err
		}
	}
	for _, corner := range []string{"Az", "Bx", "Cx", "Cy", "Dx", "Dy", "Dz", "Ex", "Ey"} {
		of := func(s canvas.Space) units.Length {
			return map[byte]units.Length{'x': s.X, 'y': s.Y, 'z': s.Z}[corner[1]]
		}
		handlers["canvas.Survey.Adjust#"+corner] = func(in refcheck.Inputs) (any, error) {
			a, err := survey(in)
			if err != nil {
				return nil, err
			}
			c, err := a.Corner(corner[:1])
			return of(c.At).Scale(over(in)), err
		}
		if strings.Contains("Az", corner) {
			continue
		}
		handlers["canvas.Survey.Adjust#s"+corner] = func(in refcheck.Inputs) (any, error) {
			a, err := survey(in)
			if err != nil {
				return nil, err
			}
			c, err := a.Corner(corner[:1])
			return of(c.Sigma).Scale(over(in)), err
		}
	}
	for _, tape := range []string{"AB", "BC", "CD", "DA", "AC", "BD", "AD", "AE"} {
		name := tape[:1] + "-" + tape[1:]
		reading := func(in refcheck.Inputs) (canvas.Reading, error) {
			a, err := survey(in)
			if err != nil {
				return canvas.Reading{}, err
			}
			for _, r := range a.Readings {
				if r.Name == name {
					return r, nil
				}
			}
			return canvas.Reading{}, fmt.Errorf("no reading %s", name)
		}
		if tape != "AE" {
			handlers["canvas.Survey.Adjust#v"+tape] = func(in refcheck.Inputs) (any, error) {
				r, err := reading(in)
				return r.Residual.Scale(over(in)), err
			}
		}
		if tape == "AB" || tape == "AC" || tape == "AD" {
			handlers["canvas.Survey.Adjust#r"+tape] = func(in refcheck.Inputs) (any, error) {
				r, err := reading(in)
				return r.Redundancy, err
			}
		}
	}
	for name, cover := range map[string]func(refcheck.Inputs) (canvas.Cover, error){
		"Frustum": func(in refcheck.Inputs) (canvas.Cover, error) { return frustum(in).Cover() },
		"ObliqueCone": func(in refcheck.Inputs) (canvas.Cover, error) {
			return canvas.ObliqueCone{
				Bottom: in.Length("bottom"), Top: in.Length("top"), Height: in.Length("height"),
				OffsetX: in.Length("x"), OffsetY: in.Length("y"), Seam: seam,
			}.Cover()
		},
		"Transition": func(in refcheck.Inputs) (canvas.Cover, error) {
			return canvas.Transition{
				Length: in.Length("length"), Width: in.Length("width"), Diameter: in.Length("diameter"), Height: in.Length("height"),
				OffsetX: in.Length("x"), OffsetY: in.Length("y"), Seam: seam,
			}.Cover()
		},
		"Sphere": func(in refcheck.Inputs) (canvas.Cover, error) {
			return canvas.Sphere{Diameter: in.Length("diameter"), Gores: in.Int("gores"), Seam: seam}.Cover()
		},
		"Dome": func(in refcheck.Inputs) (canvas.Cover, error) { return dome(in).Cover() },
		"Cylinder": func(in refcheck.Inputs) (canvas.Cover, error) {
			return canvas.Cylinder{Diameter: in.Length("diameter"), Height: in.Length("height"), Seam: seam, Hem: seam}.Cover()
		},
	} {
		handlers["canvas."+name+".Cover#area"] = func(in refcheck.Inputs) (any, error) {
			v, err := cover(in)
			if err != nil {
				return nil, err
			}
			return area(v)
		}
		if name == "Sphere" || name == "Dome" {
			handlers["canvas."+name+".Cover#edge"] = func(in refcheck.Inputs) (any, error) {
				v, err := cover(in)
				if err != nil {
					return nil, err
				}
				return v.Panels[0].Length("right")
			}
		}
	}
	handlers["canvas.RoundedBox.Cover#round"] = func(in refcheck.Inputs) (any, error) {
		v, err := canvas.RoundedBox{
			Length: in.Length("length"), Width: in.Length("width"), Radius: in.Length("radius"),
			Height: in.Length("height"), Seam: seam, Hem: seam,
		}.Cover()
		if err != nil {
			return nil, err
		}
		return v.Panels[1].Length("top")
	}
	for name, of := range map[string]func(canvas.Deviation) units.Length{
		"flat":  func(d canvas.Deviation) units.Length { return d.Flat },
		"ridge": func(d canvas.Deviation) units.Length { return d.Ridge },
	} {
		handlers["canvas.Dome.Deviation#"+name] = func(in refcheck.Inputs) (any, error) {
			d, err := dome(in).Deviation()
			return of(d), err
		}
	}
	maps.Copy(handlers, awningHandlers())
	maps.Copy(handlers, meshHandlers())
	maps.Copy(handlers, composedHandlers())
	refcheck.Run(t, refcheck.Suite{
		Package:  "canvas",
		Handlers: handlers,
		Bookkeeping: map[string]string{
			"Cover.Quantities":     "adds up Panel.Length and Piece.Area, which have rows",
			"PriceList.Bill":       "whole lots times a price",
			"Adjustment.Corner":    "looks a name up; corners have rows under Survey.Adjust",
			"Adjustment.Outline":   "copies coordinates",
			"AwningPlan.Cover":     "collects panels",
			"AwningPlan.Worst":     "the greatest of a list",
			"Cover.SeamLengthsCut": "adds up lengths, which have rows under Cover.SeamLengths and Cloth.Cut; compared with lines of the pieces",
			"Cover.Check":          "compares lengths, which have rows under Panel.Length",
			"Piece.Cutting":        "copies fields",
			"Grid":                 "lists triangles",
		},
	})
}

// survey takes keys such as AB for the tape between two corners, sAB for its own
// sigma, hA for a height and gap for that between the strings A-C and B-D.
func survey(in refcheck.Inputs) (canvas.Adjustment, error) {
	length := func(key string) units.Length { return in.Length(key).Scale(1 / over(in)) }
	s := canvas.Survey{Sigma: length("sigma")}
	for _, c := range "ABCDE" {
		if in.Has("A"+string(c)) || in.Has("D"+string(c)) || c == 'A' || in.Has(string(c)+"A") {
			s.Corners = append(s.Corners, string(c))
		}
	}
	for _, tape := range strings.Fields("AB BC CD DA AC BD AD AE BE CE DE") {
		if in.Has(tape) {
			t := canvas.Tape{From: tape[:1], To: tape[1:], Distance: length(tape)}
			if in.Has("s" + tape) {
				t.Sigma = length("s" + tape)
			}
			s.Tapes = append(s.Tapes, t)
		}
	}
	for _, c := range s.Corners {
		if in.Has("h" + c) {
			s.Heights = append(s.Heights, canvas.Height{Corner: c, Above: length("h" + c)})
		}
	}
	if in.Has("gap") {
		s.Gaps = []canvas.Gap{{First: [2]string{"A", "C"}, Second: [2]string{"B", "D"}, Above: length("gap")}}
	}
	return s.Adjust()
}

// over is how many times a network is larger than what is surveyed here, which
// is at most 100 m.
func over(in refcheck.Inputs) float64 {
	if !in.Has("over") {
		return 1
	}
	return in.Float("over")
}

// limit is that of a polygon whose corners are all tied to one another: with n
// corners n(n-1)/2 distances for 2n-3 coordinates.
func limit(in refcheck.Inputs) (any, error) {
	n := map[int]int{1: 4, 3: 5, 6: 6}[in.Int("redundancy")]
	s := canvas.Survey{Sigma: units.Millimetre}
	for i := range n {
		s.Corners = append(s.Corners, string(rune('A'+i)))
		for j := range i {
			chord := 2 * math.Abs(math.Sin(math.Pi*float64(i-j)/float64(n)))
			s.Tapes = append(s.Tapes, canvas.Tape{From: s.Corners[j], To: s.Corners[i], Distance: units.Length(chord)})
		}
	}
	a, err := s.Adjust()
	if err != nil {
		return nil, err
	}
	return a.Limit, nil
}

func dome(in refcheck.Inputs) canvas.Dome {
	return canvas.Dome{Diameter: in.Length("diameter"), Rise: in.Length("rise"), Gores: in.Int("gores"), Seam: seam}
}

func frustum(in refcheck.Inputs) canvas.Frustum {
	return canvas.Frustum{Bottom: in.Length("bottom"), Top: in.Length("top"), Height: in.Length("height"), Seam: seam}
}

// curve is a panel above a base, with one curved edge that bulges upwards.
func curve(in refcheck.Inputs, kind canvas.Curve) canvas.Panel {
	chord := in.Length("chord")
	w := canvas.Course{Curve: kind}
	if kind == canvas.Batten {
		for i := 1; in.Has(fmt.Sprintf("x%d", i)); i++ {
			w.Offsets = append(w.Offsets, canvas.Offset{Along: in.Length(fmt.Sprintf("x%d", i)), Out: in.Length(fmt.Sprintf("y%d", i))})
		}
	} else {
		w.Depth = in.Length("depth")
	}
	return canvas.Panel{Name: "p", Edges: []canvas.Edge{
		{Name: "base", From: canvas.Point{}},
		{Name: "right", From: canvas.Point{X: chord}},
		{Name: "curve", From: canvas.Point{X: chord, Y: 1}, Course: w},
		{Name: "left", From: canvas.Point{Y: 1}},
	}}
}

// under is the area between a curve and its chord.
func under(in refcheck.Inputs, kind canvas.Curve) (any, error) {
	a, err := curve(in, kind).Area()
	return a - in.Length("chord").TimesLength(1), err
}

func area(v canvas.Cover) (units.Area, error) {
	var sum units.Area
	for _, p := range v.Panels {
		a, err := p.Area()
		if err != nil {
			return 0, err
		}
		sum += a.Scale(float64(max(1, p.Quantity)))
	}
	return sum, nil
}

// cutArea is that of a panel whose corners a row lists as x y|x y.
func cutArea(in refcheck.Inputs) (any, error) {
	p, err := outline(in, in.Length("allowance"))
	if err != nil {
		return nil, err
	}
	pieces, err := canvas.Cover{Panels: []canvas.Panel{p}}.Pieces(canvas.Cloth{})
	if err != nil {
		return nil, err
	}
	return pieces[0].Area(), nil
}

// outline is a panel of straight edges with one allowance all round.
func outline(in refcheck.Inputs, allowance units.Length) (canvas.Panel, error) {
	p := canvas.Panel{Name: "p"}
	for i, corner := range strings.Split(in.Text("outline"), "|") {
		at, err := point(corner)
		if err != nil {
			return p, err
		}
		p.Edges = append(p.Edges, canvas.Edge{
			Name: fmt.Sprint("edge ", i), From: at, Finish: canvas.Finish{Kind: canvas.PlainSeam, Width: allowance},
		})
	}
	return p, nil
}

// point reads metres.
func point(s string) (canvas.Point, error) {
	var x, y float64
	_, err := fmt.Sscan(s, &x, &y)
	return canvas.Point{X: units.Length(x), Y: units.Length(y)}, err
}

func split(in refcheck.Inputs) (canvas.Cover, error) {
	p, err := outline(in, seam)
	if err != nil {
		return canvas.Cover{}, err
	}
	from, err := point(in.Text("from"))
	if err != nil {
		return canvas.Cover{}, err
	}
	to, err := point(in.Text("to"))
	if err != nil {
		return canvas.Cover{}, err
	}
	return canvas.Cover{Panels: []canvas.Panel{p}}.Split("p", from, to, canvas.Finish{Kind: canvas.PlainSeam, Width: seam})
}

func splitArea(in refcheck.Inputs, part string) (any, error) {
	v, err := split(in)
	if err != nil {
		return nil, err
	}
	for _, p := range v.Panels {
		if p.Name == part {
			return p.Area()
		}
	}
	return nil, fmt.Errorf("no %s", part)
}

// onCloth is where a point of a panel lies on cloth that shrinks or stretches.
func onCloth(in refcheck.Inputs) (canvas.Point, error) {
	return canvas.Cloth{Warp: in.Float("warp"), Weft: in.Float("weft")}.Cut(
		canvas.Point{X: in.Length("x"), Y: in.Length("y")}, in.Angle("grain"))
}
