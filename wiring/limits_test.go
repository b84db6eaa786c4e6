package wiring_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/forepeak/units"
	. "example.com/forepeak/wiring"
)

// A limit is one input of a calculation, with what is taken for it, the ends of its range
// included, and what is refused, just beyond them.
type limit struct {
	what   string
	field  string // that the refusal names
	call   func(x float64) error
	taken  []float64
	barred []float64
}

type list = []float64

func of[T any](_ T, err error) error { return err }

func of2[T, U any](_ T, _ U, err error) error { return err }

func checkLimits(t *testing.T, kind error, limits []limit) {
	t.Helper()
	for _, l := range limits {
		for _, x := range l.taken {
			if err := l.call(x); err != nil {
				t.Errorf("%s of %v: %v", l.what, x, err)
			}
		}
		for _, x := range l.barred {
			err := l.call(x)
			if e := new(Error); !errors.As(err, &e) || !errors.Is(err, kind) || e.Field != l.field || e.Value == "" || e.Want == "" {
				t.Errorf("%s of %v: error %v, want %s to be refused as %v", l.what, x, err, l.field, kind)
			}
		}
	}
}

// Some values out of every range, for what must be more than 0 and for what may be 0.
var (
	never    = list{0, -1, nan, inf, -inf}
	negative = list{-1, nan, inf, -inf}
)

func celsius(x float64) units.Temperature { return units.Celsius(x) }

// What the copper of a cable may have.
var (
	coppers   = list{-60, 20, 250}
	noCoppers = list{-61, 251, nan, inf}
)

func TestLimitsOfBands(t *testing.T) {
	open := func(points ...BandPoint) error { return of(Band{Points: points}.Opening(10, 20)) }
	checkLimits(t, ErrInput, []limit{
		{"rating", "rating", func(x float64) error { return of(Band{Points: []BandPoint{{2, 1, 5}}}.Opening(units.Current(x), 5)) }, list{1e-3, 1e5}, never},
		{"current", "current", func(x float64) error { return of(Band{Points: []BandPoint{{2, 1, 5}}}.Opening(10, units.Current(x))) }, list{0, 1e6}, negative},
		{"multiple", "band.Points[0].Multiple", func(x float64) error { return open(BandPoint{x, 1, 5}) }, list{1, 1e4}, list{0.999, 1.0001e4, nan}},
		{"earliest", "band.Points[0].Earliest", func(x float64) error { return open(BandPoint{2, units.Time(x), 0}) }, list{0, 5}, negative},
		{"latest", "band.Points[0].Latest", func(x float64) error { return open(BandPoint{2, 0, units.Time(x)}) }, list{0, 5}, negative},
		{"latest after earliest", "band.Points[0].Latest", func(x float64) error { return open(BandPoint{2, 5, units.Time(x)}) }, list{0, 5, 6}, list{4.999}},
		{"second multiple", "band.Points[1].Multiple", func(x float64) error { return open(BandPoint{2, 1, 5}, BandPoint{x, 1, 5}) }, list{2.001}, list{2, 1.5}},
		{"second earliest", "band.Points[1].Earliest", func(x float64) error { return open(BandPoint{2, 5, 0}, BandPoint{3, units.Time(x), 0}) }, list{0, 5}, list{5.001}},
		{"earliest after none", "", func(x float64) error { return open(BandPoint{2, 0, 0}, BandPoint{3, units.Time(x), 0}) }, list{0, 5}, nil},
		{"second latest", "band.Points[1].Latest", func(x float64) error { return open(BandPoint{2, 0, 5}, BandPoint{3, 0, units.Time(x)}) }, list{5, 1}, list{5.001, 0}},
		{"latest after none", "", func(x float64) error { return open(BandPoint{2, 0, 0}, BandPoint{3, 0, units.Time(x)}) }, list{0, 5}, nil},
		{"third point", "band.Points[2].Multiple", func(x float64) error {
			return open(BandPoint{2, 1, 5}, BandPoint{3, 1, 5}, BandPoint{x, 1, 5})
		}, list{4}, list{3, 2.5}},
		{"multiple of a rating", "current", func(x float64) error {
			return of(Band{Points: []BandPoint{{2, 1, 5}}}.Opening(units.Current(x), 1e15))
		}, list{1e-12}, nil},
	})
	published := func(name BandName) func(float64) error {
		return func(x float64) error { return of(PublishedBand(name, units.Current(x))) }
	}
	for name, most := range map[BandName]float64{BandB: 125, BandC: 125, BandUL489: 600, BandBlade: 40, BandBolted: 500} {
		checkLimits(t, ErrInput, []limit{{string(name), "rating", published(name), list{1, most}, never}})
		checkLimits(t, ErrRange, []limit{{string(name), "rating", published(name), nil, list{most + 1, most * (1 + 1e-9)}}})
	}
}

func TestLimitsOfDevices(t *testing.T) {
	ride := func(change func(d *Device)) error {
		d := thermal(100)
		change(&d)
		return of(RideThrough(d, []Spell{{Current: 1, For: 1}}))
	}
	spell := func(s Spell) error { return of(RideThrough(thermal(100), []Spell{{Current: 1, For: 1}, s})) }
	checkLimits(t, ErrInput, []limit{
		{"rating", "device.Rating", func(x float64) error { return ride(func(d *Device) { d.Rating = units.Current(x) }) }, list{1e-3, 1e4}, never},
		{"resistance", "device.Resistance", func(x float64) error { return ride(func(d *Device) { d.Resistance = units.Resistance(x) }) }, list{1e-9, 1e12}, append(list{0.9e-9, 1.1e12}, never...)},
		{"interrupting", "device.Interrupting", func(x float64) error { return ride(func(d *Device) { d.Interrupting = units.Current(x) }) }, list{0, 1e4}, negative},
		{"kind", "device.Kind", func(x float64) error {
			return ride(func(d *Device) { d.Kind = []DeviceKind{Fuse, Breaker, "switch"}[int(x)] })
		}, list{0, 1}, list{2}},
		{"band", "device.Band.Points[5].Latest", func(x float64) error { return ride(func(d *Device) { d.Band.Points[5].Latest = units.Time(x) }) }, list{1.2}, list{0}},
		{"current of a spell", "spells[1].Current", func(x float64) error { return spell(Spell{units.Current(x), 1}) }, list{0, 1e6}, negative},
		{"time of a spell", "spells[1].For", func(x float64) error { return spell(Spell{1, units.Time(x)}) }, list{1e-3, 1e9}, never},
		{"prospective current", "prospective", func(x float64) error { return of(Selective(thermal(200), thermal(100), units.Current(x))) }, list{100.001, 1e5}, append(list{100, 50}, never...)},
		{"upper device", "upper.Rating", func(x float64) error {
			d := thermal(100)
			d.Rating = units.Current(x)
			return of(Selective(d, thermal(100), 500))
		}, list{100}, never},
		{"lower device", "lower.Rating", func(x float64) error {
			d := thermal(100)
			d.Rating = units.Current(x)
			return of(Selective(thermal(100), d, 500))
		}, list{100}, never},
		{"cranking current", "cranking", func(x float64) error { return of(InterruptingRule(12, units.Current(x), 0)) }, list{1, 2200}, never},
		{"capacity", "capacity", func(x float64) error { return of(InterruptingRule(12, 500, units.Charge(x))) }, list{0, 500 * 3600}, negative},
		{"system", "system", func(x float64) error { return of(InterruptingRule(units.Voltage(x), 500, 0)) }, list{12, 24, 32}, list{0, 12.5, 13, 23, 25, 31, 33, 48, nan}},
		{"one battery", "one", func(x float64) error { return of(BankFault(units.Current(x), 2)) }, list{1, 1e4}, never},
		{"strings", "strings", func(x float64) error { return of(BankFault(1000, int(x))) }, list{1, 1000}, list{0, -1, 1001}},
		{"place", "place.Length", func(x float64) error { return of(CheckPlacement(ISO, Place{Length: units.Length(x)})) }, list{0, 1e3}, negative},
		{"places", "place.Length", func(x float64) error { return of(CheckPlacements(Place{Length: units.Length(x)})) }, list{0, 1e3}, negative},
		{"stall", "stall.Low", func(x float64) error {
			return of(TellTrip(thermal(100), units.Interval[units.Current]{Low: units.Current(x), High: units.Current(x)}, units.Interval[units.Current]{Low: 1, High: 2}, 1))
		}, list{1, 1e4}, never},
		{"least short", "short.Low", func(x float64) error {
			return of(TellTrip(thermal(100), units.Interval[units.Current]{Low: 1, High: 1}, units.Interval[units.Current]{Low: units.Current(x), High: 2}, 1))
		}, list{1, 2}, never},
		{"greatest short", "short.High", func(x float64) error {
			return of(TellTrip(thermal(100), units.Interval[units.Current]{Low: 1, High: 1}, units.Interval[units.Current]{Low: 2, High: units.Current(x)}, 1))
		}, list{2, 1e4}, append(list{1.999}, never...)},
		{"time of a trip", "after", func(x float64) error {
			return of(TellTrip(thermal(100), units.Interval[units.Current]{Low: 1, High: 1}, units.Interval[units.Current]{Low: 1, High: 1}, units.Time(x)))
		}, list{0, 1e6}, negative},
		{"device that tripped", "device.Rating", func(x float64) error {
			d := thermal(100)
			d.Rating = units.Current(x)
			return of(TellTrip(d, units.Interval[units.Current]{Low: 1, High: 1}, units.Interval[units.Current]{Low: 1, High: 1}, 1))
		}, list{100}, never},
		{"measured", "measured.Low", func(x float64) error {
			return of(TellResistance(ohms{Low: units.Resistance(x), High: 2}, ohms{Low: 0, High: 1}))
		}, list{0, 2}, negative},
		{"measured high", "measured.High", func(x float64) error {
			return of(TellResistance(ohms{Low: 2, High: units.Resistance(x)}, ohms{Low: 0, High: 1}))
		}, list{2, 3}, append(list{1.999}, negative...)},
		{"standing", "standing.Low", func(x float64) error {
			return of(TellResistance(ohms{Low: 0, High: 1}, ohms{Low: units.Resistance(x), High: 2}))
		}, list{0, 2}, negative},
		{"standing high", "standing.High", func(x float64) error {
			return of(TellResistance(ohms{Low: 0, High: 1}, ohms{Low: 2, High: units.Resistance(x)}))
		}, list{2, 3}, append(list{1.999}, negative...)},
	})
	checkLimits(t, ErrRange, []limit{
		{"cranking current", "cranking", func(x float64) error { return of(InterruptingRule(12, units.Current(x), 0)) }, nil, list{2200.001, 1e4}},
		{"capacity", "capacity", func(x float64) error { return of(InterruptingRule(12, 500, units.Charge(x))) }, nil, list{500*3600 + 1}},
	})
}

