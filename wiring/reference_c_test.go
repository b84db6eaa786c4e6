package wiring_test

import (
	"fmt"
	"maps"
	"math"

	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// What is put together from other calculations, in cases that somebody has worked out.

func init() { maps.Copy(handlers, composedHandlers) }

var composedHandlers = map[string]refcheck.Handler{
	// The power left to a cold battery: what it can deliver goes with one over its resistance.
	"wiring.Battery.InternalResistance#power": func(in refcheck.Inputs) (any, error) {
		warm, cold, err := warmAndCold(in)
		return 100 * warm.Per(cold), err
	},
	// The currents down to one voltage, warm over cold, go with it too.
	"wiring.Battery.InternalResistance#cranking": func(in refcheck.Inputs) (any, error) {
		warm, cold, err := warmAndCold(in)
		return cold.Per(warm), err
	},
	"wiring.Battery.ChargeTaken": func(in refcheck.Inputs) (any, error) {
		return peukert(in).ChargeTaken(in.Current("current"), in.Time("time"))
	},
	"wiring.Withdraw#taken": func(in refcheck.Inputs) (any, error) {
		bank := peukert(in)
		bank.Chemistry, bank.OpenCircuit, bank.Charge, bank.Resistance = wiring.Flooded, 12*units.Volt, 1, 1e-6
		w, err := wiring.Withdraw(wiring.Circuit{Elements: []wiring.Element{
			{Name: "bank", From: "-", To: "+", Battery: &bank},
			{Name: "load", From: "+", To: "-", Load: &wiring.Load{Current: in.Current("current")}},
		}}, []wiring.Phase{{Name: "half the time", For: in.Time("time").Scale(0.5)}})
		if err != nil {
			return nil, err
		}
		return w[0].Taken.Scale(2), nil
	},
	"wiring.SteadyTemperature": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.AWG(wiring.Tinned)
		if err != nil {
			return nil, err
		}
		c, err := s.WithInsulation(units.Celsius(105)).Find(in.Text("gauge") + " AWG")
		if err != nil {
			return nil, err
		}
		return wiring.SteadyTemperature(c, in.Temperature("ambient"), in.Current("current"))
	},
	"wiring.TimeConstant": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
		if err != nil {
			return nil, err
		}
		c, err := s.WithInsulation(in.Temperature("insulation")).Find(in.Text("size"))
		if err != nil {
			return nil, err
		}
		return wiring.TimeConstant(c, in.Temperature("ambient"))
	},
	"wiring.TemperatureAfter": func(in refcheck.Inputs) (any, error) {
		const area = 10 * units.SquareMillimetre
		t := in.Temperature("start")
		return wiring.TemperatureAfter(scarcelyInsulated(area, 0), t, t,
			wiring.Spell{Current: units.Ampere.Scale(in.Float("k") * area.SquareMillimetres()), For: units.Second})
	},
	"wiring.CarriedFor": func(in refcheck.Inputs) (any, error) {
		t := in.Temperature("start")
		return wiring.CarriedFor(scarcelyInsulated(in.Area("area"), in.Temperature("final")), t, t, in.Time("time"))
	},
	"wiring.CheckDisconnects#posts": func(in refcheck.Inputs) (any, error) {
		c, err := cutout(in)
		return c.Posts, err
	},
	"wiring.CheckDisconnects#current": func(in refcheck.Inputs) (any, error) {
		c, err := cutout(in)
		return c.Current, err
	},
	"wiring.ExpectReadings": func(in refcheck.Inputs) (any, error) {
		r, err := wiring.ExpectReadings(starterCircuit(in), wiring.Conditions{}, []wiring.Probes{{Red: in.Text("red"), Black: "-"}},
			wiring.Voltmeter{}, wiring.Spread{})
		if err != nil {
			return nil, err
		}
		return r[0].Volts, nil
	},
	"wiring.FaultCurrents": func(in refcheck.Inputs) (any, error) {
		i, err := wiring.FaultCurrents(starterCircuit(in), "+", "-", wiring.FaultStudy{WarmBank: units.Celsius(25)})
		return i.High, err
	},
	// The current for a second and a square millimetre that heats a cable to its limit.
	"wiring.StudyFaults#k": func(in refcheck.Inputs) (any, error) {
		const area = 10 * units.SquareMillimetre
		band, err := wiring.PublishedBand(wiring.BandBlade, 30)
		if err != nil {
			return nil, err
		}
		battery := wiring.Battery{Chemistry: wiring.Flooded, Cells: 6, Charge: 1, Resistance: 0.01}
		f, err := wiring.StudyFaults(wiring.Circuit{Elements: []wiring.Element{
			{Name: "bank", From: "-", To: "+", Battery: &battery},
			{Name: "fuse", From: "+", To: "a", Device: &wiring.Device{Kind: wiring.Fuse, Rating: 30, Resistance: 1e-3, Band: &band}},
			{Name: "cable", From: "a", To: "b", Cable: &wiring.Cable{Length: 5, Conductor: wiring.Conductor{
				Area: area, Resistance: 1.95e-3, Insulation: in.Temperature("initial"),
			}}},
			{Name: "load", From: "b", To: "-", Load: &wiring.Load{Resistance: 10}},
		}}, wiring.FaultStudy{Final: in.Temperature("final")})
		if err != nil {
			return nil, err
		}
		return math.Sqrt(float64(f.Cables[0].Withstand)) / area.SquareMillimetres(), nil
	},
	// A detector of two like resistances from the poles to the hull: what each of them sees, as a
	// share of the battery's voltage.
	"wiring.CheckHull#reads": func(in refcheck.Inputs) (any, error) {
		const volts, detector = 125 * units.Volt, 10 * units.Kilohm
		elements := []wiring.Element{
			{Name: "bank", From: "-", To: "+", Battery: &wiring.Battery{Chemistry: wiring.Flooded, Charge: 1, OpenCircuit: volts, Resistance: 0.1}},
		}
		for _, pole := range []string{"+", "-"} {
			r := detector
			if pole == in.Text("grounded") {
				r = 0.001
			}
			elements = append(elements, wiring.Element{Name: pole + " to hull", From: pole, To: "hull", Contact: &wiring.Contact{Role: wiring.Leakage, Resistance: r}})
		}
		r, err := wiring.CheckHull(wiring.Circuit{Elements: elements}, wiring.HullStudy{Node: "hull"})
		for _, p := range r.Poles {
			if p.Positive == (in.Text("pole") == "+") {
				return p.Reads.Abs().Per(volts), err
			}
		}
		return nil, err
	},
	"wiring.RideThrough#latest": func(in refcheck.Inputs) (any, error) {
		rating := in.Current("rating")
		band, err := wiring.PublishedBand(wiring.BandName(in.Text("band")), rating)
		if err != nil {
			return nil, err
		}
		r, err := wiring.RideThrough(wiring.Device{Kind: wiring.Breaker, Rating: rating, Resistance: 1e-3, Band: &band},
			[]wiring.Spell{{Current: rating.Scale(in.Float("multiple")), For: units.Hour}})
		if err == nil && !r.Opens {
			err = fmt.Errorf("need not open")
		}
		return r.OpensBy, err
	},
	// Two fuses at the one current at which their curves are read off.
	"wiring.Selective#alone": func(in refcheck.Inputs) (any, error) {
		const looked = 1.01 // times the rating that stands for what is below
		at := in.Current("at")
		fuse := func(points ...wiring.BandPoint) wiring.Device {
			return wiring.Device{Kind: wiring.Fuse, Rating: at.Scale(1 / looked), Resistance: 1e-3, Band: &wiring.Band{Points: points}}
		}
		s, err := wiring.Selective(fuse(wiring.BandPoint{Multiple: looked, Earliest: in.Time("melts")}),
			fuse(wiring.BandPoint{Multiple: 1, Latest: in.Time("clears")}), at)
		if !s.Full {
			return "both", err
		}
		return "the lower one", err
	},
	"wiring.TellTrip": func(in refcheck.Inputs) (any, error) {
		rating := in.Current("rating")
		band, err := wiring.PublishedBand(wiring.BandName(in.Text("band")), rating)
		if err != nil {
			return nil, err
		}
		short, stall := rating.Scale(in.Float("short")), rating.Scale(in.Float("stall"))
		c, err := wiring.TellTrip(wiring.Device{Kind: wiring.Fuse, Rating: rating, Resistance: 1e-3, Band: &band},
			units.Interval[units.Current]{Low: stall, High: stall}, units.Interval[units.Current]{Low: short, High: short}, in.Time("after"))
		return string(c), err
	},
	// The cheapest tree over leaves in a given order: the sum of weight times depth.
	"wiring.PlanHunt": func(in refcheck.Inputs) (any, error) {
		var sections []wiring.Section
		var joints []wiring.Joint
		sum := 0.0
		for i := 1; in.Has(fmt.Sprint("w", i)); i++ {
			w := in.Float(fmt.Sprint("w", i))
			sections = append(sections, wiring.Section{Name: fmt.Sprint(i), Likelihood: w})
			if i > 1 {
				joints = append(joints, wiring.Joint{Name: fmt.Sprint(i-1, " to ", i), Effort: units.Minute})
			}
			sum += w
		}
		h, err := wiring.PlanHunt(sections, joints, wiring.ByResistance)
		return h.Expected.Minutes() * sum, err
	},
	"wiring.SizeRuns#size": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.AWG(wiring.Plain)
		if err != nil {
			return nil, err
		}
		sized, err := wiring.SizeRuns([]wiring.Run{{Name: "run", Requirement: wiring.Requirement{
			Stock: s, Run: in.Length("run"), Current: in.Current("current"), System: in.Voltage("system"),
			MaxDrop: in.Float("drop"), Copper: in.Temperature("copper"),
		}}}, wiring.LeastArea)
		if err != nil {
			return nil, err
		}
		return sized.Choices[0].Conductor.Size, nil
	},
}

