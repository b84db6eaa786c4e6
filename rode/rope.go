package rode

import (
	"strconv"
	"strings"

	"example.com/forepeak/units"
)

// Rope is a fibre rope of one size: dry, unspliced and with its construction
// settled under load (worked), unless a method of it has changed that.
type Rope struct {
	Fibre, Construction, Size string

	Diameter units.Length // nominal
	Mass     units.LinearDensity
	Density  units.Density // of the fibre
	Breaking units.Force   // minimum breaking force
	Stretch  Stretch

	Source string // of the breaking force
	Basis  string // kind of source, as in the validation report
}

// Name is fibre, construction and size, as [RopeByName] takes it.
func (r Rope) Name() string { return r.Fibre + " " + r.Construction + " " + r.Size }

// Ropes lists the catalogue: polyamide, polyester, polypropylene and HMPE. Ropes
// of one description differ between makers by a tenth and more; where the
// maker's own figures are at hand, put them in their place.
func Ropes() []Rope {
	rs := make([]Rope, len(ropeTable))
	for i := range ropeTable {
		rs[i] = ropeTable[i].rope()
	}
	return rs
}

// RopeByName finds a rope in the catalogue, such as "polyamide eight-strand
// 14 mm". The error wraps ErrUnknown and lists the names of that fibre.
func RopeByName(name string) (Rope, error) {
	var near []string
	for i := range ropeTable {
		r := ropeTable[i].rope()
		if r.Name() == name {
			return r, nil
		}
		if strings.HasPrefix(name, r.Fibre) {
			near = append(near, r.Name())
		}
	}
	if near == nil {
		near = []string{"fibre, construction and size, such as " + ropeTable[0].rope().Name()}
	}
	return Rope{}, refuseAs(ErrUnknown, "rope", strconv.Quote(name), strings.Join(near, ", "))
}

func (r *ropeRow) rope() Rope {
	return Rope{
		Fibre: r.fibre, Construction: r.construction, Size: r.size,
		Diameter: units.Length(r.diameter), Mass: units.LinearDensity(r.mass),
		Density: fibreDensity[r.fibre], Breaking: units.Force(r.breaking),
		Stretch: stretchOf(r.fibre, r.construction, "worked", units.Force(r.breaking)),
		Source:  r.source, Basis: r.kind,
	}
}

// fibreDensity is the density of the fibres themselves, from memory: what a
// soaked rope weighs in water depends on it, not on the air between its yarns.
var fibreDensity = map[string]units.Density{
	"polyamide":     1140,
	"polyester":     1380,
	"polypropylene": 910,
	"HMPE":          970,
}

// stretchOf is the load-extension curve of a kind of rope of a breaking force.
// A construction without a curve of its own has the three-strand one.
func stretchOf(fibre, construction, state string, breaking units.Force) Stretch {
	var s Stretch
	for _, r := range stretchTable {
		if r.fibre != fibre || r.state != state || r.construction != construction && r.construction != "three-strand" {
			continue
		}
		s = Stretch{Reference: breaking, A: r.a, B: r.b, C: r.c, Limit: breaking}
		if r.construction == construction {
			break
		}
	}
	return s
}

// RopeStretch is the load-extension curve of a worked rope of a fibre and
// construction in the catalogue, for a rope of your own whose breaking force
// you know. Three-strand stands for a construction without a curve of its own. The
// error for a fibre without curves wraps [ErrUnknown]. The curve is of slow pulls; in
// cycles of seconds polyamide is stiffer, see [Rope.Cyclic].
func RopeStretch(fibre, construction string, breaking units.Force) (Stretch, error) {
	var c checker
	positive(&c, "breaking", breaking)
	if c.err != nil {
		return Stretch{}, c.err
	}
	s := stretchOf(fibre, construction, "worked", breaking)
	if s == (Stretch{}) {
		return Stretch{}, refuseAs(ErrUnknown, "fibre, construction", strconv.Quote(fibre+", "+construction),
			"polyamide or polyester three-strand, eight-strand or double-braid, polypropylene three- or eight-strand, HMPE twelve-strand")
	}
	return s, nil
}

