package wiring

import (
	"math"
	"testing"

	"example.com/forepeak/units"
)

// A pause at the end of a duty cools the copper and takes nothing back.
func TestDutyIsJudgedAtItsHottest(t *testing.T) {
	stock, err := Metric(Flexible, Tinned)
	if err != nil {
		t.Fatal(err)
	}
	q := Requirement{Stock: stock.WithInsulation(units.Celsius(90)), Run: 19, Current: 100, Duty: []Spell{{300, 3 * units.Minute}}}
	want, err := SizeConductor(q)
	if err != nil {
		t.Fatal(err)
	}
	q.Duty = append(q.Duty, Spell{0, 20 * units.Minute})
	got, err := SizeConductor(q)
	if err != nil || got.Conductor.Size != want.Conductor.Size || got.Hottest != want.Hottest {
		t.Errorf("%s at %v, error %v, without the pause %s at %v", got.Conductor.Size, got.Hottest, err, want.Conductor.Size, want.Hottest)
	}
}

// Heat of duty knows the air, the engine space and the bundle; the surface that a bundle leaves
// reduces the current about as the tables do.
func TestDutyInItsInstallation(t *testing.T) {
	stock, err := Metric(Flexible, Tinned)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range []struct {
		in   Installation
		want units.Temperature
	}{
		{Installation{}, units.Celsius(30)},
		{Installation{Ambient: units.Celsius(45)}, units.Celsius(45)},
		{Installation{EngineSpace: true}, units.Celsius(50)},
		{Installation{EngineSpace: true, Ambient: units.Celsius(48)}, units.Celsius(48)},
	} {
		q := Requirement{Stock: stock.WithInsulation(units.Celsius(90)), Run: 19, Current: 100, Duty: []Spell{{100, 2 * units.Hour}}, Installation: k.in}
		got, err := SizeConductor(q)
		if err != nil {
			t.Fatal(err)
		}
		want, err := TemperatureAfter(got.Conductor, k.want, k.want, q.Duty...)
		if err != nil || got.Hottest != want {
			t.Errorf("%+v: %v, error %v, want %v", k.in, got.Hottest, err, want)
		}
	}
	c, err := stock.WithInsulation(units.Celsius(90)).Find("16 mm²")
	if err != nil {
		t.Fatal(err)
	}
	alone, err := SteadyCurrent(c, units.Celsius(30))
	if err != nil {
		t.Fatal(err)
	}
	for n, table := range map[int]float64{2: 0.85, 3: 0.70, 6: 0.60, 24: 0.50} {
		most := func(amps units.Current) units.Temperature {
			h, err := newThermal(c, units.Celsius(30))
			if err != nil {
				t.Fatal(err)
			}
			h.open = 1 / math.Sqrt(float64(n))
			last, _, err := h.follow(units.Celsius(30), []Spell{{amps, 10 * units.Hour}})
			if err != nil {
				t.Fatal(err)
			}
			return last
		}
		low, high := 0.3, 1.0
		for high-low > 1e-4 {
			if f := (low + high) / 2; most(alone.Scale(f)) > units.Celsius(90) {
				high = f
			} else {
				low = f
			}
		}
		if math.Abs(low-table) > 0.08 {
			t.Errorf("%d together: %.2f of what one alone carries, the tables say %.2f", n, low, table)
		}
	}
}

// Conductors in parallel lie together: two of them are rated as the bundle that they make.
func TestParallelIsABundle(t *testing.T) {
	for _, k := range []struct{ bundled, n, want int }{{0, 1, 0}, {0, 3, 3}, {1, 2, 2}, {2, 2, 4}, {3, 2, 5}, {2, 4, 8}} {
		if got := (Installation{Bundled: k.bundled}).beside(k.n).Bundled; got != k.want {
			t.Errorf("%+v: %d", k, got)
		}
	}
	stock, err := Metric(Flexible, Tinned)
	if err != nil {
		t.Fatal(err)
	}
	q := Requirement{Stock: stock.WithInsulation(units.Celsius(105)), Run: 10, Current: 200, Parallel: 2, Rules: E11, Installation: Installation{Bundled: 2}}
	got, err := SizeConductor(q)
	if err != nil {
		t.Fatal(err)
	}
	one, err := Ampacity(E11, got.Conductor, Installation{Bundled: 2 * got.Parallel})
	if err != nil || got.Ampacity != one.Current.Scale(float64(got.Parallel)) || got.Ampacity < 200 {
		t.Errorf("%d x %s, %v, by the table of the bundle %v, error %v", got.Parallel, got.Conductor.Size, got.Ampacity, one.Current, err)
	}
}
