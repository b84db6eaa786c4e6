package anchor

import (
	"fmt"
	"math"
	"strings"

	"example.com/forepeak/units"
)

// Kind is how an anchor is built.
type Kind int

// The kinds that published holding laws distinguish.
const (
	StocklessHinged Kind = iota // ship's anchor, flukes free to swing
	StocklessFixed              // ship's anchor, flukes welded open
	PlateHinged                 // light, two hinged plates, stock at the crown
	PlateBridle                 // large mooring anchor of welded plates
	Claw                        // one piece, three claws
)

var kindNames = []string{"stockless", "stockless, flukes fixed", "hinged plates", "welded plates", "claw"}

// String is the kind's name.
func (k Kind) String() string {
	if k < 0 || int(k) >= len(kindNames) {
		return fmt.Sprintf("kind %d", int(k))
	}
	return kindNames[k]
}

// MarshalText writes the kind's name.
func (k Kind) MarshalText() ([]byte, error) {
	if k < 0 || int(k) >= len(kindNames) {
		return nil, refuse("Kind", int(k), "one of the kinds")
	}
	return []byte(kindNames[k]), nil
}

// UnmarshalText reads the kind's name.
func (k *Kind) UnmarshalText(text []byte) error {
	for i, n := range kindNames {
		if n == string(text) {
			*k = Kind(i)
			return nil
		}
	}
	return refuseAs(ErrUnknown, "Kind", fmt.Sprintf("%q", text), fmt.Sprint(kindNames))
}

// Soil is what the anchor lies in.
type Soil int

// The soils.
const (
	Sand Soil = iota
	Mud
)

var soilNames = []string{"sand", "mud"}

// String is the soil's name.
func (s Soil) String() string {
	if s < 0 || int(s) >= len(soilNames) {
		return fmt.Sprintf("soil %d", int(s))
	}
	return soilNames[s]
}

// MarshalText writes the soil's name.
func (s Soil) MarshalText() ([]byte, error) {
	if s < 0 || int(s) >= len(soilNames) {
		return nil, refuse("Soil", int(s), "one of the soils")
	}
	return []byte(soilNames[s]), nil
}

// UnmarshalText reads the soil's name.
func (s *Soil) UnmarshalText(text []byte) error {
	for i, n := range soilNames {
		if n == string(text) {
			*s = Soil(i)
			return nil
		}
	}
	return refuseAs(ErrUnknown, "Soil", fmt.Sprintf("%q", text), strings.Join(soilNames, ", "))
}

// SeabedSpread is by how much the holding of one anchor differs from place to
// place in what a chart calls by one word, as a factor either way. It is a
// judgement from the scatter of published trials, where the best and the worst of
// repeated pulls of one anchor in one bay differ by three times and more.
const SeabedSpread = 2.0

// Held is what an anchor may hold, with its range.
type Held struct {
	Law units.Force // the published law, horizontal pull, anchor well set
	// Low and High are Law over and times SeabedSpread.
	units.Interval[units.Force]
	// Efficiency is Law over the anchor's weight in air.
	Efficiency float64
	// Extrapolated is whether the anchor is lighter than 1000 lb (454 kg), where the
	// curves of the laws begin.
	Extrapolated bool

	Soil   Soil   // that it holds in
	Bottom string // that [Held.On] has put it on; empty before
	// Mud is the law of the same anchor in mud, above which On goes on no mud; 0 where
	// there is none.
	Mud units.Force
}