func TestLimitsOfHunts(t *testing.T) {
	plan := func(n, joints int) error {
		s, j := make([]Section, n), make([]Joint, max(0, joints))
		for i := range s {
			s[i] = Section{fmt.Sprint(i), 1}
		}
		return of(PlanHunt(s, j, ByLamp))
	}
	checkLimits(t, ErrInput, []limit{
		{"sections", "sections", func(x float64) error { return plan(int(x), int(x)-1) }, list{1, 2, 300}, list{0, 301}},
		{"joints", "joints", func(x float64) error { return plan(3, int(x)) }, list{2}, list{0, 1, 3}},
		{"likelihood", "sections[1].Likelihood", func(x float64) error {
			return of(PlanHunt([]Section{{"a", 1}, {"b", x}}, make([]Joint, 1), ByResistance))
		}, list{0, 1e9}, negative},
		{"sum of likelihoods", "sections", func(x float64) error {
			return of(PlanHunt([]Section{{"a", 0}, {"b", x}}, make([]Joint, 1), BySmallFuse))
		}, list{1e-9}, list{0}},
		{"effort", "joints[1].Effort", func(x float64) error {
			return of(PlanHunt([]Section{{"a", 1}, {"b", 1}, {"c", 1}}, []Joint{{"j", 1}, {"k", units.Time(x)}}, ByLamp))
		}, list{0, 1e-6, 1e9}, append(list{0.99e-6}, negative...)},
		{"method", "by", func(x float64) error {
			return of(PlanHunt([]Section{{"a", 1}}, nil, []Method{ByResistance, ByLamp, BySmallFuse, "by ear"}[int(x)]))
		}, list{0, 1, 2}, list{3}},
	})
}

