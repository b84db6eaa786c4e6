package anchor_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

func second[T any](_ T, err error) error { return err }

// What a calculation cannot be asked is refused by the name of the value.
func TestRefusedByName(t *testing.T) {
	pullAngle := func(angle, fluke units.Angle) error {
		_, err := anchor.HoldingLeft(angle, fluke)
		return err
	}
	noon := time.Date(2030, 5, 17, 12, 0, 0, 0, time.UTC)
	tide := anchor.Tide{Turns: []anchor.Turn{{At: noon, Height: 4}, {At: noon.Add(6 * time.Hour), Height: 1}}}
	sounding := anchor.Sounding{At: noon, Shown: 4}
	early := anchor.Sounding{At: noon.Add(-30 * time.Hour), Shown: 4}
	boat := anchor.Windage{Parts: []anchor.Part{{Name: "hull", Front: 3, Side: 9, Top: 1, Length: 9}}}
	fast := anchor.Wind{Speed: 10}
	for _, c := range []struct {
		field string
		err   error
	}{
		{"fluke", pullAngle(0, 0)},
		{"angle", pullAngle(units.Angle(math.NaN()), 0.6)},
		{"Current.Depth", second(anchor.Current{}.Reynolds(1))},
		{"length", second(anchor.Current{Depth: 5}.Reynolds(-1))},
		{"height", second(fast.At(-1))},
		{"Wind.Speed", second(anchor.Wind{Speed: 200}.At(5))},
		{"force", second(boat.SpeedFor(-1, fast))},
		{"Wind.Height", second(boat.SpeedFor(1, anchor.Wind{Height: 500}))},
		{"fraction", second(anchor.FixDeviation(3, 1))},
		{"Exposure", second(anchor.Exposure(9).MarshalText())},
		{"Sounding.Shown", second(anchor.Sounding{At: noon, Shown: -1}.DepthAt(tide, noon))},
	} {
		var e *anchor.Error
		if !errors.As(c.err, &e) || e.Field != c.field {
			t.Errorf("%v, want something about %s", c.err, c.field)
		}
	}
	// Outside the tide table there is no depth, at either end.
	if _, err := early.DepthAt(tide, noon); err == nil {
		t.Error("a sounding from before the table has a depth")
	}
	if _, err := sounding.DepthAt(tide, noon.Add(48*time.Hour)); err == nil {
		t.Error("a time after the table has a depth")
	}
	d, err := sounding.DepthAt(tide, noon.Add(6*time.Hour))
	if err != nil || math.Abs(float64(d-1)) > 1e-9 {
		t.Errorf("at low water %v %v, want 1 m", d, err)
	}
	if s := anchor.Rig(9).String() + anchor.Spectrum(9).String(); s != "rig 9spectrum 9" {
		t.Error(s)
	}
	// Fresh water is thinner and lighter: the same stream pushes less.
	a, errA := anchor.Current{Speed: 1, Depth: 5}.Reynolds(8)
	b, errB := anchor.Current{Speed: 1, Depth: 5, Fresh: true}.Reynolds(8)
	if errA != nil || errB != nil || b <= a {
		t.Errorf("Reynolds %v %v in the sea, %v %v in fresh water", a, errA, b, errB)
	}
}
