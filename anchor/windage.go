package anchor

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Shape is how the force on a part of the boat changes with the wind's angle.
type Shape int

// The shapes. With a the angle off the bow,
//
//	              along                          across
//	Block         cos(phi)                       (sin(a) - sin(5a)/20) / 0.95
//	Distributed   (sin(g) - sin(5g)/10) / 0.9    as Block
//	Round         cos(a)                         sin(a)
//	Spar          cos(a)                         sin(a) |sin(a)|
//
// where phi and g are the angle stretched so that the force along is 0 at
// Part.Zero (UFC 4-159-03, 2005, section 4-4, cases I and II; its shape across is
// recalled). Round is what looks the same from all sides, Spar a rod along
// the boat, which feels the wind across it only.
const (
	Block       Shape = iota // a hull, a deckhouse, a flat sheet of canvas
	Distributed              // several houses along a hull
	Round                    // a mast, wires, a rolled sail on a stay, a heap of things
	Spar                     // a boom with its furled sail, a rail
)

var shapeNames = []string{"block", "distributed", "round", "spar"}

// String is the shape's name.
func (s Shape) String() string {
	if s < 0 || int(s) >= len(shapeNames) {
		return fmt.Sprintf("shape %d", int(s))
	}
	return shapeNames[s]
}

// MarshalText writes the shape's name.
func (s Shape) MarshalText() ([]byte, error) {
	if s < 0 || int(s) >= len(shapeNames) {
		return nil, refuse("Shape", int(s), "one of the shapes")
	}
	return []byte(shapeNames[s]), nil
}

// UnmarshalText reads the shape's name.
func (s *Shape) UnmarshalText(text []byte) error {
	for i, n := range shapeNames {
		if n == string(text) {
			*s = Shape(i)
			return nil
		}
	}
	return refuseAs(ErrUnknown, "Shape", fmt.Sprintf("%q", text), fmt.Sprint(shapeNames))
}

// Part is one thing that stands in the wind.
type Part struct {
	Name  string
	Shape Shape

	Front, Side units.Area // as seen from ahead and from abeam
	// DragFront and DragSide are the drag coefficients on these. Zero counts as 1.2
	// for a Round part, the coefficient of wires, and as 1.0 for the others, that of
	// large flat surfaces (46 CFR 174.055, table (b)).
	DragFront, DragSide float64
	// Shielded is the part of its drag that it is spared because other parts stand
	// before it: 0 for one that stands alone, 1 for one that feels no wind.
	Shielded float64

	Bottom, Top units.Length // heights above the water between which it spreads
	// Station is the middle of its side, forward of midships, negative abaft.
	// Length is its extent along the boat; the centre of a side force moves along
	// it to the end that the wind strikes first.
	Station, Length units.Length
	// Zero is the angle off the bow at which the force along changes sign, from 30° to
	// 150°; 0 counts as 90°. For Block and Distributed.
	Zero units.Angle
}

// Wires are wires or ropes of one diameter.
type Wires struct {
	Name        string
	Diameter    units.Length
	Length      units.Length // of all of them together
	Bottom, Top units.Length // heights above the water between which they run
}

// Part is the wires as a part of a Windage.
func (w Wires) Part() Part {
	a := w.Diameter.TimesLength(w.Length)
	return Part{Name: w.Name, Shape: Round, Front: a, Side: a, Bottom: w.Bottom, Top: w.Top}
}

// Windage is a boat above the water, as the sum of her parts.
type Windage struct{ Parts []Part }

// WindLoad is the load of a wind and what it is made of.
type WindLoad struct {
	Load
	// Height is where the force along acts, and Arm where the force across does,
	// above the water.
	Height, Arm units.Length
	Parts       []Load // of each part, in their order
}