// The parts of a circuit.
func TestLimitsOfCircuits(t *testing.T) {
	with := func(field string, change func(c *Circuit, x float64), taken, barred list) limit {
		return limit{field, field, func(x float64) error {
			c := Circuit{Elements: []Element{
				{Name: "bank", From: "-", To: "+", Battery: &Battery{
					Chemistry: AGM, Cells: 6, Charge: 1, Resistance: 0.005, Capacity: 36000,
					Disconnect: &Disconnect{Resistance: 1e-3, Continuous: 100, Peak: 200},
				}},
				{Name: "out", From: "+", To: "a", Cable: &Cable{Conductor: Conductor{Area: 1e-5, Resistance: 2e-3}, Length: 5}},
				{Name: "lug", From: "a", To: "b", Contact: &Contact{Role: Lug, Resistance: 1e-4}},
				{Name: "fuse", From: "b", To: "c", Device: &Device{Kind: Fuse, Rating: 10, Resistance: 1e-3}},
				{Name: "lamp", From: "c", To: "-", Load: &Load{Current: 2}},
				{Name: "heater", From: "b", To: "-", Load: &Load{Resistance: 100}},
				{Name: "radio", From: "b", To: "-", Load: &Load{Power: 10}},
				{Name: "windlass", From: "b", To: "-", Motor: &Motor{Type: PermanentMagnet, Resistance: 0.03, Flux: 0.05, Efficiency: 0.9, Load: 4}},
				{Name: "alternator", From: "-", To: "+", Alternator: &Alternator{Voltage: 14, Limit: 60, Resistance: 0.01}},
			}}
			change(&c, x)
			return of(NewSolver(c))
		}, taken, barred}
	}
	ohmic := append(list{0.9e-9, 1.1e12}, never...)
	checkLimits(t, ErrInput, []limit{
		with("Elements[0] (bank).Battery.Charge", func(c *Circuit, x float64) { c.Elements[0].Battery.Charge = x }, list{0, 1}, list{-0.01, 1.01, nan}),
		with("Elements[0] (bank).Battery.Resistance", func(c *Circuit, x float64) { c.Elements[0].Battery.Resistance = units.Resistance(x) }, list{1e-9, 1e12}, ohmic),
		with("Elements[0] (bank).Battery.Capacity", func(c *Circuit, x float64) { c.Elements[0].Battery.Capacity = units.Charge(x) }, list{0, 1e6}, negative),
		with("Elements[0] (bank).Battery.RatedOver", func(c *Circuit, x float64) { c.Elements[0].Battery.RatedOver = units.Time(x) }, list{0, 36000}, negative),
		with("Elements[0] (bank).Battery.Peukert", func(c *Circuit, x float64) { c.Elements[0].Battery.Peukert = x }, list{0, 1.2}, negative),
		with("Elements[0] (bank).Battery.Temperature", func(c *Circuit, x float64) { c.Elements[0].Battery.Temperature = celsius(x) }, list{-273.15, -30, 60}, list{-31, 61, nan}),
		with("Elements[0] (bank).Battery.OpenCircuit", func(c *Circuit, x float64) { c.Elements[0].Battery.OpenCircuit = units.Voltage(x) }, list{0, 0.1, 1000}, list{0.09, 1001, -12, nan}),
		with("Elements[0] (bank).Battery.Cells", func(c *Circuit, x float64) { c.Elements[0].Battery.Cells = int(x) }, list{1, 500}, list{0, -1, 501}),
		with("Elements[0] (bank).Battery.Cells", func(c *Circuit, x float64) {
			c.Elements[0].Battery.OpenCircuit, c.Elements[0].Battery.Cells = 12, int(x)
		}, list{0, 600}, nil),
		with("Elements[0] (bank).Battery.Disconnect.Resistance", func(c *Circuit, x float64) {
			c.Elements[0].Battery.Disconnect.Resistance = units.Resistance(x)
		}, list{1e-9, 1e12}, ohmic),
		with("Elements[0] (bank).Battery.Disconnect.Continuous", func(c *Circuit, x float64) {
			c.Elements[0].Battery.Disconnect.Continuous = units.Current(x)
		}, list{1, 200}, never),
		with("Elements[0] (bank).Battery.Disconnect.Peak", func(c *Circuit, x float64) { c.Elements[0].Battery.Disconnect.Peak = units.Current(x) }, list{100, 1e4}, list{99.9, 0, -1, nan, inf}),
		with("Elements[0] (bank).Battery.Disconnect.PeakTime", func(c *Circuit, x float64) { c.Elements[0].Battery.Disconnect.PeakTime = units.Time(x) }, list{0, 60}, negative),
		with("Elements[0] (bank).Battery.Disconnect.LowVoltage", func(c *Circuit, x float64) {
			c.Elements[0].Battery.Disconnect.LowVoltage = units.Voltage(x)
		}, list{0, 10}, negative),
		with("Elements[0] (bank).Battery.Disconnect.LowTemperature", func(c *Circuit, x float64) {
			c.Elements[0].Battery.Disconnect.LowTemperature = units.Temperature(x)
		}, list{0, 260}, negative),

		with("Elements[1] (out).Cable.Length", func(c *Circuit, x float64) { c.Elements[1].Cable.Length = units.Length(x) }, list{1e-3, 1e4}, never),
		with("Elements[1] (out).Cable.Parallel", func(c *Circuit, x float64) { c.Elements[1].Cable.Parallel = int(x) }, list{0, 1, 1000}, list{-1, 1001}),
		with("Elements[1] (out).Cable.Temperature", func(c *Circuit, x float64) { c.Elements[1].Cable.Temperature = celsius(x) }, coppers, noCoppers),
		with("Elements[1] (out).Cable.Installation.Ambient", func(c *Circuit, x float64) { c.Elements[1].Cable.Installation.Ambient = celsius(x) }, coppers, noCoppers),
		with("Elements[1] (out).Cable.Installation.Bundled", func(c *Circuit, x float64) { c.Elements[1].Cable.Installation.Bundled = int(x) }, list{0, 1, 1000}, list{-1, 1001}),
		with("Elements[1] (out).Cable.Conductor.Area", func(c *Circuit, x float64) { c.Elements[1].Cable.Conductor.Area = units.Area(x) }, list{1e-9, 1e-2}, append(list{0.9e-9, 1.1e-2}, never...)),
		with("Elements[1] (out).Cable.Conductor.Resistance", func(c *Circuit, x float64) {
			c.Elements[1].Cable.Conductor.Resistance = units.ResistancePerLength(x)
		}, list{1e-9, 1e3}, append(list{0.9e-9, 1.1e3}, never...)),
		with("Elements[1] (out).Cable.Conductor.Insulation", func(c *Circuit, x float64) { c.Elements[1].Cable.Conductor.Insulation = celsius(x) }, list{40, 250}, list{39, 251, nan}),
		with("Elements[1] (out).Cable.Conductor.Diameter", func(c *Circuit, x float64) { c.Elements[1].Cable.Conductor.Diameter = units.Length(x) }, list{0, 0.01}, negative),
		with("Elements[1] (out).Cable.Conductor.Mass", func(c *Circuit, x float64) { c.Elements[1].Cable.Conductor.Mass = units.LinearDensity(x) }, list{0, 1}, negative),
		with("Elements[1] (out).Cable.Conductor.Price", func(c *Circuit, x float64) { c.Elements[1].Cable.Conductor.Price = units.Money(x) }, list{0, 1}, negative),
		// A nanohm a metre is a conductor, half a metre of it is less than any part has.
		with("Elements[1] (out).Cable resistance", func(c *Circuit, x float64) {
			c.Elements[1].Cable.Conductor.Resistance, c.Elements[1].Cable.Length = 1e-9, units.Length(x)
		}, list{1, 2}, list{0.5}),
		with("Elements[1] (out).Cable resistance", func(c *Circuit, x float64) {
			*c.Elements[1].Cable = Cable{Conductor: Conductor{Area: 1e-5, Resistance: 1e-9}, Length: 2, Parallel: int(x)}
		}, list{0, 1, 2}, list{3}),

		with("Elements[2] (lug).Contact.Resistance", func(c *Circuit, x float64) { c.Elements[2].Contact.Resistance = units.Resistance(x) }, list{1e-9, 1e12}, ohmic),
		with("Elements[3] (fuse).Device.Rating", func(c *Circuit, x float64) { c.Elements[3].Device.Rating = units.Current(x) }, list{1, 1e4}, never),
		with("Elements[4] (lamp).Load.Current", func(c *Circuit, x float64) { c.Elements[4].Load.Current = units.Current(x) }, list{1e-3, 1e6}, list{-1, 1.1e6, nan, inf}),
		with("Elements[5] (heater).Load.Resistance", func(c *Circuit, x float64) { c.Elements[5].Load.Resistance = units.Resistance(x) }, list{1e-9, 1e12}, list{0.9e-9, 1.1e12, -1, nan}),
		with("Elements[6] (radio).Load.Power", func(c *Circuit, x float64) { c.Elements[6].Load.Power = units.Power(x) }, list{1e-3, 1e9}, list{-1, 1.1e9, nan, inf}),
		with("Elements[4] (lamp).Load", func(c *Circuit, x float64) {
			l := c.Elements[4].Load
			*l = Load{}
			if n := int(x); n%2 == 1 {
				l.Current = 1
			}
			if n := int(x); n/2%2 == 1 {
				l.Power = 1
			}
			if n := int(x); n/4 == 1 {
				l.Resistance = 1
			}
		}, list{1, 2, 4}, list{0, 3, 5, 6, 7}),

		with("Elements[8] (alternator).Alternator.Voltage", func(c *Circuit, x float64) { c.Elements[8].Alternator.Voltage = units.Voltage(x) }, list{0.1, 1000}, list{0, 0.09, 1001, nan}),
		with("Elements[8] (alternator).Alternator.Limit", func(c *Circuit, x float64) { c.Elements[8].Alternator.Limit = units.Current(x) }, list{1e-3, 1e6}, list{0, 0.9e-3, 1.1e6, nan}),
		with("Elements[8] (alternator).Alternator.Resistance", func(c *Circuit, x float64) { c.Elements[8].Alternator.Resistance = units.Resistance(x) }, list{1e-9, 1e12}, ohmic),

		// A name and its nodes are a thousand bytes at most.
		with("Elements[4]", func(c *Circuit, x float64) { c.Elements[4].Name = strings.Repeat("n", int(x)-2) }, list{1000}, list{1001}),
		with("Elements[4] (lamp).From", func(c *Circuit, x float64) { c.Elements[4].From = []string{"", "c"}[int(x)] }, list{1}, list{0}),
		with("Elements[4] (lamp).To", func(c *Circuit, x float64) { c.Elements[4].To = []string{"", "c", "-"}[int(x)] }, list{2}, list{0, 1}),
		with("Reference", func(c *Circuit, x float64) { c.Reference = []string{"", "a", "keel"}[int(x)] }, list{0, 1}, list{2}),
	})
	// One part is one part.
	for _, e := range []Element{
		{},
		{Battery: &Battery{}, Alternator: &Alternator{}},
		{Cable: &Cable{}, Contact: &Contact{}},
		{Device: &Device{}, Load: &Load{}},
		{Load: &Load{}, Motor: &Motor{}},
		{Battery: &Battery{}, Motor: &Motor{}},
	} {
		e.Name, e.From, e.To = "x", "a", "b"
		_, err := Solve(Circuit{Elements: []Element{e}}, Conditions{})
		if x := new(Error); !errors.As(err, &x) || x.Field != "Elements[0] (x)" {
			t.Errorf("%+v: error %v", e, err)
		}
	}
}

