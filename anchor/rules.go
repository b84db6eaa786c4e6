package anchor

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// DesignLoads are the horizontal loads that a rule has ground tackle and
// strong points designed for, by what the gear is for.
type DesignLoads struct {
	Lunch     units.Force // in 15 kn, somebody on board
	Working   units.Force // in 30 kn
	Storm     units.Force // in 42 kn
	Permanent units.Force // a mooring
	// Row is the length of the table's row that was taken.
	Row units.Length
}

// HorizontalLoads are the design loads of ABYC H-40 (2003), table 1, for a boat of
// a length over all and a beam, [Motor] or with any rig: the first row that is no
// shorter than the boat and no narrower, from 10 ft to 60 ft. They assume
// moderate shelter from the seas and freedom to swing. They are far
// above the wind's own force, three to five times, because they include
// sheering, gusts and moderate waves.
func HorizontalLoads(length, beam units.Length, rig Rig) (DesignLoads, error) {
	var c checker
	positive(&c, "length", length)
	positive(&c, "beam", beam)
	if c.err != nil {
		return DesignLoads{}, c.err
	}
	for _, r := range designLoads {
		widest := r.sailBeam
		if rig == Motor {
			widest = r.powerBeam
		}
		if length.Feet() <= r.length*(1+1e-12) && beam.Feet() <= widest*(1+1e-12) {
			return DesignLoads{
				Lunch:     units.PoundForce.Scale(r.light),
				Working:   units.PoundForce.Scale(r.working),
				Storm:     units.PoundForce.Scale(r.storm),
				Permanent: units.PoundForce.Scale(r.permanent),
				Row:       units.Foot.Scale(r.length),
			}, nil
		}
	}
	last := designLoads[len(designLoads)-1]
	widest := last.sailBeam
	if rig == Motor {
		widest = last.powerBeam
	}
	return DesignLoads{}, refuseAs(ErrRange, "length and beam", fmt.Sprintf("%v and %v", length, beam),
		fmt.Sprintf("up to %v ft and %v ft, where the table ends", last.length, widest))
}

// EquipmentNumber is the number by which class rules choose anchors and chain,
//
//	EN = D^(2/3) + 2 B h + A/10
//
// with D the displacement in tonnes, B the beam and h the height from the waterline
// to the top of the uppermost house wider than B/4 in metres, A the area of hull and
// houses above the water seen from abeam in square metres (IACS UR A1, before the
// term for funnels). It assumes a current of 2.5 m/s, a wind of 25 m/s, sheltered
// water, good holding ground and a scope of 6 or more. Its tables begin at 50, which
// few boats under 24 m reach.
func EquipmentNumber(displacement units.Mass, beam, height units.Length, side units.Area) (float64, error) {
	var c checker
	positive(&c, "displacement", displacement)
	positive(&c, "beam", beam)
	positive(&c, "height", height)
	positive(&c, "side", side)
	if c.err != nil {
		return 0, c.err
	}
	en := math.Pow(displacement.Tonnes(), 2.0/3) + 2*float64(beam)*float64(height) + side.SquareMetres()/10
	if !finite(en) {
		return 0, refuse("displacement", displacement, "a ship's")
	}
	return en, nil
}

// ShipGear is a row of the IACS equipment table.
type ShipGear struct {
	Over, To        float64 // equipment numbers: more than Over, no more than To
	Anchors         int
	Mass            units.Mass   // of each, stockless
	Chain           units.Length // stud link, for all anchors together
	Grade1, Grade2  units.Length // its diameter
	HighHolding     units.Mass   // each, of high holding power: three quarters
	VeryHighHolding units.Mass   // each, of very high holding power: a half
}

// EquipmentGear is the row of the IACS table for an equipment number over 50 and up
// to 500 (recommendation 10, rev. 5, 2023, up to 205; UR A1 beyond). Below 50
// there is no rule: the error wraps [ErrRange].
func EquipmentGear(number float64) (ShipGear, error) {
	for _, r := range equipment {
		if number > r.over && number <= r.to {
			return ShipGear{
				Over: r.over, To: r.to, Anchors: 2, Mass: r.mass, Chain: r.length,
				Grade1: units.Millimetre.Scale(r.mild), Grade2: units.Millimetre.Scale(r.special),
				HighHolding: r.mass.Scale(0.75), VeryHighHolding: r.mass.Scale(0.5),
			}, nil
		}
	}
	return ShipGear{}, refuseAs(ErrRange, "number", number, "more than 50 and up to 500: the rule does not reach smaller boats")
}

// VesselGear is a row of a rule for small vessels in commercial use.
type VesselGear struct {
	Length                units.Length // of the row
	Main, Kedge           units.Mass   // of the anchors, of high holding power
	MainChain, KedgeChain units.Length // diameters, short link
	MainRope, KedgeRope   units.Length // of nylon
}

// SmallVesselGear is the row of the UK code for small vessels in commercial use,
// table 20.1, for a mean length, the half of the sum of length over all and length
// of the waterline, from 5 m to 24 m. Between two rows it takes the longer. The code
// asks for more where windage is unusual.
func SmallVesselGear(mean units.Length) (VesselGear, error) {
	if mean >= 5 {
		for _, r := range smallVessels {
			if mean <= r.length {
				mm := units.Millimetre
				return VesselGear{
					r.length, r.main, r.kedge,
					mm.Scale(r.mainChain), mm.Scale(r.kedgeChain), mm.Scale(r.mainRope), mm.Scale(r.kedgeRope),
				}, nil
			}
		}
	}
	return VesselGear{}, refuseAs(ErrRange, "mean", mean, "from 5 m to 24 m")
}
