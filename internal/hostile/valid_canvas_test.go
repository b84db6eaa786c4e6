package hostile

import (
	"context"
	"math"

	"example.com/forepeak/canvas"
	canvaspattern "example.com/forepeak/canvas/pattern"
	"example.com/forepeak/units"
)

const mm = units.Millimetre

func theSurvey() canvas.Survey {
	s := canvas.Survey{Corners: []string{"A", "B", "C", "D", "E"}, Sigma: 1 * mm}
	for _, t := range []struct {
		from, to string
		mm       float64
	}{
		{"A", "B", 2400},
		{"B", "C", 1582},
		{"C", "D", 2109},
		{"D", "E", 2062},
		{"E", "A", 1392},
		{"A", "C", 3265},
		{"A", "D", 2823},
		{"B", "D", 3077},
		{"B", "E", 3179},
		{"C", "E", 3406},
	} {
		s.Tapes = append(s.Tapes, canvas.Tape{From: t.from, To: t.to, Distance: units.Length(t.mm / 1000), Sigma: 1 * mm})
	}
	return s
}

func theHem() canvas.Finish {
	return canvas.Finish{Kind: canvas.DoubleHem, Width: 30 * mm, Turn: 10 * mm}
}

func thePanel() canvas.Panel {
	return canvas.Panel{
		Name: "awning", Quantity: 1, Edges: []canvas.Edge{
			{Name: "aft", Finish: theHem(), Course: canvas.Course{Curve: canvas.Arc, Depth: -0.1}},
			{Name: "starboard", From: canvas.Point{X: 2}, Finish: theHem()},
			{Name: "fore", From: canvas.Point{X: 2, Y: 1.5}, Finish: theHem(), Course: canvas.Course{Curve: canvas.Batten, Offsets: []canvas.Offset{{Along: 1, Out: 0.02}}}},
			{Name: "port", From: canvas.Point{Y: 1.5}, Finish: theHem()},
		},
		Holes:   []canvas.Hole{{Name: "stay", At: canvas.Point{X: 1, Y: 0.7}, Length: 0.1, Width: 0.04, Margin: 0.03}},
		Patches: []canvas.CornerPatch{{Corner: 1, Along: 0.2, Layers: 2, Step: 0.03}},
	}
}

func theBox() canvas.RoundedBox {
	return canvas.RoundedBox{
		Name: "Locker cover", Length: 620 * mm, Width: 380 * mm, Height: 330 * mm, Radius: 60 * mm, Ease: 8 * mm,
		Base: canvas.DrawCord, Seam: 15 * mm, Hem: 25 * mm,
		Sides: []canvas.Hole{{Name: "latch", At: canvas.Point{X: 250 * mm, Y: 220 * mm}, Length: 100 * mm, Width: 40 * mm, Margin: 30 * mm}},
	}
}

func theCloth() canvas.Cloth {
	return canvas.Cloth{Name: "acrylic", Thickness: 0.5 * mm, Warp: -0.01, Weft: -0.005, Fold: 0.06}
}

func theSewing() canvas.Sewing {
	return canvas.Sewing{Stitch: canvas.Lockstitch, Length: 4 * mm, Waste: 0.15}
}

func theCover() canvas.Cover { return must(theBox().Cover()) }

func thePieces() []canvas.Piece { return must(theCover().Pieces(theCloth())) }

func theAwning() canvas.Awning {
	tie := canvas.Tie{Eyelet: 3000, Strap: 8000, Lashing: 4000, Parts: 4, Fixing: 2000}
	a := canvas.Awning{
		Name: "awning", Edge: canvas.Finish{Kind: canvas.Webbing, Width: 40 * mm},
		Canopy: canvas.Canopy{Pitch: 0.17, Blockage: 0.3}, Above: 2.5, Heel: 0.09, Flutter: 1.5,
		Weight: 6, Prestress: 60, Stiffness: 8000, Strength: 25000, Layers: 3, Safety: 4,
	}
	for i, p := range []canvas.Point{{X: 0, Y: 0}, {X: 2.4, Y: 0}, {X: 2.2, Y: 2}, {X: 0.2, Y: 2}} {
		a.Edges = append(a.Edges, canvas.AwningEdge{Name: []string{"aft", "starboard", "fore", "port"}[i], From: p, Hollow: 0.08, Tape: 12000, Tie: tie})
	}
	return a
}

