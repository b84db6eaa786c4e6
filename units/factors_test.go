package units_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"example.com/forepeak/units"
	"gonum.org/v1/gonum/unit/constant"
)

// A factor is one unit, written down from its definition without the package's
// own constants: a product of decimal fractions and powers. Pi stands for pi.
type factor struct {
	kind     string
	value    float64 // the constant; NaN for a temperature scale
	accessor string
	name     string // for parsing; empty when refused
	def      string // factors separated by * and /, from left to right
}

// The definitions of the units that others are made of.
var definitions = map[string]string{
	"in":  "254/10000",
	"ft":  "3048/10000",
	"yd":  "9144/10000",
	"lb":  "45359237/100000000",
	"g":   "980665/100000",
	"lbf": "45359237/100000000*980665/100000",
	"kgf": "980665/100000",
	"nmi": "1852",
	"pi":  "31415926535897932384626433832795028841971693993751058209749445923/10000000000000000000000000000000000000000000000000000000000000000",
}

func (f factor) exact(t *testing.T) *big.Rat {
	t.Helper()
	product := big.NewRat(1, 1)
	op := byte('*')
	for def := f.def; ; {
		word := def
		i := strings.IndexAny(def, "*/")
		if i >= 0 {
			word = def[:i]
		}
		value, ok := new(big.Rat).SetString(word)
		if !ok {
			if definitions[word] == "" {
				t.Fatalf("%s: no definition of %q", f.accessor, word)
			}
			value = factor{def: definitions[word]}.exact(t)
		}
		if op == '/' {
			value.Inv(value)
		}
		product.Mul(product, value)
		if i < 0 {
			return product
		}
		op, def = def[i], def[i+1:]
	}
}

var scale = math.NaN() // of a temperature