// Strain is the extension of the rope at a tension, as a fraction of its
// unloaded length. It is good to about a fifth of itself: see Stretch for the
// curve, and the extension rows of the validation report for the points it was
// fitted to.
func (r Rope) Strain(tension units.Force) (float64, error) { return r.Stretch.Strain(tension) }

// bounded is for a rope of which something may not be known.
func (r *Rope) bounded(c *checker) {
	notNegative(c, "Rope.Diameter", r.Diameter)
	notNegative(c, "Rope.Mass", r.Mass)
	notNegative(c, "Rope.Density", r.Density)
	notNegative(c, "Rope.Breaking", r.Breaking)
	r.Stretch.check(c, "Rope.Stretch")
}

// New is the rope before its construction has settled under load: it stretches
// more, once. The catalogue has that curve for three-strand polyamide only; for
// other rope the error wraps ErrUnknown.
func (r Rope) New() (Rope, error) {
	var c checker
	r.bounded(&c)
	if c.err != nil {
		return Rope{}, c.err
	}
	s := stretchOf(r.Fibre, r.Construction, "new", r.Stretch.Reference)
	if r.Construction != "three-strand" || s == (Stretch{}) {
		return Rope{}, refuseAs(ErrUnknown, "rope", r.Name()+", new", "polyamide three-strand, of which the stretch when new is known")
	}
	r.Stretch = s
	return r, nil
}

// Wet is the rope when wet: polyamide has 85 % of its dry strength and
// stiffness left (UFC 4-159-03, 2005, table 6-8, note), other fibres all of it.
func (r Rope) Wet() Rope {
	if r.Fibre == "polyamide" {
		const left = 0.85
		r.Breaking = r.Breaking.Scale(left)
		r.Stretch.Reference = r.Stretch.Reference.Scale(left)
		r.Stretch.Limit = r.Stretch.Limit.Scale(left)
	}
	return r
}

// cyclicStrain is the strain of polyamide rope at its breaking force on the straight
// line of cycles, see Rope.Cyclic.
const cyclicStrain = 0.2825

// Cyclic is the rope with the load-extension curve that it has in cycles of seconds
// about a mean load, as in surges, gusts and waves. For polyamide that is a straight
// line with
//
//	E A = breaking force / 0.2825
//
// (double-braided nylon, which reproduces every entry of UFC 4-159-03, 2005, table
// 6-8). The breaking force is that of the rope as it is, 85 % of that when dry for a
// wet one; what Used took off stays on, since a rope that has lost strength has not
// grown softer for it. At the loads of an anchorage the line is up to three times
// stiffer than the curve of a slow pull: loads found with that one are too low.
//
// Laid and plaited rope is taken as double braid, for want of values of its own, and
// small cycles about a great mean load are stiffer still (memory). A polyamide curve
// of your own that is stiffer at a quarter of the breaking force is kept. So is that
// of every other fibre, for which no law of cycles was found: they too are stiffer in
// cycles than in a slow pull, and peaks found with their curves err on the low side.
//
// For what is at rest under a steady pull, and for how far a rope stretches at the
// most, the curve of the slow pull is the one to take.
func (r Rope) Cyclic() Rope {
	f := max(r.Breaking, r.Stretch.Limit)
	if r.Fibre != "polyamide" || !(f > 0 && finite(float64(f))) {
		return r
	}
	s := LinearStretch(f.Scale(1 / cyclicStrain))
	at := float64(f) / 4
	if own := r.Stretch.law(); own != (law{}) && own.at(at) <= s.law().at(at) {
		return r
	}
	s.Limit = f
	r.Stretch = s
	return r
}

// Used is the rope with a part of its strength left, above 0 and at most 1.
// What that part is, no table knows: old dock lines tested between a quarter and
// a half of their strength as new.
func (r Rope) Used(left float64) (Rope, error) {
	var c checker
	r.bounded(&c)
	positive(&c, "left", left)
	between(&c, "left", left, 0, 1)
	if c.err != nil {
		return Rope{}, c.err
	}
	r.Breaking = r.Breaking.Scale(left)
	return r, nil
}

// Piece is a length of the rope, to put into a Rode.
func (r Rope) Piece(length units.Length) Piece {
	return Piece{
		Name: r.Name() + " rope", Kind: OfRope, Length: length,
		Mass: r.Mass, Density: r.Density, Stretch: r.Stretch, Breaking: r.Breaking,
	}
}