// Holding is the greatest horizontal pull that an anchor of a mass holds when it is
// well set in a soil,
//
//	H = H_R (W / W_R)^b,  W_R = 10 000 lbf (4536 kg)
//
// which is H = m W^b with m = H_R / W_R^b (UFC 4-159-03, 2005, equation 26; its
// coefficients, from NCEL TDS 83-08R, are recalled, and so is that its curves begin at
// 1000 lbf). Since b is less than 1, smaller anchors hold more of their weight. Below
// where the curves begin that is not carried on: an anchor holds as many times its
// weight as one of 1000 lbf (454 kg), and is marked Extrapolated. For ploughs, scoops
// and other anchors that small boats carry no published law was found: compare them by
// an efficiency that you trust, with [HoldingByEfficiency].
//
// # Caution
//
// These are ships' and moorings' anchors. Claws of the size that boats carry come out at
// 40 times their weight in sand, twice as much as hinged plates: no trial of small
// anchors that bears this out was found. Count on Low, or on an efficiency of your own.
//
// The seabed decides. The range from Low to High is the answer, not Law, and weed,
// rock, shell, thin sand over clay or an anchor that fouled may hold nothing. Set
// the anchor, prove it with the engine, and watch it.
func Holding(kind Kind, soil Soil, mass units.Mass) (Held, error) {
	var c checker
	c.must(kind >= 0 && int(kind) < len(kindNames), "kind", int(kind), "one of the kinds")
	c.must(soil == Sand || soil == Mud, "soil", int(soil), "sand or mud")
	between(&c, "mass", mass, 1, 50000)
	if c.err != nil {
		return Held{}, c.err
	}
	l := &holdingLaws[kind]
	if soil == Mud {
		h := held(l.mud.of(mass), mass)
		h.Soil = Mud
		return h, nil
	}
	h := held(l.sand.of(mass), mass)
	h.Mud = l.mud.of(mass)
	return h, nil
}

// of is what an anchor holds, below where the curve begins in proportion to its weight.
func (l law) of(mass units.Mass) units.Force {
	kips := float64(mass) / float64(units.Pound) / 1000
	begin := math.Max(kips, leastKips)
	return units.PoundForce.Scale(1000 * l.reference * math.Pow(begin/10, l.exponent) * (kips / begin))
}

// HoldingByEfficiency is the same for an anchor whose efficiency, holding over weight, is
// known or assumed, in firm sand if [Held.On] is to be asked for other bottoms. IACS rules call an anchor one of high holding power when it
// holds twice what a stockless one of its mass does, and of very high when it holds
// four times that.
func HoldingByEfficiency(efficiency float64, mass units.Mass) (Held, error) {
	var c checker
	between(&c, "efficiency", efficiency, 0.5, 200)
	between(&c, "mass", mass, 1, 50000)
	if c.err != nil {
		return Held{}, c.err
	}
	return held(mass.Weight().Scale(efficiency), mass), nil
}

func held(h units.Force, mass units.Mass) Held {
	return Held{
		Law: h, Interval: units.Interval[units.Force]{Low: h.Scale(1 / SeabedSpread), High: h.Scale(SeabedSpread)},
		Efficiency: h.Per(mass.Weight()), Extrapolated: mass < units.Pound.Scale(1000*leastKips),
	}
}

// Bottom is a seabed and what an anchor holds in it, over what it holds in firm
// sand.
type Bottom struct {
	Name   string
	Factor float64
	Soil   Soil // Mud for a mud; Sand for all else
}

// Bottoms are the seabeds that R. S. Crenshaw, Naval Shiphandling, sets beside firm
// sand. They are for ships' anchors; an anchor made for mud loses less in mud.
func Bottoms() []Bottom {
	return []Bottom{
		{"stiff, dense clay", 1.5, Sand},
		{"firm sand", 1, Sand},
		{"sticky clay", 0.66, Sand},
		{"soft mud", 0.33, Mud},
		{"coarse, loose sand", 0.33, Sand},
		{"gravel", 0.33, Sand},
		{"rock", 0, Sand},
	}
}