func TestLimitsOfMotors(t *testing.T) {
	magnet := Motor{Type: PermanentMagnet, Resistance: 0.03, Flux: 0.05, Efficiency: 0.9, Load: 4}
	series := Motor{Type: SeriesWound, Resistance: 0.03, Slope: 1e-3, Efficiency: 0.9, Load: 4}
	compound := Motor{Type: CompoundWound, Voltage: 12, Resistance: 0.03, Flux: 0.05, Slope: 1e-4, Efficiency: 0.9, Load: 4}
	with := func(m Motor, field string, change func(m *Motor, x float64), taken, barred list) limit {
		return limit{string(m.Type) + " " + field, "motor." + field, func(x float64) error {
			m := m
			change(&m, x)
			_, _, err := m.Running(12)
			_, stall := m.StallCurrent(12)
			if (err == nil) != (stall == nil) {
				t.Errorf("%+v runs with %v, but stands with %v", m, err, stall)
			}
			return err
		}, taken, barred}
	}
	var limits []limit
	for _, m := range []Motor{magnet, series, compound} {
		limits = append(limits,
			with(m, "Resistance", func(m *Motor, x float64) { m.Resistance = units.Resistance(x) }, list{1e-9, 1e12}, append(list{0.9e-9, 1.1e12}, never...)),
			with(m, "Efficiency", func(m *Motor, x float64) { m.Efficiency = x }, list{0.01, 1, 1.001}, list{0, -1, 1.002, nan}),
			with(m, "Drag", func(m *Motor, x float64) { m.Drag = units.Torque(x) }, list{0, 1e9}, list{-1, 1.1e9, nan}),
			with(m, "Load", func(m *Motor, x float64) { m.Load = units.Torque(x) }, list{1, 1e9}, list{-1, 1.1e9, nan}),
			with(m, "Voltage", func(m *Motor, x float64) { m.Voltage = units.Voltage(x) }, list{0.1, 1000}, list{0.09, 1001, -1, nan}),
			with(m, "Type", func(m *Motor, x float64) { m.Type = "steam" }, nil, list{0}),
		)
	}
	limits = append(limits,
		with(magnet, "Voltage", func(m *Motor, x float64) { m.Voltage = units.Voltage(x) }, list{0}, nil),
		with(compound, "Voltage", func(m *Motor, x float64) { m.Voltage = units.Voltage(x) }, nil, list{0}),
		with(magnet, "Flux", func(m *Motor, x float64) { m.Flux = units.MagneticFlux(x) }, list{1.1e-12, 1e6}, list{0, 1e-12, -1, 1.1e6, nan}),
		with(magnet, "Slope", func(m *Motor, x float64) { m.Slope = units.Inductance(x) }, list{0}, list{1e-3, -1, nan}),
		with(magnet, "Slope", func(m *Motor, x float64) { m.Knee = units.Current(x) }, list{0}, list{1, 1e3}),
		with(magnet, "Load", func(m *Motor, x float64) { m.Load = units.Torque(x) }, list{0}, nil),
		with(series, "Flux", func(m *Motor, x float64) { m.Flux = units.MagneticFlux(x) }, list{0}, list{1e-3, -1, nan}),
		with(series, "Slope", func(m *Motor, x float64) { m.Slope = units.Inductance(x) }, list{1.1e-12, 1e6}, list{0, 1e-12, -1, 1.1e6, nan}),
		with(series, "Knee", func(m *Motor, x float64) { m.Knee = units.Current(x) }, list{0, 1e-3, 1e15}, list{0.9e-3, 1.1e15, -1, nan}),
		// A series motor runs away without any torque, its own friction being enough.
		with(series, "Load", func(m *Motor, x float64) { m.Load, m.Drag = 0, units.Torque(x) }, list{0.1}, list{0}),
		with(compound, "Knee", func(m *Motor, x float64) { m.Knee = units.Current(x) }, list{0}, list{1, 1e3, -1, nan}),
		with(compound, "Slope", func(m *Motor, x float64) { m.Slope = units.Inductance(x) }, list{1.1e-12, 1e6}, list{0, 1e-12, -1, 1.1e6, nan}),
		with(compound, "Slope", func(m *Motor, x float64) { m.Flux = units.MagneticFlux(x) }, list{1.1e-12, 1e6}, list{0, 1e-12}),
		with(compound, "Flux", func(m *Motor, x float64) { m.Flux = units.MagneticFlux(x) }, nil, list{-1, 1.1e6, nan}),
	)
	checkLimits(t, ErrInput, limits)
	fit := func(change func(p []MotorPoint)) error {
		p := []MotorPoint{{Current: 10, Speed: 300}, {Current: 100, Speed: 200}}
		change(p)
		return of(FitMotor(PermanentMagnet, 12, p...))
	}
	checkLimits(t, ErrInput, []limit{
		{"running at", "at", func(x float64) error { return of2(magnet.Running(units.Voltage(x))) }, list{0, 1000}, list{-1, 1001, nan}},
		{"standing at", "at", func(x float64) error { return of(magnet.StallCurrent(units.Voltage(x))) }, list{0, 1000}, list{-1, 1001, nan}},
		{"fit at", "at", func(x float64) error {
			return of(FitMotor(PermanentMagnet, units.Voltage(x), MotorPoint{Current: 0.01, Speed: 300}, MotorPoint{Current: 0.1, Speed: 200}))
		}, list{0.1, 1000}, list{0.09, 1001, 0, nan}},
		{"fit of", "kind", func(float64) error { return of(FitMotor("steam", 12)) }, nil, list{0}},
		{"speed", "points[0].Speed", func(x float64) error { return fit(func(p []MotorPoint) { p[0].Speed = units.AngularSpeed(x) }) }, list{201, 1e6}, list{-1, 1.1e6, nan}},
		{"current", "points[1].Current", func(x float64) error { return fit(func(p []MotorPoint) { p[1].Current = units.Current(x) }) }, list{11, 1e6}, list{-1, 0.9e-3, 1.1e6, nan}},
		{"torque", "points[1].Torque", func(x float64) error { return fit(func(p []MotorPoint) { p[1].Torque = units.Torque(x) }) }, list{0, 3}, list{-1, 1.1e9, nan}},
		{"greater current at a greater speed", "points[1]", func(x float64) error { return fit(func(p []MotorPoint) { p[1].Speed = units.AngularSpeed(x) }) }, list{299, 0}, list{300, 301}},
		{"points of a magnet motor", "points", func(x float64) error {
			p := []MotorPoint{{Current: 10, Speed: 300}, {Current: 100, Speed: 200}, {Current: 200, Speed: 100}}
			return of(FitMotor(PermanentMagnet, 12, p[:int(x)]...))
		}, list{2}, list{0, 1, 3}},
	})
}

func TestLimitsOfBatteries(t *testing.T) {
	b := Battery{Capacity: 36000, RatedOver: 72000, Peukert: 1.2}
	with := func(field string, change func(b *Battery, x float64), taken, barred list) limit {
		return limit{field, field, func(x float64) error {
			b := b
			change(&b, x)
			_, err := b.PeukertCapacity()
			if of(b.RunTime(1)) == nil != (err == nil) || of(b.ChargeTaken(1, 1)) == nil != (err == nil) {
				t.Errorf("%s of %v is not everywhere the same", field, x)
			}
			return err
		}, taken, barred}
	}
	for _, other := range []struct {
		name string
		call func(a, b Spell) error
	}{
		{"a", func(a, b Spell) error { return of(PeukertExponent(a, b)) }},
		{"b", func(a, b Spell) error { return of(PeukertExponent(b, a)) }},
	} {
		checkLimits(t, ErrInput, []limit{
			{"current of a discharge", other.name + ".Current", func(x float64) error { return other.call(Spell{units.Current(x), 100}, Spell{5, 200}) }, list{5.001, 1e3}, never},
			{"time of a discharge", other.name + ".For", func(x float64) error { return other.call(Spell{10, units.Time(x)}, Spell{5, 200}) }, list{199, 1e-3}, never},
			{"order of discharges", "b.Current", func(x float64) error { return other.call(Spell{10, units.Time(x)}, Spell{5, 200}) }, list{199}, list{200, 201}},
			{"equal discharges", "b.Current", func(x float64) error { return other.call(Spell{units.Current(x), 100}, Spell{5, 200}) }, list{6}, list{5, 4}},
		})
	}
	phase := func(x float64) []Phase { return []Phase{{For: units.Time(x)}} }
	resting := lampCircuit(0.2, 6)
	resting.Elements[4].Load.Resistance = 1e9
	checkLimits(t, ErrInput, []limit{
		with("Battery.Capacity", func(b *Battery, x float64) { b.Capacity = units.Charge(x) }, list{1, 1e9}, list{0, 0.9, 1.1e9, -1, nan}),
		with("Battery.RatedOver", func(b *Battery, x float64) { b.RatedOver = units.Time(x) }, list{0, 60, 3.6e6}, list{59, 3.7e6, -1, nan}),
		with("Battery.Peukert", func(b *Battery, x float64) { b.Peukert = x }, list{0, 1, 2}, list{0.99, 2.01, -1, nan}),
		{"run at", "current", func(x float64) error { return of(b.RunTime(units.Current(x))) }, list{1e-3, 1e6}, list{0, 0.9e-3, 1.1e6, -1, nan}},
		{"taken at", "current", func(x float64) error { return of(b.ChargeTaken(units.Current(x), 1)) }, list{0, 1e6}, list{1.1e6, -1, nan}},
		{"taken over", "over", func(x float64) error { return of(b.ChargeTaken(1, units.Time(x))) }, list{0, 1e9}, list{1.1e9, -1, nan}},
		{"phase of a withdrawal", "phases[0].For", func(x float64) error { return of(Withdraw(resting, phase(x))) }, list{0, 59, 1e5}, list{1.1e7, -1, nan}},
		{"phase of a disconnect", "phases[0].For", func(x float64) error { return of(CheckDisconnects(resting, phase(x))) }, list{0, 1e9}, list{1.1e9, -1, nan}},
		{"before", "before", func(x float64) error { return of(ResistanceFromStep(units.Voltage(x), 12, 1)) }, list{12.001, 1e3}, list{12, 11, 0, -1, nan, inf}},
		{"before nothing", "before", func(x float64) error { return of(ResistanceFromStep(units.Voltage(x), 0, 1)) }, list{0.001}, list{0}},
		{"under", "under", func(x float64) error { return of(ResistanceFromStep(13, units.Voltage(x), 1)) }, list{0, 12.999}, negative},
		{"step", "current", func(x float64) error { return of(ResistanceFromStep(13, 12, units.Current(x))) }, list{1, 1e4}, never},
		{"cells", "cells", func(x float64) error { return of(ResistanceFromCranking(int(x), 500)) }, list{1, 6, 500}, list{0, -1, 501}},
		{"cranking", "cranking", func(x float64) error { return of(ResistanceFromCranking(6, units.Current(x))) }, list{1, 1e4}, never},
	})
	// A bank without a chemistry has neither voltage nor resistance.
	for name, err := range map[string]error{
		"voltage":    of(Battery{}.OpenCircuitVoltage()),
		"resistance": of(Battery{Cells: 6, Charge: 1, Resistance: 1}.InternalResistance()),
		"fault":      of(Battery{}.FaultCurrent()),
		"empty":      of(Battery{Chemistry: Flooded, Cells: 6, Charge: 0.05, Resistance: 1}.FaultCurrent()),
	} {
		if err == nil {
			t.Errorf("%s: not refused", name)
		}
	}
}

