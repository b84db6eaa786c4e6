package units_test

import (
	"encoding"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

// checkRoundTrip checks what holds for every finite value: the text gives the
// same value back to the bit, and the readable form is right to its last digit
// and can be parsed.
func checkRoundTrip(t *testing.T, k kind, x float64) {
	t.Helper()
	v := k.of(x)
	s := fmt.Sprint(v)
	if got, err := k.parse(s); err != nil || math.Float64bits(got) != math.Float64bits(x) {
		t.Errorf("%s: %v prints %q and parses as %v, %v", k.name, x, s, got, err)
	}
	if text, err := v.(encoding.TextMarshaler).MarshalText(); err != nil || string(text) != s {
		t.Errorf("%s: %v prints %q and marshals %q, %v", k.name, x, s, text, err)
	}
	if a := math.Abs(x); a > 1e300 || a != 0 && a < 1e-290 {
		return // rounds out of range, or has fewer digits than are printed
	}
	for digits := 1; digits <= 6; digits++ {
		checkReadable(t, k, x, fmt.Sprintf("%.*v", digits, v), digits)
	}
}

// checkReadable checks s, the readable form of x with so many digits.
func checkReadable(t *testing.T, k kind, x float64, s string, digits int) {
	t.Helper()
	number, unit, found := strings.Cut(s, " ")
	if !found { // 14.3°
		number, unit = strings.TrimSuffix(s, "°"), "°"
	}
	printed, err := strconv.ParseFloat(number, 64)
	if err != nil {
		t.Errorf("%s: %v prints %q", k.name, x, s)
		return
	}
	exact, err := k.of(x).(interface{ In(string) (float64, error) }).In(unit)
	if err != nil {
		t.Errorf("%s: %v prints %q: %v", k.name, x, s, err)
		return
	}
	half := 0.0
	if exact != 0 {
		half = math.Pow(10, math.Floor(math.Log10(math.Abs(exact)))-float64(digits)+1) / 2
	}
	if math.Abs(printed-exact) > half*(1+1e-9)+2*ulp(exact) {
		t.Errorf("%s: %v is %v %s and prints %q", k.name, x, exact, unit, s)
	}
	back, err := k.parse(s)
	if err != nil {
		t.Errorf("%s: %v prints %q: %v", k.name, x, s, err)
		return
	}
	noise := 4 * ulp(printed)
	if k.name == "Temperature" {
		noise = 4 * ulp(math.Abs(printed)+273.15) // the offset cancels digits
	}
	if in, err := k.of(back).(interface{ In(string) (float64, error) }).In(unit); err != nil || math.Abs(in-printed) > noise {
		t.Errorf("%s: %q parses as %v, which is %v %s", k.name, s, back, in, unit)
	}
}

func TestRoundTrip(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	for _, k := range kinds {
		for _, x := range []float64{0, 1, -1, 0.1, 1e15, 1e16, 1e-5, 9.9e-6, math.MaxFloat64, -math.MaxFloat64, 5e-324, math.Copysign(0, -1), 1.0 / 3, 273.15, 9.995, 999.5, 0.9995} {
			checkRoundTrip(t, k, x)
		}
		for range 300 {
			if x := math.Float64frombits(rnd.Uint64()); !math.IsNaN(x) && !math.IsInf(x, 0) {
				checkRoundTrip(t, k, x)
			}
			checkRoundTrip(t, k, (rnd.Float64()-0.5)*math.Pow(10, float64(rnd.IntN(20)-8)))
		}
	}
}

func FuzzPrint(f *testing.F) {
	f.Add(uint8(0), 12.5)
	f.Add(uint8(12), 291.15)
	f.Fuzz(func(t *testing.T, which uint8, x float64) {
		k := kinds[int(which)%len(kinds)]
		if math.IsNaN(x) || math.IsInf(x, 0) {
			if y, err := k.parse(fmt.Sprint(k.of(x))); err == nil {
				t.Errorf("%s: %v parses as %v", k.name, k.of(x), y)
			}
			return
		}
		checkRoundTrip(t, k, x)
	})
}

func FuzzParse(f *testing.F) {
	for i, k := range kinds {
		for _, u := range k.units() {
			f.Add(uint8(i), "1 1/2 "+u)
			f.Add(uint8(i), "-2.5e3"+u)
		}
	}
	f.Add(uint8(0), `41' 3 1/2"`)
	f.Fuzz(func(t *testing.T, which uint8, s string) {
		k := kinds[int(which)%len(kinds)]
		x, err := k.parse(s)
		if err != nil {
			if x != 0 || err.Error() == "" {
				t.Errorf("%s %q: %v beside the error %q", k.name, s, x, err)
			}
			return
		}
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s %q gives %v", k.name, s, x)
		}
		checkRoundTrip(t, k, x)
		// Blanks around it change nothing.
		if len(s) < 90 {
			if y, err := k.parse(" " + s + "\t"); err != nil || y != x {
				t.Errorf("%s %q gives %v, with blanks around it %v, %v", k.name, s, x, y, err)
			}
		}
	})
}
