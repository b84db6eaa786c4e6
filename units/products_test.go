package units_test

import (
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.com/forepeak/units"
)

// Every method Times... and Per... takes one quantity and gives another whose
// dimension is the product or quotient, and the number is too.
func TestProductsAgreeWithDimensions(t *testing.T) {
	byType := make(map[reflect.Type]kind)
	for _, k := range kinds {
		byType[reflect.TypeOf(k.of(0))] = k
	}
	checked := 0
	for _, k := range kinds {
		x := reflect.ValueOf(k.of(21))
		for i := range x.NumMethod() {
			name := x.Type().Method(i).Name
			m := x.Method(i)
			times, per := strings.HasPrefix(name, "Times"), strings.HasPrefix(name, "Per")
			if (!times && !per) || m.Type().NumIn() != 1 {
				continue // Frequency.Period takes nothing
			}
			argument := byType[m.Type().In(0)]
			y := reflect.ValueOf(argument.of(8))
			got := m.Call([]reflect.Value{y})[0]
			want, sign := 21.0*8, 1
			if per {
				want, sign = 21.0/8, -1
			}
			if got.Float() != want {
				t.Errorf("%s.%s: got %v, want %v", k.name, name, got.Float(), want)
			}
			dim := dimension{
				k.dim.kg + sign*argument.dim.kg, k.dim.m + sign*argument.dim.m,
				k.dim.s + sign*argument.dim.s, k.dim.a + sign*argument.dim.a,
			}
			result := byType[m.Type().Out(0)] // none for the plain ratio Per
			if m.Type().Out(0).Kind() != reflect.Float64 || dim != result.dim {
				t.Errorf("%s.%s(%s) gives %v of dimension %v, want %v", k.name, name, argument.name, m.Type().Out(0), result.dim, dim)
			}
			checked++
		}
	}
	if checked < 90 {
		t.Errorf("only %d products found", checked)
	}
}

func TestScaleAndAbs(t *testing.T) {
	for _, k := range kinds {
		if k.name == "Temperature" {
			for _, name := range []string{"Scale", "Abs", "Per"} {
				if reflect.ValueOf(k.of(1)).MethodByName(name).IsValid() {
					t.Errorf("a temperature is a point on a scale and has no %s", name)
				}
			}
			continue
		}
		v := reflect.ValueOf(k.of(-2.5))
		if got := v.MethodByName("Scale").Call([]reflect.Value{reflect.ValueOf(3.0)})[0].Float(); got != -7.5 {
			t.Errorf("%s: Scale gives %v", k.name, got)
		}
		if got := v.MethodByName("Abs").Call(nil)[0].Float(); got != 2.5 {
			t.Errorf("%s: Abs gives %v", k.name, got)
		}
	}
}

func TestWeight(t *testing.T) {
	if got := (2 * units.Kilogram).Weight(); got != 19.6133 {
		t.Errorf("2 kg weigh %v", got)
	}
	if got := units.PoundForce.Mass(); math.Abs(float64(got-units.Pound)) > ulp(float64(units.Pound)) {
		t.Errorf("1 lbf is the weight of %v, want %v", got, units.Pound)
	}
	if got := (2 * units.KilogramPerMetre).Weight(); got != 19.6133 {
		t.Errorf("2 kg/m weigh %v", got)
	}
	if got := units.ForcePerLength(19.6133).Mass(); got != 2 {
		t.Errorf("19.6133 N/m is the weight of %v", got)
	}
}

func TestTemperature(t *testing.T) {
	for _, c := range []struct{ celsius, fahrenheit float64 }{{0, 32}, {100, 212}, {-40, -40}, {37, 98.6}} {
		k, f := units.Celsius(c.celsius), units.Fahrenheit(c.fahrenheit)
		if math.Abs(float64(k.Sub(f))) > 1e-13 {
			t.Errorf("%v °C is %v, %v °F is %v", c.celsius, k, c.fahrenheit, f)
		}
		if math.Abs(k.Fahrenheit()-c.fahrenheit) > 2e-13 || math.Abs(f.Celsius()-c.celsius) > 2e-13 {
			t.Errorf("%v °C reads %v °F, %v °F reads %v °C", c.celsius, k.Fahrenheit(), c.fahrenheit, f.Celsius())
		}
	}
	if got := units.Temperature(300).Add(10 * units.Kelvin); got != 310 {
		t.Errorf("300 K + 10 K is %v", got)
	}
	if got := units.Temperature(300).Sub(290); got != 10*units.Kelvin {
		t.Errorf("300 K - 290 K is %v", got)
	}
}

func TestAngle(t *testing.T) {
	if got := units.Atan2(3, -3); got != 135*units.Degree {
		t.Errorf("up and back is %v", got)
	}
	a := units.Atan2(3, 4)
	if s, c, tan := a.Sin(), a.Cos(), a.Tan(); math.Abs(s-0.6) > 1e-16 || math.Abs(c-0.8) > 2e-16 || math.Abs(tan-0.75) > 2e-16 {
		t.Errorf("the 3-4-5 triangle has sine %v, cosine %v, tangent %v", s, c, tan)
	}
}

func TestRotation(t *testing.T) {
	f := 50 * units.Hertz
	if got := f.Period(); got != 0.02 {
		t.Errorf("period of 50 Hz is %v", got)
	}
	if got := units.Time(0.02).Frequency(); got != f {
		t.Errorf("frequency of 20 ms is %v", got)
	}
	if got := f.AngularSpeed().RevolutionsPerMinute(); math.Abs(got-3000) > 1e-12*3000 {
		t.Errorf("50 turns a second is %v rpm", got)
	}
	if got := f.AngularSpeed().Frequency(); math.Abs(float64(got-f)) > 1e-14 {
		t.Errorf("50 Hz comes back as %v", got)
	}
}

func TestDuration(t *testing.T) {
	if got := units.FromDuration(90 * time.Minute); got != 5400 {
		t.Errorf("90 minutes are %v", got)
	}
	for _, c := range []struct {
		t    units.Time
		want time.Duration
	}{
		{0, 0},
		{1.5, 1500 * time.Millisecond},
		{-1.5, -1500 * time.Millisecond},
		{0.6e-9, 1},
		{0.4e-9, 0},
		{9e9, 9e9 * time.Second},
		{-9223372036.854775808, math.MinInt64},
	} {
		if got, err := c.t.Duration(); err != nil || got != c.want {
			t.Errorf("%v: got %v, %v; want %v", c.t, got, err, c.want)
		}
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e10, -1e10, 9223372036.854775808} {
		got, err := units.Time(x).Duration()
		if _, ok := err.(*units.ValueError); !ok || got != 0 {
			t.Errorf("%v s: got %v, %v; want a *ValueError", x, got, err)
		}
	}
}