func TestLimitsOfHeat(t *testing.T) {
	c := Conductor{Size: "35 mm²", Area: 35e-6, Resistance: 0.565e-3, Insulation: celsius(85)}
	with := func(field string, change func(c *Conductor, x float64), taken, barred list) limit {
		return limit{field, field, func(x float64) error {
			c := c
			change(&c, x)
			err := of(SteadyCurrent(c, celsius(30)))
			for what, e := range map[string]error{
				"SteadyTemperature": of(SteadyTemperature(c, celsius(30), 1)),
				"TemperatureAfter":  of(TemperatureAfter(c, celsius(30), celsius(30))),
			} {
				if (e == nil) != (err == nil) {
					t.Errorf("%s with %s of %v: error %v", what, field, x, e)
				}
			}
			return err
		}, taken, barred}
	}
	// 35 mm² in two thirds of a circle are 8.217 mm across.
	core := math.Sqrt(4 * 35e-6 / (math.Pi * 0.66))
	checkLimits(t, ErrInput, []limit{
		with("conductor.Area", func(c *Conductor, x float64) { c.Area = units.Area(x) }, list{1e-9, 1e-2}, append(list{1.1e-2}, never...)),
		with("conductor.Diameter", func(c *Conductor, x float64) { c.Diameter = units.Length(x) }, list{0, core * 1.0001, 1}, list{core * 0.9999, 1.001, -1}),
		{"ambient", "ambient", func(x float64) error { return of(SteadyTemperature(c, celsius(x), 0)) }, coppers, noCoppers},
		{"ambient below the insulation", "conductor.Insulation", func(x float64) error { return of(SteadyCurrent(c, celsius(x))) }, list{-60, 84.9}, list{85, 86}},
		{"steady current", "current", func(x float64) error { return of(SteadyTemperature(c, celsius(30), units.Current(x))) }, list{0, 300}, list{-1, 1.1e6, nan, inf}},
		{"start", "start", func(x float64) error { return of(TemperatureAfter(c, celsius(30), celsius(x))) }, list{30, 249}, list{29.9, 250.1, nan}},
		{"current of a spell", "spells[1].Current", func(x float64) error {
			return of(TemperatureAfter(c, celsius(30), celsius(30), Spell{1, 1}, Spell{units.Current(x), 1e-6}))
		}, list{0, 1e3}, list{-1, 1.1e6, nan}},
		{"time of a spell", "spells[1].For", func(x float64) error {
			return of(TemperatureAfter(c, celsius(30), celsius(30), Spell{1, 1}, Spell{1, units.Time(x)}))
		}, list{0, 1e7}, list{-1, 1.1e7, nan}},
		{"start of a duty", "start", func(x float64) error { return of(CarriedFor(c, celsius(30), celsius(x), 60)) }, list{30, 84}, list{29.9, nan}},
		{"start above the insulation", "conductor.Insulation", func(x float64) error { return of(CarriedFor(c, celsius(30), celsius(x), 60)) }, list{84.9}, list{85, 90}},
		{"duration", "duration", func(x float64) error { return of(CarriedFor(c, celsius(30), celsius(30), units.Time(x))) }, list{1, 1e7}, list{0, 0.9, 1.1e7, -1, nan}},
		{"time constant", "conductor.Insulation", func(x float64) error { return of(TimeConstant(c, celsius(x))) }, list{30}, list{85}},
		{"diameter", "diameter", func(x float64) error { return of(SurfaceLoss(units.Length(x), 1, 310, 300, 0.9)) }, list{1e-4, 1}, list{0.9e-4, 1.1, 0, nan}},
		{"length", "length", func(x float64) error { return of(SurfaceLoss(0.01, units.Length(x), 310, 300, 0.9)) }, list{0, 1e5}, list{-1, 1.1e5, nan}},
		{"surroundings", "ambient", func(x float64) error { return of(SurfaceLoss(0.01, 1, celsius(250), celsius(x), 0.9)) }, coppers, noCoppers},
		{"surface", "surface", func(x float64) error { return of(SurfaceLoss(0.01, 1, celsius(x), celsius(20), 0.9)) }, list{20, 250}, list{19.9, 251, nan}},
		{"emissivity", "emissivity", func(x float64) error { return of(SurfaceLoss(0.01, 1, 310, 300, x)) }, list{0, 1}, list{-0.1, 1.1, nan}},
		{"current of a cycle", "spells[0].Current", func(x float64) error { return of(EquivalentCurrent(Spell{units.Current(x), 1})) }, list{0, 1e6}, list{-1, 1.1e6, nan}},
		{"time of a cycle", "spells[0].For", func(x float64) error { return of(EquivalentCurrent(Spell{1, units.Time(x)}, Spell{1, 1})) }, list{0, 1e9}, list{-1, 1.1e9, nan}},
		{"length of a cycle", "spells", func(x float64) error { return of(EquivalentCurrent(Spell{1, units.Time(x)})) }, list{1e-9}, list{0}},

		{"area", "area", func(x float64) error { return of(Withstand(units.Area(x), celsius(70), celsius(160))) }, list{1e-9, 1e-2}, never},
		{"initial", "initial", func(x float64) error { return of(Withstand(1e-6, celsius(x), celsius(300))) }, list{-60, 299}, list{-61, 301, nan}},
		{"final", "final", func(x float64) error { return of(Withstand(1e-6, celsius(-60), celsius(x))) }, list{-59, 300}, list{-61, -60, 301, nan}},
		{"fault", "fault", func(x float64) error { return of(WithstandTime(1e-6, units.Current(x), celsius(70), celsius(160))) }, list{1, 1e6}, never},
		{"area of a time", "area", func(x float64) error { return of(WithstandTime(units.Area(x), 1, celsius(70), celsius(160))) }, list{1e-9}, never},
		{"time", "time", func(x float64) error { return of(WithstandCurrent(1e-6, units.Time(x), celsius(70), celsius(160))) }, list{1e-3, 5}, never},
		{"area of a current", "area", func(x float64) error { return of(WithstandCurrent(units.Area(x), 1, celsius(70), celsius(160))) }, list{1e-9}, never},

		{"copper", "t", func(x float64) error { return of(CopperFactor(celsius(x))) }, coppers, noCoppers},
		{"correction", "t", func(x float64) error { return of(TemperatureCorrection(celsius(x))) }, list{5, 100}, list{4, 101, nan}},
		{"resistance at", "t", func(x float64) error { return of(c.ResistanceAt(celsius(x))) }, coppers, noCoppers},
		{"resistance of", "conductor.Area", func(x float64) error { return of(Conductor{Area: units.Area(x), Resistance: 1}.ResistanceAt(300)) }, list{1e-9}, never},
		{"bend of", "conductor.Area", func(x float64) error { return of(Conductor{Area: units.Area(x), Resistance: 1}.BendRadius()) }, list{1e-9}, never},
		{"copper of", "a", func(x float64) error { return of(CopperResistance(units.Area(x), 300)) }, list{1e-12, 1}, append(list{0.9e-12, 1.1}, never...)},
		{"copper at", "t", func(x float64) error { return of(CopperResistance(1e-6, celsius(x))) }, coppers, noCoppers},

		{"conductor at", "Conductor", func(x float64) error { return of(AmbientFactor(Ambients{celsius(x), celsius(-60), celsius(-60)})) }, list{-59, 250}, list{-61, 251, nan}},
		{"rated at", "Rated", func(x float64) error { return of(AmbientFactor(Ambients{celsius(70), celsius(x), celsius(30)})) }, list{-60, 69}, list{-61, 70, 71, 251, nan}},
		{"actually at", "Actual", func(x float64) error { return of(AmbientFactor(Ambients{celsius(70), celsius(30), celsius(x)})) }, list{-60, 69}, list{-61, 70, 71, 251, nan}},
		{"bundled", "installation.Bundled", func(x float64) error { return of(Ampacity(ISO, c, Installation{Bundled: int(x)})) }, list{0, 1, 1000}, list{-1, 1001}},
		{"ambient of a rating", "installation.Ambient", func(x float64) error { return of(Ampacity(ISO, c, Installation{Ambient: celsius(x)})) }, list{-60, 84}, noCoppers},
		{"rated conductor", "conductor.Resistance", func(x float64) error {
			return of(Ampacity(ISO, Conductor{Area: 35e-6, Resistance: units.ResistancePerLength(x), Insulation: celsius(85)}, Installation{}))
		}, list{1e-3}, never},
	})
	checkLimits(t, ErrRange, []limit{
		{"engine space", "installation.Ambient", func(x float64) error {
			return of(Ampacity(ISO, c, Installation{EngineSpace: true, Ambient: celsius(x)}))
		}, list{30, 50}, list{50.1, 60}},
		{"cores of a ship's cable", "installation.Bundled", func(x float64) error { return of(Ampacity(IEC60092, c, Installation{Bundled: int(x)})) }, list{1, 37}, list{38}},
		{"start", "spells[0].Current", func(x float64) error { return of(TemperatureAfter(c, celsius(30), celsius(x), Spell{0, 1})) }, list{249}, list{250}},
	})
}