func theRows() [][]canvas.Space {
	var rows [][]canvas.Space
	for y := -250.0; y <= 250; y += 125 {
		var row []canvas.Space
		for x := -300.0; x <= 300; x += 100 {
			row = append(row, canvas.Space{X: units.Length(x) * mm, Y: units.Length(y) * mm, Z: units.Length(60*math.Cos(x/300)*math.Cos(y/300)) * mm})
		}
		rows = append(rows, row)
	}
	return rows
}

func theLay() canvas.Lay {
	pieces := thePieces()
	l := canvas.Lay{Gap: 5 * mm, Deviation: 0.5 * mm, Rolls: []canvas.Roll{
		{Name: "offcut", Width: 1, Length: 1.2, Value: 5},
		{Name: "roll", Width: 1.53, Selvedge: 0.01, Price: 30, Increment: 0.1, Flaws: []canvas.Flaw{
			{Name: "stain", Outline: []canvas.Point{{X: 0.5, Y: 0.5}, {X: 0.6, Y: 0.5}, {X: 0.6, Y: 0.6}}},
		}, Along: 0.2},
	}}
	for _, p := range pieces {
		l.Pieces = append(l.Pieces, p.Cutting())
	}
	l.Pieces[0].QuantityMirrored = 1
	l.Pieces[0].Match = &canvas.Match{At: l.Pieces[0].Cut[0], Along: 0.05, Tolerance: 2 * mm}
	return l
}

func theLayOptions() canvas.LayOptions { return canvas.LayOptions{Seed: 1, Work: 200, Workers: 1} }

