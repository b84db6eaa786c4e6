package canvas_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/forepeak/canvas"
	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
)

// composedHandlers are what is put together from other calculations, in cases that somebody
// has worked out.
func composedHandlers() map[string]refcheck.Handler {
	return map[string]refcheck.Handler{
		"canvas.Finish.Allowance": func(in refcheck.Inputs) (any, error) {
			f := canvas.Finish{Kind: canvas.FinishKind(in.Text("finish")), Width: in.Length("width")}
			if in.Has("turn") {
				f.Turn = in.Length("turn")
			}
			return f.Allowance(0)
		},
		// Half a disk, thinned by a little more than an octagon lies within its circle.
		"canvas.Piece.MarkingOut#side": func(in refcheck.Inputs) (any, error) {
			d := in.Length("diameter")
			p := canvas.Panel{Name: "half disk", Edges: []canvas.Edge{
				{Name: "base"},
				{Name: "arc", From: canvas.Point{X: d}, Course: canvas.Course{Curve: canvas.Arc, Depth: d / 2}},
			}}
			pieces, err := canvas.Cover{Panels: []canvas.Panel{p}}.Pieces(canvas.Cloth{})
			if err != nil {
				return nil, err
			}
			at, err := pieces[0].MarkingOut(in.Length("deviation"))
			if err != nil {
				return nil, err
			}
			if len(at) != 5 {
				return nil, fmt.Errorf("%d points, and not half of eight and one", len(at))
			}
			return math.Hypot(float64(at[3].X-at[2].X), float64(at[3].Y-at[2].Y)) / float64(d), nil
		},
		// The way along edges from the point with the greatest angle defect of a hill to its foot.
		"canvas.Mesh.Suggest#length": func(in refcheck.Inputs) (any, error) {
			const step = 0.1
			rows := make([][]canvas.Space, in.Int("rows"))
			for i := range rows {
				rows[i] = make([]canvas.Space, in.Int("columns"))
				for j := range rows[i] {
					x, y := float64(j)-in.Float("x"), float64(i)-in.Float("y")
					rows[i][j] = canvas.Space{
						X: units.Length(step * float64(j)), Y: units.Length(step * float64(i)),
						Z: in.Length("high").Scale(math.Exp(-(x*x + y*y) / in.Float("wide"))),
					}
				}
			}
			m, err := canvas.Grid(rows)
			if err != nil {
				return nil, err
			}
			way, err := m.Suggest()
			if err != nil || len(way) < 2 {
				return nil, fmt.Errorf("no way: %v", err)
			}
			sum := 0.0
			for i, p := range way[1:] {
				a, b := m.Points[way[i]], m.Points[p]
				sum += math.Hypot(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y)), float64(b.Z-a.Z))
			}
			return units.Length(sum), nil
		},
		"canvas.Spacing#parts": func(in refcheck.Inputs) (any, error) {
			parts, _, err := canvas.Spacing(in.Length("length"), in.Length("most"))
			return parts, err
		},
		"canvas.Spacing#pitch": func(in refcheck.Inputs) (any, error) {
			_, pitch, err := canvas.Spacing(in.Length("length"), in.Length("most"))
			return pitch, err
		},
		// Posts round a plot, a hundred times smaller and hardly inset.
		"canvas.Panel.Fasteners#number": func(in refcheck.Inputs) (any, error) {
			const scale = 1.0 / 100
			x, y := in.Length("long").Scale(scale), in.Length("wide").Scale(scale)
			p := canvas.Panel{Name: "plot", Edges: []canvas.Edge{
				{Name: "south"},
				{Name: "east", From: canvas.Point{X: x}},
				{Name: "north", From: canvas.Point{X: x, Y: y}},
				{Name: "west", From: canvas.Point{Y: y}},
			}}
			at, err := p.Fasteners(strings.Fields(in.Text("sides")), units.Millimetre, in.Length("apart").Scale(scale))
			return len(at), err
		},
		// The longest binding, hardly wide, that one strip gives.
		"canvas.BiasBinding.Cloth#strip": func(in refcheck.Inputs) (any, error) {
			roll := in.Length("roll")
			longest, tooLong := roll, roll.Scale(2)
			for tooLong-longest > units.Micrometre {
				l := (longest + tooLong) / 2
				_, strips, err := canvas.BiasBinding{Length: l, Width: units.Millimetre, Roll: roll}.Cloth()
				if err != nil {
					return nil, err
				}
				if strips == 1 {
					longest = l
				} else {
					tooLong = l
				}
			}
			return longest, nil
		},
		// The least hole that lets gas out of a closed base.
		"canvas.BottleCover.Cover#vent": func(refcheck.Inputs) (any, error) {
			const mm = units.Millimetre
			for vent := 10 * mm; ; vent += mm {
				_, err := canvas.BottleCover{
					Name: "bottle", Diameter: 300 * mm, Height: 400 * mm, Rise: 150 * mm, Gores: 8, Ease: 10 * mm,
					Valve: 110 * mm, Hose: 30 * mm, HoseHeight: 350 * mm, Closed: true, Vent: vent, Seam: 12 * mm, Hem: 20 * mm, Gap: 8 * mm,
				}.Cover()
				if !errors.Is(err, canvas.ErrVent) {
					return vent, err
				}
			}
		},
		"canvas.Lay.Plan#used": func(in refcheck.Inputs) (any, error) {
			p, err := squares(in).Plan(context.Background(), canvas.LayOptions{})
			if err != nil {
				return nil, err
			}
			return p.Rolls[0].Used, nil
		},
		"canvas.LayPlan.Check#used": func(in refcheck.Inputs) (any, error) {
			l := squares(in)
			p, err := l.Plan(context.Background(), canvas.LayOptions{})
			if err != nil {
				return nil, err
			}
			return p.Rolls[0].Used, p.Check(l)
		},
		"canvas.Lay.PlanCovers#used": func(in refcheck.Inputs) (any, error) {
			l := squares(in)
			var covers []canvas.Cover
			for _, s := range l.Pieces {
				var v canvas.Cover
				p := canvas.Panel{Name: s.Name}
				for i, at := range s.Cut {
					p.Edges = append(p.Edges, canvas.Edge{Name: fmt.Sprint("edge ", i), From: at})
				}
				v.Panels = []canvas.Panel{p}
				covers = append(covers, v)
			}
			l.Pieces = nil
			p, err := l.PlanCovers(context.Background(), covers, canvas.Cloth{}, canvas.Finish{Kind: canvas.PlainSeam, Width: seam}, canvas.LayOptions{})
			if err != nil {
				return nil, err
			}
			return p.Plan.Rolls[0].Used, nil
		},
		// A dissection by its code: rows of squares from the left, each row where the bottom of
		// the cloth is still free. Hundredths of a millimetre stand for the unit of the source.
		"canvas.LayCertificate.Check": func(in refcheck.Inputs) (any, error) {
			sheet := canvas.CertifiedSheet{Roll: "cloth", Width: int64(in.Int("width")), Length: int64(in.Int("length"))}
			level := make([]int64, sheet.Width) // how far each hundredth of the width is covered
			for row := range strings.SplitSeq(in.Text("code"), "|") {
				for word := range strings.FieldsSeq(row) {
					var side int64
					if _, err := fmt.Sscan(word, &side); err != nil {
						return nil, err
					}
					low := slices.Min(level)
					y := int64(slices.Index(level, low))
					sheet.Pieces = append(sheet.Pieces, canvas.CertifiedPiece{
						Name: word, Outline: []int64{0, 0, side, 0, side, side, 0, side}, X: low, Y: y,
					})
					for i := y; i < min(y+side, sheet.Width); i++ {
						level[i] = low + side
					}
				}
			}
			if err := (canvas.LayCertificate{Sheets: []canvas.CertifiedSheet{sheet}}).Check(); err != nil {
				return "refused", nil
			}
			return "holds", nil
		},
	}
}

// squares are those of a dissected rectangle, to be cut from cloth as wide as it; the unit
// of the source is a centimetre.
func squares(in refcheck.Inputs) canvas.Lay {
	l := canvas.Lay{Rolls: []canvas.Roll{{Name: "cloth", Width: in.Length("width"), Price: 1}}}
	for word := range strings.FieldsSeq(in.Text("squares")) {
		var side float64
		if _, err := fmt.Sscan(word, &side); err != nil {
			return canvas.Lay{} // refused
		}
		s := units.Centimetre.Scale(side)
		l.Pieces = append(l.Pieces, canvas.Cutting{Name: word, Cut: []canvas.Point{{}, {X: s}, {X: s, Y: s}, {Y: s}}})
	}
	return l
}
