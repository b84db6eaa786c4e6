package canvas

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Stitch is a type of ISO 4915.
type Stitch string

// The stitches whose thread is computed.
const (
	SingleChain Stitch = "101" // one thread
	Lockstitch  Stitch = "301" // needle and bobbin
	DoubleChain Stitch = "401" // needle and looper
)

// ThreadRatio returns the thread used for a length of seam as a multiple of it:
//
//	101: 3 + 2 t/l    301: 2 + 2 t/l    401: 4 + 2 t/l
//
// with t the thickness of all layers and l the length of a stitch, the common
// formulas of the clothing trade. They leave out tension and the compression of
// the cloth; measured lockstitch in canvas takes 2.2 to 2.8.
func ThreadRatio(stitch Stitch, thickness, length units.Length) (float64, error) {
	var c checker
	c.size0("thickness", thickness)
	c.size("length", length)
	between(&c, "thickness", thickness, 0, 50*units.Millimetre)
	between(&c, "length", length, 0.5*units.Millimetre, 50*units.Millimetre)
	base := map[Stitch]float64{SingleChain: 3, Lockstitch: 2, DoubleChain: 4}[stitch]
	if c.err == nil && base == 0 {
		c.err = refuseAs(ErrUnknown, "stitch", fmt.Sprintf("%q", stitch), "101, 301 or 401")
	}
	if c.err != nil {
		return 0, c.err
	}
	return base + 2*thickness.Per(length), nil
}

// Sewing is how seams are sewn.
type Sewing struct {
	Stitch Stitch
	Length units.Length // of a stitch
	Waste  float64      // thread beyond that in the seam, as a part of it; 0.1 to 0.15 is usual
}

// Thread returns the thread for a row of stitches through layers of a thickness
// together, waste included.
func (s Sewing) Thread(seam, thickness units.Length) (units.Length, error) {
	r, err := ThreadRatio(s.Stitch, thickness, s.Length)
	if err != nil {
		return 0, err
	}
	var c checker
	between(&c, "seam", seam, 0, 1e6)
	between(&c, "Waste", s.Waste, 0, 10)
	if c.err != nil {
		return 0, c.err
	}
	return seam.Scale(r * (1 + s.Waste)), nil
}

// Ticket returns the metric ticket number of a thread, 3000/tex: the number of
// metres that weigh 3 g. Larger is thinner.
func Ticket(thread units.LinearDensity) (float64, error) {
	var c checker
	between(&c, "thread", thread, units.Tex, 10000*units.Tex)
	if c.err != nil {
		return 0, c.err
	}
	return 3000 / thread.Tex(), nil
}

// needles are thread sizes up to which a needle is used, and its number: the
// blade in hundredths of a millimetre. Practice; charts differ by a size.
var needles = [...]struct{ tex, number float64 }{
	{18, 70}, {27, 75}, {30, 80}, {40, 90}, {50, 100}, {80, 110}, {95, 120}, {105, 130}, {140, 140}, {155, 160}, {180, 180}, {220, 200}, {280, 230},
}

// Needle returns the blade diameter of the needle for a thread; a needle's
// number is that in hundredths of a millimetre. It is custom of the trade, from
// 10 to 280 tex: sew a sample.
func Needle(thread units.LinearDensity) (units.Length, error) {
	var c checker
	between(&c, "thread", thread, 10*units.Tex, 280*units.Tex)
	if c.err != nil {
		return 0, c.err
	}
	for _, n := range needles {
		if thread.Tex() <= n.tex*(1+1e-12) {
			return units.Length(n.number / 1e5), nil
		}
	}
	return 0, refuse("thread", thread, "at most 280 tex")
}

// BiasBinding is a binding cut at 45 degrees to the selvedge, where cloth stretches
// and goes round curves.
type BiasBinding struct {
	Length units.Length // needed
	Width  units.Length // as cut, before folding
	Roll   units.Length // width of the roll
	// Imperial has the words of a drawing of it in inches instead of millimetres.
	Imperial bool `json:",omitempty"`
}

// Cloth returns the length of cloth on the roll that gives the binding, and the
// number of strips n:
//
//	n = ceil(Length/(Roll sqrt 2 - Width)), cloth = n Width sqrt 2 + Roll
//
// A strip across the roll is Roll sqrt 2 long; the slanted end, as long as the
// strip is wide, goes into the joint with the next one.
func (b BiasBinding) Cloth() (cloth units.Length, strips int, err error) {
	var c checker
	between(&c, "Length", b.Length, units.Millimetre, 10000)
	c.size("Width", b.Width)
	c.size("Roll", b.Roll)
	if c.err == nil && b.Width > b.Roll/2 {
		c.err = refuse("Width", b.Width, fmt.Sprintf("at most half the roll's %v", b.Roll))
	}
	if c.err != nil {
		return 0, 0, c.err
	}
	each := float64(b.Roll)*math.Sqrt2 - float64(b.Width)
	strips = int(math.Ceil(float64(b.Length)/each - 1e-9))
	return b.Width.Scale(float64(strips)*math.Sqrt2) + b.Roll, strips, nil
}