func init() {
	add := addType
	add(func() any { return theSurvey() })
	add(func() any { return must(theSurvey().Adjust()) })
	add(func() any { return theHem() })
	add(func() any { return thePanel() })
	add(func() any { return theBox() })
	add(func() any { return theCloth() })
	add(func() any { return theSewing() })
	add(func() any { return theCover() })
	add(func() any { return thePieces() })
	add(func() any { return thePieces()[0] })
	add(func() any { return theAwning() })
	add(func() any { return theRows() })
	add(func() any { return must(canvas.Grid(theRows())) })
	add(func() any { return canvas.Limits{Warp: 0.01, Weft: 0.02, Shear: 0.05} })
	add(func() any { return must(theAwning().Plan(canvas.Wind{Mean: 6, Height: 10})) })
	add(func() any { return canvas.Wind{Mean: 6, Height: 10} })
	add(func() any { return canvas.Canopy{Pitch: 0.17, Blockage: 0.3} })
	add(func() any { return canvas.Membrane{Span: 2.4, Prestress: 60, Stiffness: 60000} })
	add(func() any {
		return canvas.Frustum{Name: "coat", Bottom: 0.32, Top: 0.16, Height: 0.12, Seam: 0.015, BottomEdge: canvas.Finish{}, TopEdge: canvas.Finish{}}
	})
	add(func() any {
		return canvas.ObliqueCone{Name: "coat", Bottom: 0.32, Top: 0.16, Height: 0.12, OffsetX: -0.03, OffsetY: 0.01, Seam: 0.015}
	})
	add(func() any {
		return canvas.Transition{Name: "scoop", Length: 0.5, Width: 0.4, Diameter: 0.25, Height: 0.3, OffsetX: 0.02, OffsetY: 0.01, Seam: 0.01}
	})
	add(func() any { return canvas.Sphere{Name: "buoy", Diameter: 0.5, Gores: 6, Seam: 0.008} })
	add(func() any { return canvas.Dome{Name: "dome", Diameter: 2, Rise: 1, Gores: 8, Opening: 0.1, Seam: 0.01} })
	add(func() any {
		return canvas.Cylinder{Name: "winch", Diameter: 0.18, Height: 0.15, Ease: 0.01, Rise: 0.04, Gores: 6, Seam: 0.008, Hem: 0.02}
	})
	add(func() any {
		return canvas.BottleCover{
			Name: "bottle", Diameter: 0.3, Height: 0.4, Rise: 0.15, Gores: 8, Ease: 0.01, Clearance: 0.04,
			Valve: 0.11, Hose: 0.03, HoseHeight: 0.3, Seam: 0.012, Hem: 0.02,
		}
	})
	add(func() any { return must(canvaspattern.FullSize("locker", thePieces(), 1.5)) })
	add(func() any {
		square := []canvas.Point{{}, {X: 0.4}, {X: 0.4, Y: 0.4}, {Y: 0.4}}
		return canvaspattern.Roll{
			Title: "roll", Width: 1.4, Length: 3, Pieces: []canvaspattern.RollPiece{{Name: "square", Order: 1, Outline: square}},
			Flaws:  []canvas.Flaw{{Outline: []canvas.Point{{X: 0.5, Y: 0.5}, {X: 0.6, Y: 0.5}, {X: 0.6, Y: 0.6}, {X: 0.5, Y: 0.6}}}},
			Offcut: canvaspattern.Zone{From: canvas.Point{X: 1}, To: canvas.Point{X: 3, Y: 1.4}},
		}
	})
	add(func() any { return canvaspattern.Paper{Width: 0.21, Height: 0.297} })

	valid["canvas.Adjustment.Corner 1"] = "C"
	valid["canvas.Panel.Length 1"] = "aft"
	valid["canvas.Panel.Fasteners 1"] = []string{"starboard", "fore"}
	valid["canvas.Panel.Fasteners 2"] = 0.015
	valid["canvas.Panel.Fasteners 3"] = 0.5
	valid["canvas.ThreadRatio stitch"] = canvas.Lockstitch
	valid["canvas.ThreadRatio thickness"] = 1.2e-3
	valid["canvas.ThreadRatio length"] = 4e-3
	valid["canvas.Sewing.Thread 1"] = 12
	valid["canvas.Sewing.Thread 2"] = 1.2e-3
	valid["canvas.Needle thread"] = 90e-6
	valid["canvas.Ticket thread"] = 90e-6
	valid["canvas.FoldStrain depth"] = 0.03
	valid["canvas.Diameter girth"] = 0.94
	valid["canvas.Diameter thickness"] = 0.001
	valid["canvas.SagPull span"] = 2.4
	valid["canvas.SagPull sag"] = 0.04
	valid["canvas.SagPull pressure"] = 6
	valid["canvas.ArcRadius chord"] = 1.2
	valid["canvas.ArcRadius rise"] = 0.06
	valid["canvas.ClipSpacing radius"] = 0.5
	valid["canvas.ClipSpacing deviation"] = 5e-4
	valid["canvas.Membrane.Measured 1"] = 29
	valid["canvas.Membrane.Measured 2"] = 0.15
	valid["canvas.Membrane.Pull 1"] = 60
	for _, k := range []string{"ArcEdge", "ParabolaEdge"} {
		valid["canvas."+k+" chord"] = 3
		valid["canvas."+k+" hollow"] = 0.3
		valid["canvas."+k+" pull"] = 200
	}
	valid["canvas/pattern.FullSize width"] = 1.5
	valid["canvas/pattern.Overview width"] = 0.19
	valid["canvas/pattern.WritePolylines deviation"] = 0.0002
	add(func() any { return canvas.BiasBinding{Length: 12, Width: 0.05, Roll: 1.5} })
	valid["canvas.Piece.MarkingOut 1"] = 0.005
	valid["canvas.Wind.At 1"] = 2
	add(func() any { return theLay() })
	add(func() any { return theLayOptions() })
	add(func() any { return must(theLay().Plan(context.Background(), theLayOptions())).Certificate })
	add(func() any { return must(theLay().Plan(context.Background(), theLayOptions())) })
	costly["canvas.Lay.Plan"] = 60
	seam := canvas.Finish{Kind: canvas.PlainSeam, Width: 15 * mm}
	plain := thePanel()
	plain.Holes, plain.Patches = nil, nil
	valid["canvas.Cover.Split 0"] = canvas.Cover{Panels: []canvas.Panel{plain}}
	valid["canvas.Cover.Split 1"] = "awning"
	valid["canvas.Cover.Split 2"] = canvas.Point{X: 0.8}
	valid["canvas.Cover.Split 3"] = canvas.Point{X: 0.8, Y: 1}
	valid["canvas.Cover.Split 4"] = seam
	valid["canvas.Lay.PlanCovers 4"] = seam
	valid["canvas.Lay.PlanCovers 2"] = []canvas.Cover{theCover()}
	costly["canvas.Lay.PlanCovers"] = 20
}