func TestLimitsOfDrops(t *testing.T) {
	c := Conductor{Size: "35 mm²", Area: 35e-6, Resistance: 0.565e-3}
	for name, f := range map[string]func(run units.Length, current units.Current) error{
		"Drop":            func(l units.Length, i units.Current) error { return of(Drop(c, l, i, 300)) },
		"MetricDrop":      func(l units.Length, i units.Current) error { return of(MetricDrop(i, l, 1e-6)) },
		"CircularMilDrop": func(l units.Length, i units.Current) error { return of(CircularMilDrop(i, l, 1e-6)) },
	} {
		checkLimits(t, ErrInput, []limit{
			{name + " run", "run", func(x float64) error { return f(units.Length(x), 1) }, list{0, 1e5}, list{-1, 1.1e5, nan}},
			{name + " current", "current", func(x float64) error { return f(1, units.Current(x)) }, list{0, 1e6}, list{-1, 1.1e6, nan}},
		})
	}
	checkLimits(t, ErrInput, []limit{
		{"copper", "copper", func(x float64) error { return of(Drop(c, 1, 1, celsius(x))) }, coppers, noCoppers},
		{"conductor", "conductor.Area", func(x float64) error { return of(Drop(Conductor{Area: units.Area(x), Resistance: 1}, 1, 1, 300)) }, list{1e-9}, never},
		{"metric area", "area", func(x float64) error { return of(MetricDrop(1, 1, units.Area(x))) }, list{1e-10, 1e-2}, append(list{0.9e-10, 1.1e-2}, never...)},
		{"circular mils", "area", func(x float64) error { return of(CircularMilDrop(1, 1, units.Area(x))) }, list{1e-10, 1e-2}, append(list{0.9e-10, 1.1e-2}, never...)},
		{"compared run", "run", func(x float64) error { return of(CompareDrop(c, units.Length(x), 1, 300)) }, list{1e-3, 1e5}, append(list{1.1e5}, never...)},
		{"compared current", "current", func(x float64) error { return of(CompareDrop(c, 1, units.Current(x), 300)) }, list{1e-3, 1e6}, append(list{1.1e6}, never...)},
		{"compared at", "hot", func(x float64) error { return of(CompareDrop(c, 1, 1, celsius(x))) }, coppers, noCoppers},
		{"compared conductor", "conductor.Area", func(x float64) error {
			return of(CompareDrop(Conductor{Area: units.Area(x), Resistance: 1}, 1, 1, 300))
		}, list{1e-9}, never},
	})
}

func TestLimitsOfRatings(t *testing.T) {
	series := Ratings{10, 20}
	choose := func(load, ampacity units.Current) error {
		_, _, err := ChooseRating(ISO, load, ampacity, 12, series)
		return err
	}
	checkLimits(t, ErrInput, []limit{
		{"first of a series", "series[0]", func(x float64) error { return of(Ratings{units.Current(x), 20}.AtLeast(1)) }, list{1, 19.9}, never},
		{"second of a series", "series[1]", func(x float64) error { return of(Ratings{10, units.Current(x)}.AtMost(10)) }, list{10.1}, append(list{10, 9}, never...)},
		{"at least", "current", func(x float64) error { return of(series.AtLeast(units.Current(x))) }, list{0, 20}, negative},
		{"at most", "current", func(x float64) error { return of(series.AtMost(units.Current(x))) }, list{10, 1e3}, negative},
		{"ampacity", "ampacity", func(x float64) error { return of(LargestRating(CFR, units.Current(x), 12, series)) }, list{1, 1e3}, never},
		{"system", "system", func(x float64) error { return of(LargestRating(CFR, 10, units.Voltage(x), series)) }, list{1, 1e3}, never},
		{"series", "series", func(x float64) error { return of(LargestRating(E11, 10, 12, series[:int(x)])) }, list{1, 2}, list{0}},
		{"load", "load", func(x float64) error { return choose(units.Current(x), 100) }, list{0.1, 20}, never},
		{"conductor of a load", "ampacity", func(x float64) error { return choose(5, units.Current(x)) }, list{10, 100}, never},
	})
	checkLimits(t, ErrRange, []limit{
		{"at least", "current", func(x float64) error { return of(series.AtLeast(units.Current(x))) }, nil, list{20.1}},
		{"at most", "current", func(x float64) error { return of(series.AtMost(units.Current(x))) }, nil, list{0, 9.9}},
		{"load", "current", func(x float64) error { return choose(units.Current(x), 100) }, nil, list{20.1}},
	})
	checkLimits(t, ErrRating, []limit{
		{"load", "load", func(x float64) error { return choose(units.Current(x), 10) }, list{10}, list{10.1}},
	})
	fuses, err := PreferredRatings(SeriesNEC)
	if err != nil {
		t.Fatal(err)
	}
	with := func(field string, change func(s *SecondFuse, x float64), taken, barred list) limit {
		return limit{field, field, func(x float64) error {
			s := SecondFuse{
				Breaker: thermal(70), Cable: Cable{Conductor: Conductor{Area: 35e-6, Resistance: 1e-3}}, Rules: ISO, Ampacity: 160, System: 24,
				Series: fuses, Band: BandBolted, Interrupting: 3000, Resistance: 1e-3, Stall: 300, Near: 3000, Far: 1000,
			}
			change(&s, x)
			return of(ProposeFuse(s))
		}, taken, barred}
	}
	checkLimits(t, ErrInput, []limit{
		with("Breaker.Rating", func(s *SecondFuse, x float64) { s.Breaker.Rating = units.Current(x) }, list{1, 100}, never),
		with("Resistance", func(s *SecondFuse, x float64) { s.Resistance = units.Resistance(x) }, list{1e-9, 1e12}, append(list{0.9e-9}, never...)),
		with("Stall", func(s *SecondFuse, x float64) { s.Stall = units.Current(x) }, list{70.1, 1e4}, append(list{70}, never...)),
		with("Near", func(s *SecondFuse, x float64) { s.Near = units.Current(x) }, list{1, 1e5}, never),
		with("Far", func(s *SecondFuse, x float64) { s.Far = units.Current(x) }, list{1, 1e5}, never),
		with("Interrupting", func(s *SecondFuse, x float64) { s.Interrupting = units.Current(x) }, list{0, 1e5}, negative),
		with("Cable.Conductor.Insulation", func(s *SecondFuse, x float64) { s.Cable.Conductor.Insulation = celsius(x) }, list{-60, 85, 159}, list{-61, 301, nan}),
		with("Cable.Conductor.Insulation", func(s *SecondFuse, x float64) { s.Cable.Conductor.Insulation = units.Temperature(x) }, list{0}, nil),
		with("Ampacity", func(s *SecondFuse, x float64) { s.Ampacity = units.Current(x) }, list{70, 500}, nil),
		with("ampacity", func(s *SecondFuse, x float64) { s.Ampacity = units.Current(x) }, nil, never),
		with("area", func(s *SecondFuse, x float64) { s.Cable.Conductor.Area = units.Area(x) }, list{1e-6}, never),
		with("final", func(s *SecondFuse, x float64) { s.Final = celsius(x) }, list{-273.15, 71, 300}, list{70, 301}),
	})
	checkLimits(t, ErrRating, []limit{
		with("Ampacity", func(s *SecondFuse, x float64) { s.Ampacity = units.Current(x) }, list{70}, list{69.9, 1}),
		// The series has nothing so small.
		with("Ampacity", func(s *SecondFuse, x float64) { s.Series, s.Ampacity = Ratings{200}, units.Current(x) }, list{200}, list{199}),
	})
}

