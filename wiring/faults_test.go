package wiring_test

import (
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

// testWindlass is a 12 V windlass of 1 kW with 50 mm² at 9.5 m from the bank.
func testWindlass(t testing.TB) Windlass {
	t.Helper()
	motor, err := FitMotor(PermanentMagnet, 12*units.Volt,
		MotorPoint{Torque: 0, Current: 12, Speed: 300}, MotorPoint{Torque: 4, Current: 105, Speed: 220})
	if err != nil {
		t.Fatal(err)
	}
	motor.Load = 3.5
	band, err := PublishedBand(BandC, 100)
	if err != nil {
		t.Fatal(err)
	}
	small, err := PublishedBand(BandBlade, 3)
	if err != nil {
		t.Fatal(err)
	}
	return Windlass{
		Bank: Battery{
			Chemistry: AGM, Cells: 6, Capacity: 230 * units.AmpereHour,
			Resistance: 3 * units.Milliohm, Charge: 0.9, Temperature: units.Celsius(20),
		},
		Motor: motor,
		Cable: Cable{Conductor: Conductor{
			Size: "50 mm²", Area: 50 * units.SquareMillimetre, Resistance: 0.386e-3, Insulation: units.Celsius(70),
		}},
		ToBreaker: 2.6 * units.Metre, OneWay: 9.5 * units.Metre,
		Breaker:  Device{Kind: Breaker, Rating: 100, Resistance: 0.5 * units.Milliohm, Interrupting: 10000, Band: &band},
		Lug:      0.1 * units.Milliohm,
		Isolator: 0.2 * units.Milliohm, Contacts: 0.3 * units.Milliohm,
		Coil:     12 * units.Ohm,
		Control:  Conductor{Size: "1 mm²", Area: 1 * units.SquareMillimetre, Resistance: 19.5e-3, Insulation: units.Celsius(70)},
		CtrlFuse: Device{Kind: Fuse, Rating: 3, Resistance: 30 * units.Milliohm, Interrupting: 1000, Band: &small},
		Switches: []ControlSwitch{{"deck", 2 * units.Metre}, {"cockpit", 11 * units.Metre}},
		Hull:     &Hull{Positive: 1e6, Negative: 1e6, Case: 5e5, Bonding: 0.01},
	}
}

func TestWindlassFaults(t *testing.T) {
	w := testWindlass(t)
	for _, does := range []Working{Resting, Hauling, Lowering} {
		c, err := w.Circuit(does)
		if err != nil {
			t.Fatal(err)
		}
		s, err := Solve(c, Conditions{})
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range s.Branches {
			t.Logf("%-40s %8.2f A %7.4f V %s", b.Name, b.Current.Amperes(), b.Drop.Volts(), b.State)
		}
		r, err := StudyFaults(c, FaultStudy{})
		if err != nil {
			t.Fatal(err)
		}
		t.Log(does, r.Unprotected)
		for _, k := range r.Cables {
			t.Logf("%+v", k)
		}
		for _, k := range r.Devices {
			t.Logf("%+v", k)
		}
	}
}

func TestHull(t *testing.T) {
	w := testWindlass(t)
	c, _ := w.Circuit(Hauling)
	r, err := CheckHull(c, HullStudy{Node: "hull", Isolator: []string{"isolator +", "isolator -"}})
	t.Logf("%+v %v", r, err)
	r, err = CheckHull(c, HullStudy{Node: "hull", Isolator: []string{"isolator +"}})
	t.Logf("%+v %v", r, err)
	w.Hull.Bond = 0.001
	c, _ = w.Circuit(Hauling)
	r, err = CheckHull(c, HullStudy{Node: "hull", Isolator: []string{"isolator +", "isolator -"}})
	t.Logf("%+v %v", r, err)
}