// scarcelyInsulated is copper alone, with next to nothing round it.
func scarcelyInsulated(area units.Area, insulation units.Temperature) wiring.Conductor {
	const filled = 0.66 // of the strands' circle
	return wiring.Conductor{
		Area: area, Resistance: units.ResistancePerLength(17.241e-9 / float64(area)), Insulation: insulation,
		Diameter: units.Length(1.0001 * math.Sqrt(4*float64(area)/(math.Pi*filled))),
	}
}

// cutout is what a disconnect at 10.5 V makes of a starter.
func cutout(in refcheck.Inputs) (wiring.Cutout, error) {
	c := starterCircuit(in)
	c.Elements[0].Battery.Disconnect = &wiring.Disconnect{
		Resistance: 1e-9, Continuous: 500, Peak: 1000, PeakTime: units.Second, LowVoltage: 10.5 * units.Volt,
	}
	cuts, err := wiring.CheckDisconnects(c, []wiring.Phase{{Name: "start", For: units.Second}})
	if err != nil {
		return wiring.Cutout{}, err
	}
	if !cuts[0].Opens {
		return wiring.Cutout{}, fmt.Errorf("it does not open")
	}
	return cuts[0], nil
}

// warmAndCold is the resistance of one full battery at two temperatures.
func warmAndCold(in refcheck.Inputs) (warm, cold units.Resistance, err error) {
	at := func(t units.Temperature) (units.Resistance, error) {
		return wiring.Battery{Chemistry: wiring.Flooded, Cells: 6, Charge: 1, Resistance: 0.01, Temperature: t}.InternalResistance()
	}
	if warm, err = at(in.Temperature("warm")); err != nil {
		return 0, 0, err
	}
	cold, err = at(in.Temperature("cold"))
	return warm, cold, err
}
