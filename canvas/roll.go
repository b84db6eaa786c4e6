package canvas

import (
	"time"

	"example.com/forepeak/internal/strip"
	"example.com/forepeak/units"
)

// Roll is a length of cloth to cut from: a roll in the shop, or an offcut that
// is already owned, which has a Length and a Value. X runs along the roll from
// its free end, Y across it from one selvedge to the other.
type Roll struct {
	Name     string
	Width    units.Length // over all
	Length   units.Length // 0 is as much as is needed
	Selvedge units.Length // left free along both edges
	// Price is of a metre of length; what is used is rounded up to Increment.
	Price     units.Money
	Increment units.Length // in which the cloth is sold; 0 is any length
	// Value is what it costs to use an offcut at all, whole.
	Value units.Money
	Flaws []Flaw
	// Along and Across are the repeats of a pattern or of stripes, all of them
	// multiples of 0.01 mm, or all of 1/160 mm, as 1/32 in is; 0 is none.
	Along, Across units.Length
	// Pattern is a point at which repeats begin, along the roll and across it, on the
	// cloth or not; zero is the free end at the lower edge. An offcut has its own: that of
	// a Rest is the roll's less From.
	Pattern Point
}

// Flaw is a stained, torn or used part of a roll. Cut lines keep half the gap
// clear of it.
type Flaw struct {
	Name    string
	Outline []Point // on the roll
}

// Lie is how a piece may be turned on the cloth.
type Lie string

// The ways of lying.
const (
	// EitherWay lays the grain along the roll, in either direction.
	EitherWay Lie = ""
	// OneWay lays the grain along the roll, all pieces in one direction: for cloth
	// with a nap or a print that has a top.
	OneWay Lie = "one way"
	// Listed takes the angles in Turns.
	Listed Lie = "listed"
	// AnyWay takes multiples of 15 degrees, and angles that lay long sides of the
	// piece along the roll or across it.
	AnyWay Lie = "any way"
)

// Cutting is a piece to be cut from a roll.
type Cutting struct {
	Name string
	// Cut is the line to cut by, straight from point to point, in either sense.
	// Where its points follow a curve to within 0.004 mm, as those of [Cover.Pieces]
	// do, the piece laid holds the curve too.
	Cut []Point
	// Quantity are cut as drawn, QuantityMirrored the other way round: one left,
	// one right. Both 0 is one as drawn.
	Quantity, QuantityMirrored int
	Grain                      units.Angle // direction of the warp, from X
	Lie                        Lie
	Turns                      []units.Angle // of the grain from the length of the roll, for Listed
	// Flip allows a piece to be cut with the cloth's wrong side up: cloth alike on
	// both sides.
	Flip bool
	// Match, if set, is a point that lies on the pattern of the roll.
	Match *Match
}

// Match places a point of a piece in the repeat of a pattern: its distances along
// the roll and across it from where the roll's Pattern begins leave Along and Across
// over when divided by the roll's repeats. The point may lie outside the piece.
type Match struct {
	At            Point
	Along, Across units.Length
	Tolerance     units.Length // either way; 0 is to the nearest unit, see [Lay]
}

func (m *Match) check(c *checker, field string) {
	if m == nil {
		return
	}
	c.point(field+".At", m.At)
	c.size0(field+".Along", m.Along)
	c.size0(field+".Across", m.Across)
	c.size0(field+".Tolerance", m.Tolerance)
}

// Lay is cloth and what is to be cut from it. Pieces are laid in whole
// hundredths of a millimetre, or in 160ths, of which 1/32 in has 127: in those in which
// the repeats are whole or, if both or neither are, those in which the straight sides of
// more of the pieces are, counted by area; then go the widths of the rolls, their lengths
// and the gap. Sizes are rounded outward: several that fill the width to a hair need sizes
// that are whole, wherever on the drawing they are. Pieces that are longer
// than 400 m, one after another, are laid in hundredths unless there are repeats, so that
// sixteenths of an inch are rounded up; where all are rectangles along the roll, without flaws
// or pattern, it is 6,500 m.
type Lay struct {
	Rolls  []Roll
	Pieces []Cutting
	Gap    units.Length // between cut lines, at least; laid as a multiple of two units
	// Deviation is how far the outline that is laid may in general reach outside
	// the cut line, so that it has fewer corners; 0 is 0.3 mm. Straight lines along
	// or across the roll are laid as they are.
	Deviation units.Length
}

// LayOptions say how long to search. The zero value is useful.
type LayOptions struct {
	Seed uint64
	// Work is how many places to try; 0 is 500,000, a second or less, for a first
	// look. A worker tries some three million a second: 100 million with two of them
	// lay a large order well, and the layout for which cloth is bought is worth that.
	// Up to a twentieth comes on top, to gather what lies loose. For a seed, an amount
	// of work and a number of workers the result is the same everywhere.
	Work int64
	// Workers search side by side; 0 is 1, more than 256 are 256, and fewer do if
	// there are a thousand pieces and more on a roll: what they need to know of
	// every two pieces is kept within a gigabyte. Rectangles are laid by one.
	Workers int
	// Left, if set, tells the time left and is asked in place of the work, as
	// func() time.Duration { return time.Until(end) } does.
	Left func() time.Duration `json:"-"`
	// Progress, if set, is called with every shorter length found for a roll.
	Progress func(LayProgress) `json:"-"`

	circles *strip.Circles // of plans one after another
}

// LayProgress is a shorter length found.
type LayProgress struct {
	Roll   int
	Length units.Length
	Work   int64 // places tried so far
}

// LayPlan is where every piece is cut from.
type LayPlan struct {
	Rolls []RollUse // in the order of the rolls, those that are used
	Cost  units.Money
	// Bound is a sum below which these pieces cannot be cut from these rolls,
	// however they are laid and divided among them; 0 if pieces are left. Where it is
	// Cost, nothing is cheaper by more than a part in 10^8.
	Bound       units.Money
	Work        int64
	Certificate LayCertificate
}

// RollUse is what is cut from a roll.
type RollUse struct {
	Roll   int // in the input
	Name   string
	Laid   []Laid // in the order of cutting, from the free end
	Used   units.Length
	Bought units.Length // Used rounded up to what is sold; of an offcut its length
	Cost   units.Money
	// Utilisation is the area within the cut lines as a part of width times Used.
	Utilisation float64
	// Bound is a length below which these pieces cannot be laid on this roll,
	// however they are arranged; Excess is by how much Used is above it, as a part.
	Bound  units.Length
	Excess float64
	Rest   Rest
}

// Rest is the largest rectangle that is left at the end of what is bought.
type Rest struct {
	From          Point // its corner next to the free end and the lower edge
	Length, Width units.Length
}

// Laid is a piece on a roll.
type Laid struct {
	Piece    int // in the input
	Name     string
	Mirrored bool        // one of QuantityMirrored
	Flipped  bool        // the cloth has its wrong side up
	Turn     units.Angle // of the grain from the length of the roll
	At       Point       // of the piece's X = 0, Y = 0
	Cut      []Point     // the cut line on the roll
}

// Cutting is the piece as it may lie on a roll, with its Lie, Flip and Match; holes
// do not count, nothing is laid in them.
func (p Piece) Cutting() Cutting {
	return Cutting{Name: p.Name, Cut: p.Cut, Quantity: p.Quantity, QuantityMirrored: p.Mirrored, Grain: p.Grain, Lie: p.Lie, Flip: p.Flip, Match: p.Match}
}