func TestLimitsOfSizing(t *testing.T) {
	with := func(field string, change func(q *Requirement, x float64), taken, barred list) limit {
		return limit{field, field, func(x float64) error {
			q := Requirement{Stock: Stock{{Size: "35 mm²", Area: 35e-6, Resistance: 1e-9}}, Run: 1, Current: 1, System: 12, MaxDrop: 0.1}
			change(&q, x)
			return of(SizeConductor(q))
		}, taken, barred}
	}
	checkLimits(t, ErrInput, []limit{
		with("Stock", func(q *Requirement, x float64) {
			one := q.Stock[0]
			q.Stock = make(Stock, int(x))
			for i := range q.Stock {
				q.Stock[i] = one
			}
		}, list{1, 200}, list{0, 201}),
		with("Stock[0].Area", func(q *Requirement, x float64) { q.Stock[0].Area = units.Area(x) }, list{1e-9}, never),
		with("Duty", func(q *Requirement, x float64) {
			q.Stock[0].Insulation, q.Duty = celsius(85), make([]Spell, int(x))
		}, list{0, 1, 200}, list{201}),
		with("Parallel", func(q *Requirement, x float64) { q.Parallel = int(x) }, list{0, 1, 20}, list{-1, 21}),
		with("Run", func(q *Requirement, x float64) { q.Run = units.Length(x) }, list{1e-3, 1e5}, never),
		with("Current", func(q *Requirement, x float64) { q.Current = units.Current(x) }, list{1e-3, 1e6}, never),
		with("MaxDrop", func(q *Requirement, x float64) { q.MaxDrop = x }, list{0.01, 0.5}, list{0, 0.501, -0.1, nan}),
		with("System", func(q *Requirement, x float64) { q.System = units.Voltage(x) }, list{1, 48}, never),
		with("System", func(q *Requirement, x float64) {
			q.System, q.MaxDrop, q.Supply, q.AtLoad = units.Voltage(x), 0, 12, 11
		}, list{0, 12}, negative),
		with("Supply", func(q *Requirement, x float64) { q.Supply = units.Voltage(x) }, list{0, 12}, negative),
		with("Supply", func(q *Requirement, x float64) { q.Supply, q.AtLoad = units.Voltage(x), 11 }, list{11.001, 12}, append(list{11, 10}, never...)),
		with("AtLoad", func(q *Requirement, x float64) { q.Supply, q.AtLoad = 12, units.Voltage(x) }, list{0, 11.999}, negative),
		with("Others", func(q *Requirement, x float64) { q.Others = units.Resistance(x) }, list{0, 1}, negative),
		with("Copper", func(q *Requirement, x float64) { q.Copper = celsius(x) }, append(list{-273.15}, coppers...), noCoppers),
		with("Fault", func(q *Requirement, x float64) { q.Fault, q.Clearing = units.Current(x), 1 }, list{1, 1000}, negative),
		with("Clearing", func(q *Requirement, x float64) { q.Fault, q.Clearing = 100, units.Time(x) }, list{1e-3, 5}, never),
		with("Clearing", func(q *Requirement, x float64) { q.Clearing = units.Time(x) }, list{0}, list{1, nan}),
		// Each criterion is enough by itself, and there has to be one.
		with("MaxDrop", func(q *Requirement, x float64) {
			q.MaxDrop = 0
			q.Stock[0].Insulation = celsius(85)
			switch x {
			case 1:
				q.Supply, q.AtLoad = 12, 11
			case 2:
				q.Rules = ISO
			case 3:
				q.Duty = []Spell{{1, 1}}
			case 4:
				q.Fault, q.Clearing = 10, 1
			}
		}, list{1, 2, 3, 4}, list{0}),
		with("ambient", func(q *Requirement, x float64) {
			q.Stock[0].Insulation, q.Duty, q.Ambient = celsius(85), []Spell{{1, 1}}, celsius(x)
		}, list{-273.15, -60, 20}, list{-61, 251}),
		with("start", func(q *Requirement, x float64) {
			q.Stock[0].Insulation, q.Duty, q.Start = celsius(85), []Spell{{1, 1}}, celsius(x)
		}, list{-273.15, 30, 84}, list{29.9, 251}),
		with("final", func(q *Requirement, x float64) { q.Fault, q.Clearing, q.Final = 1, 1, celsius(x) }, list{-273.15, 71, 300}, list{70, 301}),
	})
	runs := func(n int) []Run {
		all := make([]Run, n)
		for i := range all {
			all[i] = Run{Name: fmt.Sprint(i), Requirement: Requirement{Stock: Stock{{Size: "35 mm²", Area: 35e-6, Resistance: 1e-9}}, Run: 1, Current: 1, System: 12, MaxDrop: 0.1}}
		}
		return all
	}
	checkLimits(t, ErrInput, []limit{
		{"runs", "runs", func(x float64) error { return of(SizeRuns(runs(int(x)), LeastMass)) }, list{1, 200}, list{0, 201}},
		{"objective", "least", func(x float64) error {
			return of(SizeRuns(runs(1), []Objective{LeastMass, LeastArea, "beauty"}[int(x)]))
		}, list{0, 1}, list{2}},
		{"name", "runs[1].Name", func(x float64) error {
			r := runs(2)
			r[1].Name = []string{"0", "", "x"}[int(x)]
			return of(SizeRuns(r, LeastMass))
		}, list{2}, list{0, 1}},
		{"after", "runs[1].After", func(x float64) error {
			r := runs(3)
			r[1].After = []string{"", "0", "1", "2", "x"}[int(x)]
			return of(SizeRuns(r, LeastMass))
		}, list{0, 1}, list{2, 3, 4}},
		{"run of runs", "runs[1].Run", func(x float64) error {
			r := runs(2)
			r[1].Run = units.Length(x)
			return of(SizeRuns(r, LeastMass))
		}, list{1}, never},
	})
}

func TestLimitsOfShopping(t *testing.T) {
	with := func(field string, change func(s *Shop, x float64), taken, barred list) limit {
		return limit{field, field, func(x float64) error {
			var s Shop
			change(&s, x)
			return of(ShoppingList(lampCircuit(0.2, 6), s))
		}, taken, barred}
	}
	checkLimits(t, ErrInput, []limit{
		with("Slack", func(s *Shop, x float64) { s.Slack = x }, list{0, 1e-9, 1}, list{-0.01, 1.01, nan}),
		with("Ends", func(s *Shop, x float64) { s.Ends = units.Length(x) }, list{0, 1e-9, 100}, list{-0.01, 101, nan}),
		with("SoldBy", func(s *Shop, x float64) { s.SoldBy = units.Length(x) }, list{0, 1e-3, 1e3}, list{-1, 0.9e-3, 1001, nan}),
		with("Shrink", func(s *Shop, x float64) { s.Shrink = units.Length(x) }, list{0, 0.01, 1}, list{-1, 1.01, nan}),
		with("Stick", func(s *Shop, x float64) { s.Shrink, s.Stick = 0.5, units.Length(x) }, list{0, 0.5, 100}, list{-1, 0.49, 101, nan}),
		with("MainClip", func(s *Shop, x float64) { s.MainClip = units.Length(x) }, list{0, 0.01, 10}, list{-1, 0.009, 10.1, nan}),
		with("Clip", func(s *Shop, x float64) { s.Clip = units.Length(x) }, list{0, 0.01, 10}, list{-1, 0.009, 10.1, nan}),
		with("Spares", func(s *Shop, x float64) { s.Spares = int(x) }, list{-1, 0, 1000}, list{-2, 1001}),
		// A million clips, one of them at the end.
		{"clips", "Elements (cable back).Cable.Length", func(x float64) error { return of(ShoppingList(lampCircuit(0.5, units.Length(x)), Shop{Clip: 0.5})) }, list{499999}, list{499999.1}},
	})
}

func TestLimitsOfFaults(t *testing.T) {
	c := lampCircuit(0.2, 6)
	with := func(field string, change func(s *FaultStudy, x float64), taken, barred list) limit {
		return limit{field, field, func(x float64) error {
			var s FaultStudy
			change(&s, x)
			err := of(StudyFaults(c, s))
			if other := of(FaultCurrents(c, "lamp +", "lamp -", s)); (err == nil) != (other == nil) {
				t.Errorf("%s of %v: StudyFaults gives %v, FaultCurrents %v", field, x, err, other)
			}
			return err
		}, taken, barred}
	}
	hull := func(field string, change func(s *HullStudy, x float64), taken, barred list) limit {
		return limit{field, field, func(x float64) error {
			c := c
			c.Elements = append(c.Elements[:len(c.Elements):len(c.Elements)], Element{Name: "wet", From: "+", To: "hull", Contact: &Contact{Role: Leakage, Resistance: 1e6}})
			s := HullStudy{Node: "hull"}
			change(&s, x)
			return of(CheckHull(c, s))
		}, taken, barred}
	}
	checkLimits(t, ErrInput, []limit{
		with("HotCopper", func(s *FaultStudy, x float64) { s.HotCopper = celsius(x) }, append(list{-273.15}, coppers...), noCoppers),
		with("WarmBank", func(s *FaultStudy, x float64) { s.WarmBank = celsius(x) }, list{-273.15, -30, 60}, list{-31, 61, nan}),
		with(`Carries["cable on"]`, func(s *FaultStudy, x float64) { s.Carries = map[string]units.Current{"cable on": units.Current(x)} }, list{0, 10}, append(list{-1}, never[2:]...)),
		with(`Carries["lamp"]`, func(s *FaultStudy, x float64) { s.Carries = map[string]units.Current{"lamp": 1} }, nil, list{0}),
		with("WeakCharge", func(s *FaultStudy, x float64) { s.WeakCharge = x }, list{0, 1}, list{-0.1, 1.1, nan}),
		with("ColdBank", func(s *FaultStudy, x float64) { s.ColdBank = celsius(x) }, list{-273.15, -30, 60}, list{-31, 61, nan}),
		with("Final", func(s *FaultStudy, x float64) { s.Final = celsius(x) }, list{-273.15, 71, 300}, list{-61, 301, nan}),
		with("Within", func(s *FaultStudy, x float64) { s.Within = units.Time(x) }, list{0, 1e-3, 100}, negative),
		with("Harmless", func(s *FaultStudy, x float64) { s.Harmless = units.Current(x) }, list{0, 1e-3, 100}, negative),
		hull("Least", func(s *HullStudy, x float64) { s.Least = units.Resistance(x) }, list{0, 1e9}, negative),
		hull("Noticed", func(s *HullStudy, x float64) { s.Noticed = units.Current(x) }, list{0, 1}, negative),
		hull("Node", func(s *HullStudy, x float64) { s.Node = []string{"hull", "lamp +", "", "keel"}[int(x)] }, list{0, 1}, list{2, 3}),
		hull("Isolator[1]", func(s *HullStudy, x float64) {
			s.Isolator = []string{"fuse", []string{"cable back", "isolator"}[int(x)]}
		}, list{0}, list{1}),
		hull("Cases[1]", func(s *HullStudy, x float64) {
			s.Cases = []string{"fuse in", []string{"fuse out", "hull", "keel"}[int(x)]}
		}, list{0}, list{1, 2}),
		{"hull without a bank", "Elements", func(float64) error {
			return of(CheckHull(Circuit{Elements: c.Elements[1:]}, HullStudy{Node: "-"}))
		}, nil, list{0}},
		{"plus", "plus", func(x float64) error {
			return of(FaultCurrents(c, []string{"+", "", "keel"}[int(x)], "-", FaultStudy{}))
		}, list{0}, list{1, 2}},
		{"minus", "minus", func(x float64) error {
			return of(FaultCurrents(c, "+", []string{"-", "", "keel", "+"}[int(x)], FaultStudy{}))
		}, list{0}, list{2, 3}},
		{"beside the post", "plus", func(x float64) error { return of(FaultCurrents(c, "+", "", FaultStudy{})) }, nil, list{0}},
	})
}