var factors = []factor{
	{"Length", float64(units.Metre), "Metres", "m", "1"},
	{"Length", float64(units.Micrometre), "Micrometres", "µm", "1/1000000"},
	{"Length", float64(units.Millimetre), "Millimetres", "mm", "1/1000"},
	{"Length", float64(units.Centimetre), "Centimetres", "cm", "1/100"},
	{"Length", float64(units.Kilometre), "Kilometres", "km", "1000"},
	{"Length", float64(units.Inch), "Inches", "in", "in"},
	{"Length", float64(units.Foot), "Feet", "ft", "12*in"},
	{"Length", float64(units.Yard), "Yards", "yd", "36*in"},
	{"Length", float64(units.Fathom), "Fathoms", "fathom", "72*in"},
	{"Length", float64(units.NauticalMile), "NauticalMiles", "nmi", "1852"},
	{"Length", float64(units.StatuteMile), "StatuteMiles", "mi", "5280*ft"},
	{"Length", float64(units.CableLength), "CableLengths", "", "1852/10"},
	{"Length", float64(units.Shackle), "Shackles", "", "275/10"},
	{"Length", float64(units.Shot), "Shots", "", "90*ft"},
	{"Area", float64(units.SquareMetre), "SquareMetres", "m²", "1"},
	{"Area", float64(units.SquareMillimetre), "SquareMillimetres", "mm²", "1/1000000"},
	{"Area", float64(units.SquareCentimetre), "SquareCentimetres", "cm²", "1/10000"},
	{"Area", float64(units.SquareInch), "SquareInches", "in²", "in*in"},
	{"Area", float64(units.SquareFoot), "SquareFeet", "ft²", "144*in*in"},
	{"Area", float64(units.SquareYard), "SquareYards", "yd²", "9*ft*ft"},
	{"Area", float64(units.CircularMil), "CircularMils", "cmil", "pi/4*in*in/1000000"},
	{"Area", float64(units.KilocircularMil), "KilocircularMils", "kcmil", "pi/4*in*in/1000"},
	{"Volume", float64(units.CubicMetre), "CubicMetres", "m³", "1"},
	{"Volume", float64(units.CubicMillimetre), "CubicMillimetres", "mm³", "1/1000000000"},
	{"Volume", float64(units.CubicCentimetre), "CubicCentimetres", "cm³", "1/1000000"},
	{"Volume", float64(units.Millilitre), "Millilitres", "mL", "1/1000000"},
	{"Volume", float64(units.Litre), "Litres", "L", "1/1000"},
	{"Volume", float64(units.CubicInch), "CubicInches", "in³", "in*in*in"},
	{"Volume", float64(units.CubicFoot), "CubicFeet", "ft³", "1728*in*in*in"},
	{"Volume", float64(units.USGallon), "USGallons", "US gal", "231*in*in*in"},
	{"Volume", float64(units.ImperialGallon), "ImperialGallons", "imp gal", "454609/100000000"},
	{"Mass", float64(units.Kilogram), "Kilograms", "kg", "1"},
	{"Mass", float64(units.Gram), "Grams", "g", "1/1000"},
	{"Mass", float64(units.Tonne), "Tonnes", "t", "1000"},
	{"Mass", float64(units.Pound), "Pounds", "lb", "lb"},
	{"Mass", float64(units.Ounce), "Ounces", "oz", "lb/16"},
	{"Mass", float64(units.LongTon), "LongTons", "long ton", "2240*lb"},
	{"Mass", float64(units.ShortTon), "ShortTons", "short ton", "2000*lb"},
	{"Force", float64(units.Newton), "Newtons", "N", "1"},
	{"Force", float64(units.Decanewton), "Decanewtons", "daN", "10"},
	{"Force", float64(units.Kilonewton), "Kilonewtons", "kN", "1000"},
	{"Force", float64(units.PoundForce), "PoundsForce", "lbf", "lb*g"},
	{"Force", float64(units.KilogramForce), "KilogramsForce", "kgf", "g"},
	{"Force", float64(units.TonneForce), "TonnesForce", "tf", "1000*g"},
	{"LinearDensity", float64(units.KilogramPerMetre), "KilogramsPerMetre", "kg/m", "1"},
	{"LinearDensity", float64(units.GramPerMetre), "GramsPerMetre", "g/m", "1/1000"},
	{"LinearDensity", float64(units.KilogramPer100Metres), "KilogramsPer100Metres", "kg/100m", "1/100"},
	{"LinearDensity", float64(units.Tex), "Tex", "tex", "1/1000000"},
	{"LinearDensity", float64(units.PoundPerFoot), "PoundsPerFoot", "lb/ft", "lb/ft"},
	{"LinearDensity", float64(units.PoundPer100Feet), "PoundsPer100Feet", "lb/100ft", "lb/ft/100"},
	{"ForcePerLength", float64(units.NewtonPerMetre), "NewtonsPerMetre", "N/m", "1"},
	{"ForcePerLength", float64(units.NewtonPerMillimetre), "NewtonsPerMillimetre", "N/mm", "1000"},
	{"ForcePerLength", float64(units.NewtonPer5Centimetres), "NewtonsPer5Centimetres", "N/5cm", "100/5"},
	{"ForcePerLength", float64(units.KilonewtonPerMetre), "KilonewtonsPerMetre", "kN/m", "1000"},
	{"ForcePerLength", float64(units.KilogramForcePerMetre), "KilogramsForcePerMetre", "kgf/m", "kgf"},
	{"ForcePerLength", float64(units.PoundForcePerFoot), "PoundsForcePerFoot", "lbf/ft", "lbf/ft"},
	{"ForcePerLength", float64(units.PoundForcePerInch), "PoundsForcePerInch", "lbf/in", "lbf/in"},
	{"Pressure", float64(units.Pascal), "Pascals", "Pa", "1"},
	{"Pressure", float64(units.Hectopascal), "Hectopascals", "hPa", "100"},
	{"Pressure", float64(units.Kilopascal), "Kilopascals", "kPa", "1000"},
	{"Pressure", float64(units.Megapascal), "Megapascals", "MPa", "1000000"},
	{"Pressure", float64(units.Gigapascal), "Gigapascals", "GPa", "1000000000"},
	{"Pressure", float64(units.NewtonPerSquareMillimetre), "NewtonsPerSquareMillimetre", "N/mm²", "1000000"},
	{"Pressure", float64(units.Bar), "Bars", "bar", "100000"},
	{"Pressure", float64(units.PoundPerSquareInch), "PoundsPerSquareInch", "psi", "lbf/in/in"},
	{"Pressure", float64(units.PoundPerSquareFoot), "PoundsPerSquareFoot", "psf", "lbf/ft/ft"},
	{"Stiffness", float64(units.NewtonPerMetreOfStretch), "NewtonsPerMetre", "N/m", "1"},
	{"Stiffness", float64(units.NewtonPerMillimetreOfStretch), "NewtonsPerMillimetre", "N/mm", "1000"},
	{"Stiffness", float64(units.KilonewtonPerMetreOfStretch), "KilonewtonsPerMetre", "kN/m", "1000"},
	{"Stiffness", float64(units.PoundForcePerFootOfStretch), "PoundsForcePerFoot", "lbf/ft", "lbf/ft"},
	{"Stiffness", float64(units.PoundForcePerInchOfStretch), "PoundsForcePerInch", "lbf/in", "lbf/in"},
	{"Speed", float64(units.MetrePerSecond), "MetresPerSecond", "m/s", "1"},
	{"Speed", float64(units.MetrePerMinute), "MetresPerMinute", "m/min", "1/60"},
	{"Speed", float64(units.KilometrePerHour), "KilometresPerHour", "km/h", "1000/3600"},
	{"Speed", float64(units.Knot), "Knots", "kn", "1852/3600"},
	{"Speed", float64(units.FootPerSecond), "FeetPerSecond", "ft/s", "ft"},
	{"Speed", float64(units.FootPerMinute), "FeetPerMinute", "ft/min", "ft/60"},
	{"Speed", float64(units.MilePerHour), "MilesPerHour", "mph", "5280*ft/3600"},
	{"Acceleration", float64(units.MetrePerSecondSquared), "MetresPerSecondSquared", "m/s²", "1"},
	{"Acceleration", float64(units.FootPerSecondSquared), "FeetPerSecondSquared", "ft/s²", "ft"},
	{"Acceleration", float64(units.StandardGravity), "StandardGravities", "g", "g"},
	{"Angle", float64(units.Radian), "Radians", "rad", "1"},
	{"Angle", float64(units.Degree), "Degrees", "°", "pi/180"},
	{"Angle", float64(units.Turn), "Turns", "turn", "2*pi"},
	{"Temperature", scale, "Kelvins", "K", "1"},
	{"Temperature", scale, "Celsius", "°C", "1"},
	{"Temperature", scale, "Fahrenheit", "°F", "5/9"},
	{"TemperatureDifference", float64(units.Kelvin), "Kelvins", "K", "1"},
	{"TemperatureDifference", float64(units.CelsiusDegree), "CelsiusDegrees", "°C", "1"},
	{"TemperatureDifference", float64(units.FahrenheitDegree), "FahrenheitDegrees", "°F", "5/9"},
	{"Density", float64(units.KilogramPerCubicMetre), "KilogramsPerCubicMetre", "kg/m³", "1"},
	{"Density", float64(units.GramPerCubicCentimetre), "GramsPerCubicCentimetre", "g/cm³", "1000"},
	{"Density", float64(units.KilogramPerLitre), "KilogramsPerLitre", "kg/L", "1000"},
	{"Density", float64(units.PoundPerCubicFoot), "PoundsPerCubicFoot", "lb/ft³", "lb/ft/ft/ft"},
	{"Density", float64(units.PoundPerCubicInch), "PoundsPerCubicInch", "lb/in³", "lb/in/in/in"},
	{"Time", float64(units.Second), "Seconds", "s", "1"},
	{"Time", float64(units.Millisecond), "Milliseconds", "ms", "1/1000"},
	{"Time", float64(units.Minute), "Minutes", "min", "60"},
	{"Time", float64(units.Hour), "Hours", "h", "3600"},
	{"Time", float64(units.Day), "Days", "d", "86400"},
	{"Frequency", float64(units.Hertz), "Hertz", "Hz", "1"},
	{"Frequency", float64(units.Kilohertz), "Kilohertz", "kHz", "1000"},
	{"Energy", float64(units.Joule), "Joules", "J", "1"},
	{"Energy", float64(units.Kilojoule), "Kilojoules", "kJ", "1000"},
	{"Energy", float64(units.Megajoule), "Megajoules", "MJ", "1000000"},
	{"Energy", float64(units.WattHour), "WattHours", "Wh", "3600"},
	{"Energy", float64(units.KilowattHour), "KilowattHours", "kWh", "3600000"},
	{"Energy", float64(units.FootPoundForce), "FootPoundsForce", "ft·lbf", "ft*lbf"},
	{"Power", float64(units.Watt), "Watts", "W", "1"},
	{"Power", float64(units.Milliwatt), "Milliwatts", "mW", "1/1000"},
	{"Power", float64(units.Kilowatt), "Kilowatts", "kW", "1000"},
	{"Power", float64(units.MetricHorsepower), "MetricHorsepower", "PS", "75*kgf"},
	{"Power", float64(units.MechanicalHorsepower), "MechanicalHorsepower", "mechanical hp", "550*ft*lbf"},
	{"Torque", float64(units.NewtonMetre), "NewtonMetres", "N·m", "1"},
	{"Torque", float64(units.KilonewtonMetre), "KilonewtonMetres", "kN·m", "1000"},
	{"Torque", float64(units.KilogramForceMetre), "KilogramForceMetres", "kgf·m", "kgf"},
	{"Torque", float64(units.PoundForceFoot), "PoundForceFeet", "lbf·ft", "lbf*ft"},
	{"Torque", float64(units.PoundForceInch), "PoundForceInches", "lbf·in", "lbf*in"},
	{"Current", float64(units.Ampere), "Amperes", "A", "1"},
	{"Current", float64(units.Milliampere), "Milliamperes", "mA", "1/1000"},
	{"Current", float64(units.Kiloampere), "Kiloamperes", "kA", "1000"},
	{"Voltage", float64(units.Volt), "Volts", "V", "1"},
	{"Voltage", float64(units.Millivolt), "Millivolts", "mV", "1/1000"},
	{"Voltage", float64(units.Kilovolt), "Kilovolts", "kV", "1000"},
	{"Resistance", float64(units.Ohm), "Ohms", "Ω", "1"},
	{"Resistance", float64(units.Microhm), "Microhms", "µΩ", "1/1000000"},
	{"Resistance", float64(units.Milliohm), "Milliohms", "mΩ", "1/1000"},
	{"Resistance", float64(units.Kilohm), "Kilohms", "kΩ", "1000"},
	{"Resistance", float64(units.Megohm), "Megohms", "MΩ", "1000000"},
	{"ResistancePerLength", float64(units.OhmPerMetre), "OhmsPerMetre", "Ω/m", "1"},
	{"ResistancePerLength", float64(units.MilliohmPerMetre), "MilliohmsPerMetre", "mΩ/m", "1/1000"},
	{"ResistancePerLength", float64(units.OhmPerKilometre), "OhmsPerKilometre", "Ω/km", "1/1000"},
	{"ResistancePerLength", float64(units.OhmPerKilofoot), "OhmsPerKilofoot", "Ω/kft", "1/1000/ft"},
	{"Charge", float64(units.Coulomb), "Coulombs", "C", "1"},
	{"Charge", float64(units.MilliampereHour), "MilliampereHours", "mAh", "36/10"},
	{"Charge", float64(units.AmpereHour), "AmpereHours", "Ah", "3600"},
	{"MagneticFlux", float64(units.Weber), "Webers", "Wb", "1"},
	{"MagneticFlux", float64(units.Milliweber), "Milliwebers", "mWb", "1/1000"},
	{"Inductance", float64(units.Henry), "Henries", "H", "1"},
	{"Inductance", float64(units.Microhenry), "Microhenries", "µH", "1/1000000"},
	{"Inductance", float64(units.Millihenry), "Millihenries", "mH", "1/1000"},
	{"AngularSpeed", float64(units.RadianPerSecond), "RadiansPerSecond", "rad/s", "1"},
	{"AngularSpeed", float64(units.DegreePerSecond), "DegreesPerSecond", "°/s", "pi/180"},
	{"AngularSpeed", float64(units.RevolutionPerMinute), "RevolutionsPerMinute", "rpm", "2*pi/60"},
	{"MomentOfInertia", float64(units.KilogramSquareMetre), "KilogramSquareMetres", "kg·m²", "1"},
	{"MomentOfInertia", float64(units.PoundSquareFoot), "PoundSquareFeet", "lb·ft²", "lb*ft*ft"},
}

