package rode

import (
	"math"
	"strconv"
	"strings"

	"example.com/forepeak/units"
)

// Chain is a short-link chain of one size and grade. A zero says that the
// catalogue's source does not give the value.
type Chain struct {
	Standard, Size, Grade string

	Wire         units.Length // diameter
	Pitch        units.Length // inside length of a link
	OutsideWidth units.Length // greatest
	InsideWidth  units.Length // least

	Mass     units.LinearDensity
	Working  units.Force // working load limit
	Proof    units.Force
	Breaking units.Force // minimum breaking force

	Source string // of the values
	Basis  string // kind of source of the breaking force, as in the validation report
}

// Name is standard, size and grade, as [ChainByName] takes it.
func (c Chain) Name() string { return c.Standard + " " + c.Size + " " + c.Grade }

// Chains lists the catalogue: calibrated chain to ISO 4565 and DIN 766, lifting
// chain to EN 818-3, and American chain by grade. Calibrated chain of one wire
// size differs in pitch from standard to standard: measure it over many links
// before ordering a chain wheel.
func Chains() []Chain {
	cs := make([]Chain, len(chainTable))
	for i := range chainTable {
		cs[i] = chainTable[i].chain()
	}
	return cs
}

// ChainByName finds a chain in the catalogue, such as "DIN 766 8 mm G40". The
// error wraps ErrUnknown and lists the names of that standard.
func ChainByName(name string) (Chain, error) {
	var near []string
	for i := range chainTable {
		c := chainTable[i].chain()
		if c.Name() == name {
			return c, nil
		}
		if strings.HasPrefix(name, c.Standard) {
			near = append(near, c.Name())
		}
	}
	if near == nil {
		near = []string{"standard, size and grade, such as " + chainTable[0].chain().Name()}
	}
	return Chain{}, refuseAs(ErrUnknown, "chain", strconv.Quote(name), strings.Join(near, ", "))
}

func (r *chainRow) chain() Chain {
	return Chain{
		Standard: r.standard, Size: r.size, Grade: r.grade,
		Wire: units.Length(r.wire), Pitch: units.Length(r.pitch),
		OutsideWidth: units.Length(r.outside), InsideWidth: units.Length(r.inside),
		Mass: units.LinearDensity(r.mass), Working: units.Force(r.working),
		Proof: units.Force(r.proof), Breaking: units.Force(r.breaking),
		Source: r.source, Basis: r.kind,
	}
}

// Steel is the density of chain and fittings, zinc and all.
const Steel units.Density = 7850

// LinkMass estimates the mass per length of a short-link chain from its Wire,
// Pitch and OutsideWidth: the steel of one link, two straight sides and two half
// circles round the inside width b, over the pitch,
//
//	m = rho (pi d²/4) (2 (p - b) + pi (b + d)) / p,  b = outside - 2 d
//
// It is within 8 % of the printed masses of ISO 4565 and DIN 766 chain.
func (c Chain) LinkMass() (units.LinearDensity, error) {
	var k checker
	positive(&k, "Chain.Wire", c.Wire)
	between(&k, "Chain.Pitch", c.Pitch, c.Wire.Scale(2), c.Wire.Scale(10))
	between(&k, "Chain.OutsideWidth", c.OutsideWidth, c.Wire.Scale(3), c.Wire.Scale(10))
	if k.err != nil {
		return 0, k.err
	}
	d, p := float64(c.Wire), float64(c.Pitch)
	b := float64(c.OutsideWidth) - 2*d
	area := math.Pi * d * d / 4
	return units.LinearDensity(float64(Steel) * area * (2*(p-b) + math.Pi*(b+d)) / p), nil
}

// GradeBreaking is the minimum breaking force that a grade of chain stands for:
// both sides of a link at the grade's mean stress,
//
//	F = 2 (pi d²/4) sigma,  sigma = grade times 10 N/mm²
//
// (ASTM A413/A413M-21, section 1.4). Standards round it, up or down by as much
// as a tenth.
func GradeBreaking(wire units.Length, grade float64) (units.Force, error) {
	var c checker
	positive(&c, "wire", wire)
	between(&c, "grade", grade, 10, 150)
	if c.err != nil {
		return 0, c.err
	}
	d := float64(wire)
	return units.Force(math.Pi / 2 * d * d * grade * 1e7), nil
}

// AxialStiffness is E times A of a short-link chain, 0.854e8 kN/m² times the wire
// diameter squared: the value in use for studless mooring chain (recalled, not
// read). Chain hardly stretches, so nothing but the stiffness of a nearly taut
// all-chain rode depends on it.
func (c Chain) AxialStiffness() units.Force {
	d := float64(c.Wire)
	return units.Force(0.854e11 * d * d)
}

// Piece is a length of the chain, to put into a Rode.
func (c Chain) Piece(length units.Length) Piece {
	return Piece{
		Name: c.Name() + " chain", Kind: OfChain, Length: length,
		Mass: c.Mass, Density: Steel, Stretch: LinearStretch(c.AxialStiffness()),
		Working: c.Working, Breaking: c.Breaking,
	}
}

func (c *Chain) check(k *checker) {
	positive(k, "Chain.Wire", c.Wire)
	notNegative(k, "Chain.Pitch", c.Pitch)
	notNegative(k, "Chain.OutsideWidth", c.OutsideWidth)
	notNegative(k, "Chain.InsideWidth", c.InsideWidth)
	notNegative(k, "Chain.Mass", c.Mass)
	notNegative(k, "Chain.Working", c.Working)
	notNegative(k, "Chain.Proof", c.Proof)
	notNegative(k, "Chain.Breaking", c.Breaking)
}

// Worn is the chain with its strength cut to what is left where its wire has
// worn to a measured diameter, in proportion to the section:
//
//	strength = strength as new times (measured / new)²
//
// Mass and pitch are left as new, though the links have grown longer inside: see
// WornPitch, and measure the pitch (MeasuredPitch) before a wheel, a counter or marks
// are worked out. Measure the thinnest place you can find, in
// two directions, where link bears on link. Wear limits of standards lie near
// a tenth of the diameter: replace the chain before it gets there.
func (c Chain) Worn(measured units.Length) (Chain, error) {
	var k checker
	c.check(&k)
	positive(&k, "measured", measured)
	between(&k, "measured", measured, 0, c.Wire)
	if k.err != nil {
		return Chain{}, k.err
	}
	left := measured.Per(c.Wire)
	left *= left
	c.Working = c.Working.Scale(left)
	c.Proof = c.Proof.Scale(left)
	c.Breaking = c.Breaking.Scale(left)
	return c, nil
}

// WornPitch is what the pitch of the chain can be where its wire has worn to a
// measured diameter, from that as new, where only the place measured has worn, to
//
//	pitch as new + 2 (new - measured)
//
// where all links have, since each loses as much at either end where link bears on
// link. That is geometry; a chain that was stretched by an overload is longer still.
// It is a reason to measure the pitch over many links ([MeasuredPitch]), and what to
// try a wheel with until that is done.
func (c Chain) WornPitch(measured units.Length) (units.Interval[units.Length], error) {
	var k checker
	c.check(&k)
	positive(&k, "Chain.Pitch", c.Pitch)
	positive(&k, "measured", measured)
	between(&k, "measured", measured, 0, c.Wire)
	if k.err != nil {
		return units.Interval[units.Length]{}, k.err
	}
	return units.Interval[units.Length]{Low: c.Pitch, High: c.Pitch + (c.Wire - measured).Scale(2)}, nil
}