// Load is the load of a wind that comes from an angle off the bow, positive to
// starboard:
//
//	X = -q A_front C_front k (1 - s) f(a)      Y = -q A_side C_side k (1 - s) g(a)
//
// with q the dynamic pressure at the height of the wind, k the mean over the
// part's height of the square of the speed there to that at the wind's height, s
// what it is shielded, f and g the part's shape, and the yawing moment that of
// Y about midships.
//
// It is the load of a steady wind on a boat held at that angle. A gust is a
// higher speed: see [GustFactor]. A boat at anchor sheers: look at
// what she pulls at 20° to 40° too, not at 0° only. Drag coefficients are good
// to a fifth at best.
func (b Windage) Load(w Wind, from units.Angle) (WindLoad, error) {
	var c checker
	w.check(&c)
	b.check(&c)
	between(&c, "from", from, -100*units.Turn, 100*units.Turn)
	if c.err != nil {
		return WindLoad{}, c.err
	}
	sin, cos := math.Sincos(float64(from))
	out := WindLoad{Parts: make([]Load, len(b.Parts))}
	var alongMoment, along, acrossMoment, across float64
	for i := range b.Parts {
		p := &b.Parts[i]
		mean, centre := w.exposure(float64(p.Bottom), float64(p.Top))
		q := w.pressure() * mean * (1 - p.Shielded)
		f, g := p.shape(float64(from), sin, cos)
		front, side := p.drag()
		x := 0 - q*float64(p.Front)*front*f
		y := 0 - q*float64(p.Side)*side*g // never -0
		at := float64(p.Station)
		if p.Shape != Round {
			at += float64(p.Length) * shift(sin, cos)
		}
		l := Load{units.Force(x), units.Force(y), units.Torque(y * at)}
		out.Parts[i] = l
		out.Load = out.Plus(l)
		along, alongMoment = along+math.Abs(x), alongMoment+math.Abs(x)*centre
		across, acrossMoment = across+math.Abs(y), acrossMoment+math.Abs(y)*centre
	}
	if along > 0 {
		out.Height = units.Length(alongMoment / along)
	}
	if across > 0 {
		out.Arm = units.Length(acrossMoment / across)
	}
	return out, nil
}

// SpeedFor is the wind from ahead, of the same profile and air as w, that
// pulls with a force.
func (b Windage) SpeedFor(force units.Force, w Wind) (units.Speed, error) {
	w.Speed = 1
	l, err := b.Load(w, 0)
	if err != nil {
		return 0, err
	}
	var c checker
	notNegative(&c, "force", force)
	c.must(l.X < 0, "Parts", l.X, "a boat with windage from ahead")
	if c.err != nil {
		return 0, c.err
	}
	return units.Speed(math.Sqrt(float64(force) / -float64(l.X))), nil
}

func (p *Part) drag() (front, side float64) {
	usual := 1.0
	if p.Shape == Round {
		usual = 1.2
	}
	return or(p.DragFront, usual), or(p.DragSide, usual)
}

// shape is the part's force along and across at an angle, as a part of that from
// ahead and from abeam.
func (p *Part) shape(a, sin, cos float64) (along, across float64) {
	switch p.Shape {
	case Round:
		return cos, sin
	case Spar:
		return cos, sin * math.Abs(sin)
	}
	across = (sin - math.Sin(5*a)/20) / 0.95
	a = math.Abs(math.Remainder(a, 2*math.Pi))
	zero := float64(or(p.Zero, math.Pi/2))
	stretched := a / zero * math.Pi / 2
	if a > zero {
		stretched = math.Pi/2 + (a-zero)/(math.Pi-zero)*math.Pi/2
	}
	if p.Shape == Block {
		return math.Cos(stretched), across
	}
	g := stretched + math.Pi/2
	return (math.Sin(g) - math.Sin(5*g)/10) / 0.9, across
}

func (b Windage) check(c *checker) {
	c.must(len(b.Parts) > 0, "Parts", len(b.Parts), "one part or more")
	for i := range b.Parts {
		c.within("Parts", i, b.Parts[i].check)
	}
}

func (p *Part) check(c *checker) {
	c.must(p.Shape >= 0 && int(p.Shape) < len(shapeNames), "Shape", int(p.Shape), "one of the shapes")
	between(c, "Front", p.Front, 0, 10000)
	between(c, "Side", p.Side, 0, 10000)
	between(c, "DragFront", p.DragFront, 0, 3)
	between(c, "DragSide", p.DragSide, 0, 3)
	between(c, "Shielded", p.Shielded, 0, 1)
	between(c, "Bottom", p.Bottom, 0, 200)
	between(c, "Top", p.Top, p.Bottom, 200)
	notNegative(c, "Top", p.Top)
	between(c, "Station", p.Station, -200, 200)
	between(c, "Length", p.Length, 0, 400)
	between(c, "Zero", or(p.Zero, math.Pi/2), math.Pi/6, 5*math.Pi/6)
}