func nearest(r *big.Rat) float64 {
	x, _ := r.Float64()
	return x
}

func TestConstantsAreTheNearestToTheirDefinitions(t *testing.T) {
	for _, f := range factors {
		if want := nearest(f.exact(t)); f.kind != "Temperature" && f.value != want {
			t.Errorf("unit of %s: constant %v, definition %v", f.accessor, f.value, want)
		}
	}
}

// offset is what is added to the number on a temperature scale.
func (f factor) offset() *big.Rat {
	switch {
	case f.kind == "Temperature" && f.accessor == "Celsius":
		return big.NewRat(27315, 100)
	case f.kind == "Temperature" && f.accessor == "Fahrenheit":
		return big.NewRat(45967, 100)
	}
	return new(big.Rat)
}

// Parsing is exact until one rounding: compare with rational arithmetic on
// numbers short and long.
func TestParseRoundsOnce(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for _, f := range factors {
		if f.name == "" {
			continue
		}
		k := kindNamed(t, f.kind)
		numbers := []string{"1", "0.1", "3.7", "12345678901234567890.5", "0.30000000000000000000000000001", "9007199254740993", "1e-300", "2.5e200"}
		for range 50 {
			numbers = append(numbers, decimalOf(rnd))
		}
		for _, n := range numbers {
			want, ok := new(big.Rat).SetString(n)
			if !ok {
				t.Fatal(n)
			}
			want.Add(want, f.offset())
			want.Mul(want, f.exact(t))
			got, err := k.parse(n + " " + f.name)
			if err != nil {
				t.Errorf("%s %q: %v", f.kind, n+" "+f.name, err)
			} else if got != nearest(want) {
				t.Errorf("%s %q: got %v, want %v", f.kind, n+" "+f.name, got, nearest(want))
			}
		}
	}
}

