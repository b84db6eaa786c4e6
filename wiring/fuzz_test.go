package wiring_test

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"testing"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// FuzzSolve makes a circuit of whatever it is given, five bytes an element: kind, two nodes and
// a 16-bit size. Whatever comes, there is an answer that balances or an error that says
// what was wrong, and never a panic, a NaN or an endless search.
func FuzzSolve(f *testing.F) {
	f.Add([]byte{0, 0, 1, 0, 9, 4, 1, 0, 7, 0})
	f.Add([]byte{0, 0, 1, 1, 1, 1, 1, 2, 3, 3, 5, 2, 0, 9, 9, 6, 2, 0, 60, 1, 7, 1, 0, 3, 3})
	f.Add([]byte{0, 0, 1, 1, 1, 8, 0, 1, 200, 200, 6, 1, 0, 255, 255})
	f.Add([]byte{0, 0, 1, 0, 0, 0, 1, 2, 0, 0, 3, 2, 3, 255, 0, 9, 3, 0, 1, 1, 10, 2, 0, 1, 1, 5, 3, 1, 0, 0})
	f.Fuzz(func(t *testing.T, data []byte) {
		var c wiring.Circuit
		var at wiring.Conditions
		for len(data) >= 5 && len(c.Elements) < 200 {
			kind, from, to, size := data[0], data[1], data[2], float64(binary.LittleEndian.Uint16(data[3:5]))
			data = data[5:]
			e := wiring.Element{Name: fmt.Sprint(len(c.Elements)), From: fmt.Sprint(from), To: fmt.Sprint(to)}
			x := math.Pow(10, size/65535*20-10) // 1e-10 to 1e10
			switch kind % 12 {
			case 0:
				e.Battery = &wiring.Battery{Chemistry: wiring.AGM, OpenCircuit: 12, Charge: 1, Resistance: units.Resistance(x)}
			case 1:
				e.Contact = &wiring.Contact{Role: wiring.Lug, Resistance: units.Resistance(x)}
			case 2:
				e.Cable = &wiring.Cable{Conductor: wiring.Conductor{Area: 1e-6, Resistance: 0.02}, Length: units.Length(x)}
			case 3:
				e.Contact = &wiring.Contact{Role: wiring.Switch, Resistance: 1, Open: true}
			case 4:
				e.Load = &wiring.Load{Resistance: units.Resistance(x)}
			case 5:
				e.Load = &wiring.Load{Current: units.Current(x)}
			case 6:
				e.Load = &wiring.Load{Power: units.Power(x)}
			case 7:
				e.Motor = &wiring.Motor{Type: wiring.PermanentMagnet, Resistance: 0.05, Flux: 0.05, Efficiency: 1, Load: units.Torque(x)}
			case 8:
				e.Alternator = &wiring.Alternator{Voltage: 14, Limit: units.Current(x), Resistance: 0.01}
			case 9:
				e.Motor = &wiring.Motor{Type: wiring.SeriesWound, Resistance: 0.05, Slope: 1e-3, Knee: 100, Efficiency: 0.9, Load: units.Torque(x)}
			case 10:
				e.Motor = &wiring.Motor{Type: wiring.CompoundWound, Voltage: 12, Resistance: 0.05, Flux: 0.03, Slope: 2e-4, Efficiency: 0.9, Load: units.Torque(x)}
			case 11:
				e.Device = &wiring.Device{Kind: wiring.Fuse, Rating: units.Current(x), Resistance: units.Resistance(x)}
				at.Open = append(at.Open, e.Name)
			}
			c.Elements = append(c.Elements, e)
		}
		st, err := wiring.Solve(c, at)
		if err != nil {
			var e *wiring.Error
			if !errors.As(err, &e) || e.Err == nil || e.Field == "" {
				t.Fatalf("error without a field: %v", err)
			}
			return
		}
		for _, b := range st.Branches {
			for _, x := range []float64{float64(b.Current), float64(b.Drop), float64(b.Power), float64(b.Speed), float64(b.Resistance)} {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("%+v", b)
				}
			}
		}
		conserved(t, c, st)
	})
}

// FuzzHeat asks for the temperature of any cable in any air after any spell: an answer between
// the ambient and 250 °C, or an error with a field, in a bounded time.
func FuzzHeat(f *testing.F) {
	f.Add(35.0, 0.565, 10.6, 30.0, 40.0, 200.0, 300.0)
	f.Add(0.5, 40.0, 0.0, 30.0, 30.0, 10.0, 1e7)
	f.Add(300.0, 0.06, 0.0, -60.0, 249.0, 0.0, 1e7)
	f.Add(1.5, 13.7, 3.0, 249.0, 249.5, 1e6, 1e-9)
	f.Fuzz(func(t *testing.T, mm2, ohmPerKm, diameter, ambient, start, amps, seconds float64) {
		c := wiring.Conductor{
			Area: units.Area(mm2 * 1e-6), Resistance: units.ResistancePerLength(ohmPerKm / 1000),
			Diameter: units.Length(diameter / 1000), Insulation: units.Celsius(105),
		}
		got, err := wiring.TemperatureAfter(c, units.Celsius(ambient), units.Celsius(start), wiring.Spell{Current: units.Current(amps), For: units.Time(seconds)})
		var e *wiring.Error
		switch {
		case err != nil && (!errors.As(err, &e) || e.Field == ""):
			t.Fatalf("error without a field: %v", err)
		case err == nil && !(got.Celsius() >= ambient-1e-6 && got.Celsius() <= 250):
			t.Fatalf("%v", got)
		}
	})
}
