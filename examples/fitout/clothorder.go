package main

import (
	"context"
	"fmt"
	"io"

	"example.com/forepeak/canvas"
	"example.com/forepeak/canvas/pattern"
	"example.com/forepeak/units"
)

// clothOrder is where everything is cut from.
type clothOrder struct{ canvas.CoversPlan }

// cutGap is kept between cut lines, for the line and the blade.
func (u family) cutGap() units.Length {
	if u.feet {
		return 3 * units.Inch / 16
	}
	return 4 * units.Millimetre
}

const (
	layPlaces = 4_000_000 // tried in the search: a few seconds
	keepLeast = 200 * units.Millimetre
)

func (r *rollSpec) checks(at string) []error {
	checks := []error{
		text(at+".name", r.Name),
		within(at+".width", r.Width, 300*units.Millimetre, 5*units.Metre),
		within(at+".selvedge", r.Selvedge, 0, 50*units.Millimetre),
		within(at+".step", r.Step, 0, 10*units.Metre),
	}
	if r.Length != 0 {
		checks = append(checks, within(at+".length", r.Length, 100*units.Millimetre, 100*units.Metre))
	}
	return checks
}

// orderCloth lays all pieces; panels too wide for the cloth are split.
func (s *canvasSpec) orderCloth(covers []canvas.Cover, in family) (*clothOrder, error) {
	lay := canvas.Lay{Gap: in.cutGap()}
	for _, r := range s.Rolls {
		roll := canvas.Roll{Name: r.Name, Width: r.Width, Length: r.Length, Selvedge: r.Selvedge, Increment: r.Step}
		if r.Length == 0 {
			roll.Price = 1 // length is what is saved; the shopping list knows what it costs
		}
		lay.Rolls = append(lay.Rolls, roll)
	}
	seam := canvas.Finish{Kind: canvas.FelledOver, Width: s.Seam, Turn: s.Seam.Scale(2. / 3)}
	plan, err := lay.PlanCovers(context.Background(), covers, s.cloth(), seam, canvas.LayOptions{Work: layPlaces})
	if err != nil {
		return nil, err
	}
	return &clothOrder{plan}, nil
}

func (p *plan) writeClothOrder(s *section) error {
	if p.canvas == nil || p.canvas.order == nil {
		s.say("The boat file names no rolls of cloth.")
		if p.canvas != nil {
			s.warn("No roll of cloth is named: the shopping list has the bare area of the pieces, nothing between them is counted, and a piece may be wider than the cloth.")
		}
		return nil
	}
	o, spec := p.canvas.order, p.boat.Canvas
	for _, t := range o.Splits {
		way := "along the warp"
		if t.Square {
			way = "square to the warp"
		}
		s.say("The %s is wider than any of the cloth: it is cut in two %s and joined by a flat-felled seam, placed where the least cloth was found to be needed: %d places were tried, each with a short search, so a better one may be left.", t.Panel, way, t.Tried)
	}
	t := table{
		Caption: fmt.Sprintf("What is cut from what, %s between cut lines", p.in.tape(p.in.cutGap(), 0)), Brief: 3,
		Head: []string{"cloth", "pieces", "used, " + p.in.long.name, "no way below, " + p.in.long.name, "of it in pieces, %", "left in one piece, " + p.in.small.name},
	}
	for _, u := range o.Plan.Rolls {
		r := &spec.Rolls[u.Roll]
		left := "nothing worth keeping"
		if u.Rest.Length >= keepLeast && u.Rest.Width >= keepLeast {
			left = fmt.Sprintf("%s by %s", p.in.small.down(u.Rest.Length, 0), p.in.small.down(u.Rest.Width, 0))
		}
		t.Rows = append(t.Rows, row("%s, %s wide|%d|%s|%s|%.0f|%s", u.Name, p.in.near.say(r.Width, 2), len(u.Laid), p.in.long.num(u.Used, 2), p.in.long.num(u.Bound, 2), 100*u.Utilisation, left))
		if r.Length > 0 {
			s.do("Cut from the %s first: %d of the pieces.", u.Name, len(u.Laid))
			continue
		}
		s.do("Buy %s of %s, %s wide.", p.in.long.short(u.Bought, 2), spec.Cloth, p.in.near.say(r.Width, 2))
		buy := p.in.length(purchase{what: fmt.Sprintf("%s, %s wide", spec.Cloth, p.in.near.say(r.Width, 2)), kind: "cloth", why: "all that is sewn, as laid out"}, u.Used, r.Step)
		if p.in.feet {
			buy.step = r.Step.Feet()
		}
		s.buy(buy)
	}
	s.table(t)
	s.say("No two pieces overlap: that is proved in whole numbers, apart from the search. The grain of every piece lies along the cloth, whose right side is up.")
	for i, u := range o.Plan.Rolls {
		s.figure(figure{fmt.Sprintf("roll-%d.svg", i+1), "What is cut from the " + u.Name, func(w io.Writer) error { return p.drawRoll(w, i) }})
	}
	s.check(measure, "The cloth: width between the selvedges, and flaws", "no narrower than in the table, and no flaw under a piece; otherwise lay it out again with what you have")
	s.check(dryFit, "All pieces marked on the cloth before the first cut", "they lie as in the figure, numbered in the order of cutting")
	return nil
}

// drawRoll draws a roll of the plan with its pieces.
func (p *plan) drawRoll(w io.Writer, roll int) error {
	o := p.canvas.order
	u := &o.Plan.Rolls[roll]
	r := pattern.RollOf(o.Lay, *u)
	r.Imperial = p.in.feet
	for i, q := range u.Laid {
		r.Pieces[i].Name = titled(o.Covers[o.Sources[q.Piece].Cover].Title, r.Pieces[i].Name)
	}
	if u.Rest.Length < keepLeast || u.Rest.Width < keepLeast {
		r.Offcut = pattern.Zone{}
	}
	sheet, err := r.Draw()
	if err != nil {
		return err
	}
	return sheet.WriteSVG(w, fmt.Sprintf("roll-%d", roll+1))
}