func decimalOf(rnd *rand.Rand) string {
	s := []byte{byte('1' + rnd.IntN(9))}
	n := 1 + rnd.IntN(18)
	point := rnd.IntN(n)
	for i := range n {
		if i == point {
			s = append(s, '.')
		}
		s = append(s, byte('0'+rnd.IntN(10)))
	}
	return string(s)
}

func accessorOf(t *testing.T, value any, name string) float64 {
	t.Helper()
	m := reflect.ValueOf(value).MethodByName(name)
	if !m.IsValid() {
		t.Fatalf("%T has no method %s", value, name)
	}
	return m.Call(nil)[0].Float()
}

// Where the factor or its inverse is a whole number, the accessor is correctly
// rounded; elsewhere it is within two units in the last place. In is the same.
func TestAccessors(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for _, f := range factors {
		k := kindNamed(t, f.kind)
		exact := f.exact(t)
		whole := exact.IsInt() || new(big.Rat).Inv(exact).IsInt()
		for i := range 300 {
			x := float64(i)
			if i > 100 {
				x = (rnd.Float64() - 0.3) * math.Pow(10, float64(rnd.IntN(30)-15))
			}
			v := k.of(x)
			got := accessorOf(t, v, f.accessor)
			want := new(big.Rat).SetFloat64(x)
			want.Quo(want, exact)
			want.Sub(want, f.offset())
			w := nearest(want)
			// The offset cancels digits of the larger number.
			bound := 2 * ulp(math.Abs(w)+nearest(f.offset()))
			if whole && f.offset().Sign() == 0 {
				bound = 0
			}
			if math.Abs(got-w) > bound {
				t.Errorf("%s(%v).%s() = %v, want %v", f.kind, x, f.accessor, got, w)
			}
			if f.name == "" {
				continue
			}
			in, err := v.(interface{ In(string) (float64, error) }).In(f.name)
			if err != nil || in != got {
				t.Errorf("%s(%v).In(%q) = %v, %v; %s is %v", f.kind, x, f.name, in, err, f.accessor, got)
			}
		}
	}
}

