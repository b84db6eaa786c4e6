package canvas

import (
	"fmt"
	"math"

	"example.com/forepeak/units"
)

// Roof is the form of a canopy.
type Roof string

// The roofs.
const (
	Monopitch Roof = ""         // one plane, from 0 to 30 degrees
	Duopitch  Roof = "duopitch" // two planes over a ridge, 5 to 30 degrees; valleys are -5 to -20 degrees
)

// Canopy is a roof without walls in the wind.
type Canopy struct {
	Roof  Roof
	Pitch units.Angle // of each plane from the level
	// Blockage is how much of the height under the downwind side is closed by
	// houses and people, 0 to 1.
	Blockage float64
}

// Coefficients are net pressures over the peak velocity pressure, down positive.
type Coefficients struct {
	Down, Up             float64 // of the whole: for what all fixings together hold
	MiddleDown, MiddleUp float64 // of the cloth away from its edges (zone A)
	EdgeDown, EdgeUp     float64 // the greatest in the strips along edges, ridge and valley (zones B, C and D)
}

// Coefficients returns the net pressure coefficients of EN 1991-1-4:2005, tables
// 7.6 and 7.7, between whose rows and columns it goes straight. They come from
// transcriptions, and hold for rigid roofs on land, for the worst of all wind
// directions: cloth that moves and a boat that heels are outside them, see [Awning]. Between -5 and 5 degrees there is no duopitch
// roof: use a monopitch one. From 15 degrees on a blockage lowers the uplift of
// most zones; downwind of what blocks the wind that of an empty canopy holds.
func (k Canopy) Coefficients() (Coefficients, error) {
	var c checker
	between(&c, "Canopy.Blockage", k.Blockage, 0, 1)
	rows, err := k.Roof.rows()
	if err != nil {
		return Coefficients{}, err
	}
	angle := k.Pitch.Degrees()
	last := rows[len(rows)-1].angle
	const slip = 1e-9 // degrees, of an angle that was added up
	if c.err == nil && !(angle >= rows[0].angle-slip && angle <= last+slip) {
		c.err = refuse("Canopy.Pitch", k.Pitch, fmt.Sprintf("from %v to %v degrees", rows[0].angle, last))
	}
	if c.err == nil && k.Roof == Duopitch && math.Abs(angle) < 5-slip {
		c.err = refuse("Canopy.Pitch", k.Pitch, "5 degrees or more either way for a duopitch roof")
	}
	if c.err != nil {
		return Coefficients{}, c.err
	}
	i := 1
	for i < len(rows)-1 && rows[i].angle < angle {
		i++
	}
	a, b := rows[i-1].at(k.Blockage), rows[i].at(k.Blockage)
	t := (angle - rows[i-1].angle) / (rows[i].angle - rows[i-1].angle)
	mix := func(x, y float64) float64 { return x + t*(y-x) }
	return Coefficients{
		mix(a.Down, b.Down), mix(a.Up, b.Up), mix(a.MiddleDown, b.MiddleDown), mix(a.MiddleUp, b.MiddleUp),
		mix(a.EdgeDown, b.EdgeDown), mix(a.EdgeUp, b.EdgeUp),
	}, nil
}

// worst are the worst coefficients while the boat rolls to either side, with what
// blocks the wind and beside it, where uplift may be greater (EN 1991-1-4, 7.3 (4)).
func (k Canopy) worst(heel units.Angle) (Coefficients, error) {
	rows, err := k.Roof.rows()
	if err != nil {
		return Coefficients{}, err
	}
	low, high := k.Pitch-heel, k.Pitch+heel
	if k.Roof == Monopitch && low < 0 { // tilted the other way it is the same roof
		low, high = 0, max(high, -low)
	}
	angles := []units.Angle{low, high}
	for _, r := range rows {
		if a := units.Degree.Scale(r.angle); a > low && a < high {
			angles = append(angles, a)
		}
	}
	var worst Coefficients
	for _, a := range angles {
		for _, blockage := range []float64{0, k.Blockage} {
			g, err := Canopy{Roof: k.Roof, Pitch: a, Blockage: blockage}.Coefficients()
			if err != nil {
				return worst, refuse("Heel", heel, "a heel that leaves the pitch where coefficients are published: "+err.Error())
			}
			worst.Down, worst.Up = max(worst.Down, g.Down), min(worst.Up, g.Up)
			worst.MiddleDown, worst.MiddleUp = max(worst.MiddleDown, g.MiddleDown), min(worst.MiddleUp, g.MiddleUp)
		}
	}
	return worst, nil
}

func (r Roof) rows() ([]canopyRow, error) {
	switch r {
	case Monopitch:
		return monopitch, nil
	case Duopitch:
		return duopitch, nil
	}
	return nil, refuseAs(ErrUnknown, "Canopy.Roof", fmt.Sprintf("%q", r), "duopitch or none for a monopitch roof")
}

// at is a row for a blockage.
func (r canopyRow) at(blockage float64) Coefficients {
	open, closed := r.up0, r.up1
	mix := func(open, closed float64) float64 { return open + blockage*(closed-open) }
	return Coefficients{
		Down: r.down.whole, Up: mix(open.whole, closed.whole),
		MiddleDown: r.down.a, MiddleUp: mix(open.a, closed.a),
		EdgeDown: max(r.down.b, r.down.c, r.down.d),
		EdgeUp:   min(mix(open.b, closed.b), mix(open.c, closed.c), mix(open.d, closed.d)),
	}
}
