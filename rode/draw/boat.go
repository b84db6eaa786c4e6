package draw

import (
	"math"

	"example.com/forepeak/internal/svg"
)

// hull is a sketched hull in metres: along from the roller, up from the water.
type hull struct {
	none     bool    // the roller is too far under water for a hull above it
	stem     float64 // where its top is, ahead of the roller
	deck     float64 // its height at the bow
	draught  float64 // of the hull without its keel
	overhang float64 // of the bow
	length   float64 // over all, or to the break line
	whole    bool
	two      bool // hulls, with a house on the deck between them
}

// hull fits a hull to the roller, on the stem head or on the stem below it, for
// a drawing with so many millimetres to the metre.
func (v *View) hull(b Boat, mm float64) hull {
	roller := v.Site.Roller.Metres()
	h := hull{deck: roller, length: b.Length.Metres(), whole: b.Length > 0, two: b.Hulls == 2}
	if roller < -1.5 {
		return hull{none: true}
	}
	if low := math.Max(0.9, 0.09*h.length); roller < 0.4*low {
		h.deck = low
	}
	if h.overhang = b.Overhang.Metres(); h.overhang == 0 {
		h.overhang = 0.5 * h.deck
		if h.two {
			h.overhang = h.deck / 8
		}
	}
	h.draught = 0.3 * h.deck
	if h.whole {
		h.draught = 0.05 * h.length
		if h.two {
			h.draught = 0.035 * h.length
		}
	} else {
		h.length = math.Max(h.overhang+2.2*h.deck, 11/mm)
	}
	h.draught = math.Max(h.draught, -1.3*roller)
	h.stem = h.stemAt(roller)

	// The sketch must not run aground where the boat may not.
	bed := math.Max(v.bed(v.distance()).Metres(), v.Site.Slope.Tan()*(v.distance().Metres()+h.aft()))
	h.draught = math.Max(math.Max(0, -1.01*roller), math.Min(h.draught, 0.8*(v.Site.Depth.Metres()-bed)))
	h.stem = h.stemAt(roller)
	return h
}

// aft is how far the hull reaches abaft the roller.
func (h hull) aft() float64 { return h.length - h.stem }

// The stem is two parabolas that meet smoothly at the waterline: one above
// with its control point at (0.55 overhang, 0.3 deck), one below that ends
// level.
const (
	stemAlong = 0.55
	stemUp    = 0.3
	flare     = (1 - stemAlong) / stemUp // of the stem at the waterline, in overhangs to a deck height
)

// forefoot is where the tangent at the waterline meets the depth of the hull.
func (h hull) forefoot() float64 {
	return h.overhang * (1 + flare*h.draught/h.deck)
}

// stemAt is how far abaft its top the stem is at a height.
func (h hull) stemAt(z float64) float64 {
	if z >= 0 {
		// z = deck ((1-t)² + 2 t (1-t) stemUp)
		a, b, c := 1-2*stemUp, 2*stemUp-2, 1-z/h.deck
		t := 2 * c / (-b + math.Sqrt(math.Max(0, b*b-4*a*c)))
		return h.overhang * (2*t*(1-t)*stemAlong + t*t)
	}
	// z = -draught (2 t - t²), along = overhang (1-t)² + 2 t (1-t) forefoot + t² end
	t := 1 - math.Sqrt(math.Max(0, 1+z/h.draught))
	return (1-t)*(1-t)*h.overhang + 2*t*(1-t)*h.forefoot() + t*t*h.keel()
}

// keel is where the bottom becomes level.
func (h hull) keel() float64 { return h.forefoot() + 1.2*h.draught }

// aboard places a point given along from the stem head and up from the water.
func (f *frame) aboard(h hull, along, up float64) svg.Point {
	return f.at(f.view.distance().Metres()+along-h.stem, f.view.Site.Depth.Metres()+up)
}

func (f *frame) drawHull() {
	h := f.view.hull(f.boat, f.mm)
	if h.none {
		return
	}
	at := func(along, up float64) svg.Point { return f.aboard(h, along, up) }
	l := h.length
	var p svg.Path
	switch {
	case h.whole && h.two: // a house with a long roof
		p.Move(at(0.26*l, 0.7*h.deck))
		p.Curve(at(0.33*l, 1.5*h.deck), at(0.42*l, 1.6*h.deck))
		p.Line(at(0.86*l, 1.58*h.deck))
		p.Line(at(0.87*l, 1.45*h.deck))
		p.Line(at(0.72*l, 1.42*h.deck))
		p.Line(at(0.72*l, 0.7*h.deck))
		p.Close()
		f.Path("hull", &p)
		p = svg.Path{}
	case h.whole: // a low coachroof
		p.Move(at(0.36*l, 0.7*h.deck))
		p.Curve(at(0.4*l, 1.1*h.deck), at(0.48*l, 1.12*h.deck))
		p.Line(at(0.7*l, 1.08*h.deck))
		p.Line(at(0.72*l, 0.7*h.deck))
		p.Close()
		f.Path("hull", &p)
		p = svg.Path{}
	}
	p.Move(at(0, h.deck))
	p.Curve(at(stemAlong*h.overhang, stemUp*h.deck), at(h.overhang, 0))
	p.Curve(at(h.forefoot(), -h.draught), at(h.keel(), -h.draught))
	switch {
	case h.whole && h.two: // a stern in steps
		p.Line(at(math.Max(0.7*l, h.keel()), -h.draught))
		p.Curve(at(0.9*l, -h.draught), at(l, 0.05*h.deck))
		p.Line(at(l, 0.2*h.deck))
		p.Line(at(0.97*l, 0.2*h.deck))
		p.Line(at(0.97*l, 0.5*h.deck))
		p.Line(at(0.94*l, 0.5*h.deck))
		p.Line(at(0.94*l, 0.85*h.deck))
		p.Curve(at(0.5*l, 0.9*h.deck), at(0, h.deck))
	case h.whole:
		p.Line(at(math.Max(0.6*l, h.keel()), -h.draught))
		p.Curve(at(0.82*l, -h.draught), at(0.96*l, 0.05*h.deck))
		p.Line(at(l, 0.78*h.deck))
		p.Curve(at(0.55*l, 0.74*h.deck), at(0, h.deck))
	default:
		p.Line(at(l, -h.draught))
		f.breakLine(&p, at(l, -h.draught), at(l, 0.85*h.deck))
		p.Curve(at(0.45*l, 0.88*h.deck), at(0, h.deck))
	}
	p.Close()
	f.Path("hull", &p)
}

// drawRoller draws the bow roller, where the rode ends.
func (f *frame) drawRoller() {
	h := f.view.hull(f.boat, f.mm)
	radius := 0.8
	if !h.none {
		radius = math.Min(radius, 0.3*h.deck*f.mm)
	}
	f.Circle("roller", f.aboard(h, h.stem, f.view.Site.Roller.Metres()), radius)
}

// breakLine goes up from one point to another with the zigzag of a part cut off.
func (f *frame) breakLine(p *svg.Path, from, to svg.Point) {
	d := math.Min(1.4, (from.Y-to.Y)/5)
	y := (from.Y + to.Y) / 2
	p.Line(svg.Point{X: from.X, Y: y + d})
	p.Line(svg.Point{X: from.X + d, Y: y + d/3})
	p.Line(svg.Point{X: from.X - d, Y: y - d/3})
	p.Line(svg.Point{X: from.X, Y: y - d})
	p.Line(to)
}