func ulp(x float64) float64 { return math.Nextafter(math.Abs(x), math.Inf(1)) - math.Abs(x) }

// Every name that is listed is a unit of the table above, and the other way round.
func TestUnitsLists(t *testing.T) {
	for _, k := range kinds {
		want := make(map[string]bool)
		for _, f := range factors {
			if f.kind == k.name && f.name != "" {
				want[f.name] = true
			}
		}
		list := k.units()
		for _, s := range list {
			if !want[s] {
				t.Errorf("%sUnits lists %q, which the table of factors does not", k.name, s)
			}
			delete(want, s)
		}
		for s := range want {
			t.Errorf("%sUnits does not list %q", k.name, s)
		}
		if x, err := k.parse("1 " + list[0]); err != nil || x != 1 {
			t.Errorf("%s: first unit %q is %v, %v; want the SI unit", k.name, list[0], x, err)
		}
	}
}

func TestStandardGravityAgreesWithGonum(t *testing.T) {
	if got, want := float64(units.StandardGravity), float64(constant.StandardGravity); got != want {
		t.Errorf("standard gravity %v, gonum has %v", got, want)
	}
	if got, want := float64(units.Kilogram.Weight()), float64(constant.StandardGravity); got != want {
		t.Errorf("a kilogram weighs %v N, gonum's gravity is %v", got, want)
	}
}
