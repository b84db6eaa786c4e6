package rode

import (
	"fmt"
	"strconv"

	"example.com/forepeak/internal/accept"
	"example.com/forepeak/units"
)

// Rode is everything between the anchor and the bow roller, from the anchor up.
type Rode struct {
	// AtAnchor are the connectors between the anchor and the first piece. They
	// lie at the anchor, so only their strength counts.
	AtAnchor []Fitting `json:",omitempty"`
	Pieces   []Piece
}

// Piece is a length of one chain or rope.
type Piece struct {
	Name     string
	Kind     Kind
	Length   units.Length        // unstretched
	Mass     units.LinearDensity // per unstretched length, in air
	Density  units.Density       // of the material, which decides its weight in water
	Stretch  Stretch
	Working  units.Force // working load; 0 if not known
	Breaking units.Force // minimum breaking load; 0 if not known
	// Top are the fittings at the piece's upper end: what joins it to the next
	// piece, a kellet, a float. Those of the last piece lie on the roller, so
	// only their strength counts.
	Top []Fitting `json:",omitempty"`
}

// Kind tells chain from rope, for drawings and marks.
type Kind int

// The kinds of piece.
const (
	OfChain Kind = iota
	OfRope
)

var kindNames = [...]string{"chain", "rope"}

// String is "chain" or "rope".
func (k Kind) String() string {
	if k < 0 || int(k) >= len(kindNames) {
		return "Kind(" + strconv.Itoa(int(k)) + ")"
	}
	return kindNames[k]
}

// MarshalText writes "chain" or "rope".
func (k Kind) MarshalText() ([]byte, error) {
	if k < 0 || int(k) >= len(kindNames) {
		return nil, refuse("Kind", k, "chain or rope")
	}
	return []byte(k.String()), nil
}

// UnmarshalText reads "chain" or "rope". The error for anything else wraps [ErrUnknown].
func (k *Kind) UnmarshalText(text []byte) error {
	for i, n := range kindNames {
		if string(text) == n {
			*k = Kind(i)
			return nil
		}
	}
	return refuseAs(ErrUnknown, "Kind", strconv.Quote(string(text)), "chain or rope")
}

// Fitting is something at a joint: a shackle, a swivel, a splice, a kellet, a
// float. It has no length of its own.
type Fitting struct {
	Name     string
	Mass     units.Mass
	Volume   units.Volume // of water displaced; what floats has much
	Working  units.Force  // working load; 0 if not known or not in the load's path
	Breaking units.Force  // minimum breaking load; 0 likewise
	// SideLoad is the part of its strength that is left under the side load it
	// may see, above 0 and at most 1. Zero counts as 1: loaded in line only.
	SideLoad float64 `json:",omitempty"`
}

// Weight is the force with which the fitting hangs in water: its weight less
// that of the water displaced, negative for a float.
func (f Fitting) Weight(water units.Density) units.Force {
	return (f.Mass - water.TimesVolume(f.Volume)).Weight()
}

func (f *Fitting) sideLoad() float64 {
	if f.SideLoad == 0 {
		return 1
	}
	return f.SideLoad
}

// Length is the unstretched length of all pieces.
func (r Rode) Length() units.Length {
	var l units.Length
	for _, p := range r.Pieces {
		l += p.Length
	}
	return l
}

// Veer is the rode with only the given length of it out, from the anchor up.
// It refuses a length that is not positive or more than there is.
func (r Rode) Veer(out units.Length) (Rode, error) {
	var c checker
	r.check(&c)
	positive(&c, "out", out)
	if c.err != nil {
		return Rode{}, c.err
	}
	return r.veer(out)
}

// veer is Veer of what has been checked.
func (r Rode) veer(out units.Length) (Rode, error) {
	v := Rode{AtAnchor: r.AtAnchor}
	left := out
	for _, p := range r.Pieces {
		if left <= p.Length {
			p.Length = left
			p.Top = nil
			v.Pieces = append(v.Pieces, p)
			return v, nil
		}
		v.Pieces = append(v.Pieces, p)
		left -= p.Length
	}
	if left > 1e-9 {
		return Rode{}, refuse("out", out, "at most the rode's length, "+r.Length().String())
	}
	return v, nil
}

// mostPieces is more than any rode has and bounds the work of a solution.
const mostPieces = 1000

func (r Rode) check(c *checker) {
	if c.err == nil && len(r.Pieces) == 0 {
		c.err = refuse("Pieces", "empty", "at least one piece of chain or rope")
	}
	if c.err == nil && len(r.Pieces) > mostPieces {
		c.err = refuse("Pieces", fmt.Sprintf("%d long", len(r.Pieces)), fmt.Sprintf("at most %d pieces", mostPieces))
	}
	checkFittings(c, "AtAnchor", r.AtAnchor)
	for i := range r.Pieces {
		p := &r.Pieces[i]
		f := fmt.Sprintf("Pieces[%d].", i)
		if c.err == nil && p.Kind != OfChain && p.Kind != OfRope {
			c.err = refuse(f+"Kind", p.Kind, "chain or rope")
		}
		positive(c, f+"Length", p.Length)
		positive(c, f+"Mass", p.Mass)
		if c.err == nil && !(p.Density >= accept.Smallest && finite(float64(p.Density))) {
			c.err = refuse(f+"Density", p.Density, "more than 0")
		}
		p.Stretch.check(c, f+"Stretch")
		notNegative(c, f+"Working", p.Working)
		notNegative(c, f+"Breaking", p.Breaking)
		checkFittings(c, f+"Top", p.Top)
	}
}

func checkFittings(c *checker, field string, fs []Fitting) {
	if c.err == nil && len(fs) > mostPieces {
		c.err = refuse(field, fmt.Sprintf("%d long", len(fs)), fmt.Sprintf("at most %d fittings", mostPieces))
	}
	for i := range fs {
		f := fmt.Sprintf("%s[%d].", field, i)
		notNegative(c, f+"Mass", fs[i].Mass)
		notNegative(c, f+"Volume", fs[i].Volume)
		notNegative(c, f+"Working", fs[i].Working)
		notNegative(c, f+"Breaking", fs[i].Breaking)
		if fs[i].SideLoad != 0 {
			between(c, f+"SideLoad", fs[i].SideLoad, 0.01, 1)
		}
	}
}
