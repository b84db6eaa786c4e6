package wiring

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/forepeak/units"
)

// gaugeNumber reads "12", "0", "2/0" or "00".
func gaugeNumber(gauge string) (int, error) {
	bad := refuseAs(ErrUnknown, "gauge", fmt.Sprintf("%q", gauge), `"4/0" to "1/0", or "0" to "40"`)
	if over, ok := strings.CutSuffix(gauge, "/0"); ok {
		if n, err := strconv.Atoi(over); err == nil && n >= 1 && n <= 4 && len(over) == 1 {
			return 1 - n, nil
		}
		return 0, bad
	}
	if n := len(gauge); n >= 2 && n <= 4 && strings.Trim(gauge, "0") == "" {
		return 1 - n, nil
	}
	n, err := strconv.Atoi(gauge)
	if err != nil || n < 0 || n > 40 || strconv.Itoa(n) != gauge {
		return 0, bad
	}
	return n, nil
}

// GaugeDiameter returns the diameter of a solid wire of an American wire gauge, "4/0" to
// "40" ("0000" is "4/0"):
//
//	0.005 in * 92^((36 - n)/39)
//
// with n = 0 for 1/0, -1 for 2/0 and so on. Source: ASTM B258-02, exact by definition
// before it is rounded to a tenth of a mil.
func GaugeDiameter(gauge string) (units.Length, error) {
	n, err := gaugeNumber(gauge)
	if err != nil {
		return 0, err
	}
	return units.Inch.Scale(0.005 * math.Pow(92, float64(36-n)/39)), nil
}

// GaugeArea returns the copper area of an American wire gauge, pi/4 times the square of
// [GaugeDiameter]. It is that of a stranded conductor of the gauge, too.
func GaugeArea(gauge string) (units.Area, error) {
	d, err := GaugeDiameter(gauge)
	return units.Area(math.Pi / 4 * float64(d) * float64(d)), err
}

// copperResistivity is that of annealed copper at 20 °C in ohm metres, 1/58 ohm mm²/m,
// IEC 60028: 100 % of the International Annealed Copper Standard.
const copperResistivity = 1e-6 / 58

// CopperResistance returns the resistance of solid annealed copper of an area, at a
// temperature from -60 to 250 °C: 1/58 ohm mm²/m at 20 °C (IEC 60028) times [CopperFactor].
// What is sold is 2 % (stranding) to 15 % (fine tinned strands) higher.
func CopperResistance(a units.Area, t units.Temperature) (units.ResistancePerLength, error) {
	var c checker
	between(&c, "a", a, 1e-12, 1)
	if c.err != nil {
		return 0, c.err
	}
	f, err := CopperFactor(t)
	return units.ResistancePerLength(copperResistivity / float64(a) * f), err
}