func TestLimitsOfMeters(t *testing.T) {
	c := lampCircuit(0.2, 6)
	probes := Probes{Red: "fuse in", Black: "fuse out"}
	expect := func(m Voltmeter, s Spread) error { return of(ExpectReadings(c, Conditions{}, []Probes{probes}, m, s)) }
	find := func(r Reading, v Voltmeter, a Ammeter, s Spread) error {
		r.Probes = probes
		return of(FindBadJoint(c, Conditions{}, []Reading{{probes, 0.1, 10}, r}, v, a, s))
	}
	good := Reading{Volts: 0.1, Current: 10}
	shares, noShares := list{0, 0.5}, list{-0.01, 0.51, nan}
	limits := []limit{
		{"share", "meter.Share", func(x float64) error { return expect(Voltmeter{Share: x}, Spread{}) }, shares, noShares},
		{"fixed", "meter.Fixed", func(x float64) error { return expect(Voltmeter{Fixed: units.Voltage(x)}, Spread{}) }, list{0, 1}, negative},
		{"volts' share", "volts.Share", func(x float64) error { return find(good, Voltmeter{Share: x}, Ammeter{}, Spread{}) }, shares, noShares},
		{"volts' fixed", "volts.Fixed", func(x float64) error { return find(good, Voltmeter{Fixed: units.Voltage(x)}, Ammeter{}, Spread{}) }, list{0, 1}, negative},
		{"amperes' share", "amperes.Share", func(x float64) error { return find(good, Voltmeter{}, Ammeter{Share: x}, Spread{}) }, shares, noShares},
		{"amperes' fixed", "amperes.Fixed", func(x float64) error { return find(good, Voltmeter{}, Ammeter{Fixed: units.Current(x)}, Spread{}) }, list{0, 9.9}, negative},
		{"reading", "readings[1].Volts", func(x float64) error {
			return find(Reading{Volts: units.Voltage(x), Current: 1}, Voltmeter{}, Ammeter{}, Spread{})
		}, list{-1e6, 0, 1e6}, list{-1.1e6, 1.1e6, nan}},
		{"current", "readings[1].Current", func(x float64) error {
			return find(Reading{Volts: 1, Current: units.Current(x)}, Voltmeter{}, Ammeter{}, Spread{})
		}, list{1e-3, 1e3}, never},
		{"current of a coarse meter", "readings[1].Current", func(x float64) error {
			return find(Reading{Volts: 1, Current: units.Current(x)}, Voltmeter{}, Ammeter{Fixed: 1}, Spread{})
		}, list{1.001}, list{1, 0.5}},
	}
	for name, set := range map[string]func(s *Spread, x float64){
		"Cable":   func(s *Spread, x float64) { s.Cable = x },
		"Contact": func(s *Spread, x float64) { s.Contact = x },
		"Device":  func(s *Spread, x float64) { s.Device = x },
		"Source":  func(s *Spread, x float64) { s.Source = x },
		"Load":    func(s *Spread, x float64) { s.Load = x },
	} {
		spread := func(x float64) Spread {
			s := TypicalSpread()
			set(&s, x)
			return s
		}
		limits = append(limits,
			limit{name, "spread." + name, func(x float64) error { return expect(Voltmeter{}, spread(x)) }, list{0, 0.9}, list{-0.1, 0.91, nan}},
			limit{name, "spread." + name, func(x float64) error { return find(good, Voltmeter{}, Ammeter{}, spread(x)) }, list{0, 0.9}, list{-0.1, 0.91, nan}})
	}
	checkLimits(t, ErrInput, limits)
}

func TestLimitsOfWindlasses(t *testing.T) {
	with := func(field string, change func(w *Windlass, x float64), taken, barred list) limit {
		return limit{field, field, func(x float64) error {
			w := testWindlass(t)
			change(&w, x)
			return of(w.Circuit(Hauling))
		}, taken, barred}
	}
	leak := append(list{0.9e-9, 1.1e12}, negative...)
	checkLimits(t, ErrInput, []limit{
		with("ToBreaker", func(w *Windlass, x float64) { w.ToBreaker = units.Length(x) }, list{0.01, 9.49}, never),
		with("ToMotor", func(w *Windlass, x float64) { w.ToMotor = units.Length(x) }, list{0, 1}, negative),
		with("OneWay", func(w *Windlass, x float64) { w.OneWay = units.Length(x) }, list{2.61, 100}, list{2.6, 0, nan, inf}),
		with("Switches", func(w *Windlass, x float64) { w.Switches = w.Switches[:int(x)] }, list{1, 2}, list{0}),
		with("Switches", func(w *Windlass, x float64) { w.Coil, w.Switches = 0, w.Switches[:int(x)] }, list{0}, list{1, 2}),
		with("Switches[1].Name", func(w *Windlass, x float64) { w.Switches[1].Name = []string{"bow", "", "deck"}[int(x)] }, list{0}, list{1, 2}),
		with("Switches[1].Length", func(w *Windlass, x float64) { w.Switches[1].Length = units.Length(x) }, list{0.1, 100}, never),
		with("Switches[1].On", func(w *Windlass, x float64) { w.Switches[1].On = units.Length(x) }, list{0, 0.1, 100}, negative),
		with("Contacts", func(w *Windlass, x float64) { w.Contacts = units.Resistance(x) }, list{1e-9, 1e12}, append(list{0.9e-9}, never...)),
		with("Hull.Positive", func(w *Windlass, x float64) { w.Hull.Positive = units.Resistance(x) }, list{0, 1e-9, 1e12}, leak),
		with("Hull.Negative", func(w *Windlass, x float64) { w.Hull.Negative = units.Resistance(x) }, list{0, 1e-9, 1e12}, leak),
		with("Hull.Case", func(w *Windlass, x float64) { w.Hull.Case = units.Resistance(x) }, list{0, 1e-9, 1e12}, leak),
		with("Hull.Bonding", func(w *Windlass, x float64) { w.Hull.Bonding = units.Resistance(x) }, list{0, 1e-9, 1e12}, leak),
		with("Hull.Bond", func(w *Windlass, x float64) { w.Hull.Bond = units.Resistance(x) }, list{0, 1e-9, 1e12}, leak),
	})
	for _, does := range []Working{Resting, Hauling, Lowering, "sinking", ""} {
		_, err := testWindlass(t).Circuit(does)
		if e := new(Error); (err == nil) != (does == Resting || does == Hauling || does == Lowering) || err != nil && (!errors.As(err, &e) || e.Field != "does") {
			t.Errorf("%q: error %v", does, err)
		}
	}
}

// Numbers of the American gauge, and what is none.
func TestGaugeNames(t *testing.T) {
	for _, same := range [][]string{{"0000", "4/0"}, {"000", "3/0"}, {"00", "2/0"}, {"0", "1/0"}} {
		a, err := GaugeArea(same[0])
		b, err2 := GaugeArea(same[1])
		if err != nil || err2 != nil || a != b || a <= 0 {
			t.Errorf("%q is %v, error %v, and %q %v, error %v", same[0], a, err, same[1], b, err2)
		}
	}
	for _, name := range []string{"0", "1", "9", "10", "40"} {
		if _, err := GaugeDiameter(name); err != nil {
			t.Error(err)
		}
	}
	for _, name := range []string{"", "-1", "41", "01", "+1", "1 ", "00000", "0/0", "5/0", "01/0", "/0", "1/00", "x", "2/1"} {
		if d, err := GaugeDiameter(name); !errors.Is(err, ErrUnknown) || d != 0 {
			t.Errorf("%q: %v, error %v", name, d, err)
		}
	}
}