// On is what an anchor that holds so much in sand holds on another bottom. The
// factor is from 0 to 2. In a mud it is no more than what the anchor's own law for mud
// gives, where there is one: claws and stockless anchors lose much more there than
// the factor says. What is held in mud, or has been put on a bottom before, is refused.
func (h Held) On(b Bottom) (Held, error) {
	var c checker
	between(&c, "Bottom.Factor", b.Factor, 0, 2)
	notNegative(&c, "Law", h.Law)
	notNegative(&c, "Low", h.Low)
	notNegative(&c, "High", h.High)
	notNegative(&c, "Efficiency", h.Efficiency)
	notNegative(&c, "Mud", h.Mud)
	c.must(b.Soil == Sand || b.Soil == Mud, "Bottom.Soil", int(b.Soil), "sand or mud")
	c.must(h.Soil == Sand, "Soil", h.Soil, "sand, over which the factor of a bottom is")
	c.must(h.Bottom == "", "Bottom", h.Bottom, "none yet: the factor is over firm sand")
	if c.err != nil {
		return Held{}, c.err
	}
	factor := b.Factor
	if b.Soil == Mud && h.Mud > 0 && h.Mud < h.Law.Scale(factor) {
		factor = h.Mud.Per(h.Law)
	}
	h.Law, h.Low, h.High = h.Law.Scale(factor), h.Low.Scale(factor), h.High.Scale(factor)
	h.Efficiency *= factor
	h.Soil, h.Bottom, h.Mud = b.Soil, b.Name, 0
	return h, nil
}

// HoldingLeft is the part of its holding that is left to an anchor when the rode pulls
// it at an angle above the bed, as a range:
//
//	low = sin(fluke - angle) / sin(fluke), at most 3/4 at 5° and 1/2 at 15°
//	high = cos(angle)
//
// with fluke the angle of the fluke to the shank. The sine goes by what still presses the
// fluke down, nothing once the pull is along it; high loses the upward part of the pull
// only. For most flukes the sine leaves more than a course of seamanship does (The Marine
// Study, Amount of anchor cable to use), which takes a quarter at 5° above the shank and
// one half at 15°: low follows it where it is less, on straight lines, and stays at one
// half or below from there on. That is about ships' anchors; no published curve for small
// ones was found. The fluke is from 15° to 60°, 30° usual for sand and 50° for mud, the
// angle from 0° to 60°.
func HoldingLeft(angle, fluke units.Angle) (units.Interval[float64], error) {
	var c checker
	between(&c, "fluke", fluke, 15*units.Degree, 60*units.Degree)
	between(&c, "angle", angle, 0, 60*units.Degree)
	if c.err != nil {
		return units.Interval[float64]{}, c.err
	}
	low := math.Max(0, (fluke-angle).Sin()/fluke.Sin())
	return units.Interval[float64]{Low: math.Min(low, taughtLeft(angle.Degrees())), High: angle.Cos()}, nil
}

// taughtLeft is what seamen are taught is left at so many degrees above the shank.
func taughtLeft(degrees float64) float64 {
	switch {
	case degrees <= 5:
		return 1 - degrees/20
	case degrees <= 15:
		return 0.75 - (degrees-5)/40
	default:
		return 0.5
	}
}

// SafetyFactor is what a rule wants between the strength of a thing and its
// load.
type SafetyFactor struct {
	Of     string
	Factor float64
	Note   string
}

// SafetyFactors are the least factors of safety under a quasi-static load of UFC
// 4-159-03 (2005), table 3-7. They are for moorings that have been engineered, with
// pulls tested; for what is not tested no rule was found, and more is better.
func SafetyFactors() []SafetyFactor {
	return []SafetyFactor{
		{"stockless and balanced fluke anchors", 1.5, "of the ultimate holding; 1.0 for a ship at anchor"},
		{"high efficiency drag anchors", 2, "of the ultimate holding; 1.0 for a ship at anchor"},
		{"piles and plates", 3, "of the ultimate holding"},
		{"chain, straight", 3, "of the new breaking strength"},
		{"chain round bends", 4, "of the new breaking strength"},
		{"wire rope", 3, "of the new breaking strength"},
		{"synthetic line", 3, "of the new breaking strength; 15 % less for wet nylon"},
	}
}
