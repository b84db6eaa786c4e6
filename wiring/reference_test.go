package wiring_test

import (
	"fmt"
	"testing"

	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

//go:generate go test -count=1 -run=^TestReference$ . -args -refcheck.update

func TestReference(t *testing.T) {
	refcheck.Run(t, refcheck.Suite{Package: "wiring", Handlers: handlers, Bookkeeping: bookkeeping})
}

var handlers = map[string]refcheck.Handler{
	"wiring.Metric#resistance": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.Metric(wiring.Class(in.Int("class")), wiring.Finish(in.Text("finish")))
		if err != nil {
			return nil, err
		}
		c, err := s.Find(in.Text("size"))
		return c.Resistance, err
	},
	"wiring.TemperatureCorrection": func(in refcheck.Inputs) (any, error) { return wiring.TemperatureCorrection(in.Temperature("t")) },
	"wiring.CopperFactor":          func(in refcheck.Inputs) (any, error) { return wiring.CopperFactor(in.Temperature("t")) },
	"wiring.GaugeDiameter":         func(in refcheck.Inputs) (any, error) { return wiring.GaugeDiameter(in.Text("gauge")) },
	"wiring.GaugeArea":             func(in refcheck.Inputs) (any, error) { return wiring.GaugeArea(in.Text("gauge")) },
	"wiring.CopperResistance": func(in refcheck.Inputs) (any, error) {
		a, err := wiring.GaugeArea(in.Text("gauge"))
		if err != nil {
			return nil, err
		}
		return wiring.CopperResistance(a, in.Temperature("t"))
	},
	"wiring.AWG": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.AWG(wiring.Finish(in.Text("finish")))
		if err != nil {
			return nil, err
		}
		c, err := s.Find(in.Text("gauge") + " AWG")
		if err != nil {
			return nil, err
		}
		return c.ResistanceAt(in.Temperature("t"))
	},
	"wiring.AWG#tinned": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.AWG(wiring.Tinned)
		if err != nil {
			return nil, err
		}
		c, err := s.Find(in.Text("gauge") + " AWG")
		return c.Resistance.Scale(c.Area.Per(in.Area("area"))), err
	},
	"wiring.SAE#area": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.SAE(wiring.Plain)
		if err != nil {
			return nil, err
		}
		c, err := s.Find(in.Text("gauge") + " SAE")
		return c.Area, err
	},
	"wiring.Conductor.BendRadius": func(in refcheck.Inputs) (any, error) {
		return wiring.Conductor{Area: 1e-6, Resistance: 0.02, Diameter: in.Length("diameter")}.BendRadius()
	},
	"wiring.Ampacity": func(in refcheck.Inputs) (any, error) {
		c := wiring.Conductor{Insulation: in.Temperature("insulation"), Resistance: 1e-3}
		if in.Has("gauge") {
			c.Gauge = in.Text("gauge")
			a, err := wiring.GaugeArea(c.Gauge)
			if err != nil {
				return nil, err
			}
			c.Size, c.Area = c.Gauge+" AWG", a
		} else {
			c.Size = in.Text("size")
			a, err := units.ParseArea(c.Size)
			if err != nil {
				return nil, err
			}
			c.Area = a
		}
		var lie wiring.Installation
		if in.Has("bundled") {
			lie.Bundled = in.Int("bundled")
		}
		if in.Has("engine") {
			lie.EngineSpace = in.Int("engine") == 1
		}
		r, err := wiring.Ampacity(wiring.Rules(in.Text("rules")), c, lie)
		return r.Current, err
	},
	"wiring.Drop": func(in refcheck.Inputs) (any, error) {
		c := wiring.Conductor{Area: 1e-6, Resistance: in.ResistancePerLength("r")}
		return wiring.Drop(c, in.Length("run"), in.Current("current"), units.Celsius(20))
	},
	"wiring.MetricDrop#amps": func(in refcheck.Inputs) (any, error) {
		one, err := wiring.MetricDrop(units.Ampere, in.Length("run"), in.Area("area"))
		return units.Current(in.Voltage("drop").Per(one)), err
	},
	"wiring.CircularMilDrop#area": func(in refcheck.Inputs) (any, error) {
		one, err := wiring.CircularMilDrop(in.Current("current"), in.Length("run"), units.CircularMil)
		return units.CircularMil.Scale(one.Per(in.Voltage("drop"))), err
	},
	"wiring.Solve#drop": func(in refcheck.Inputs) (any, error) {
		st, err := practice(in)
		if err != nil {
			return nil, err
		}
		b, err := st.Branch("windlass")
		return 1 - b.Drop.Per(in.Voltage("voltage")), err
	},
	"wiring.Solution.DropTo": func(in refcheck.Inputs) (any, error) {
		st, err := practice(in)
		if err != nil {
			return nil, err
		}
		r, err := st.DropTo("windlass")
		return r.Total.Per(in.Voltage("voltage")), err
	},
	"wiring.AmbientFactor": func(in refcheck.Inputs) (any, error) {
		return wiring.AmbientFactor(wiring.Ambients{Conductor: in.Temperature("conductor"), Rated: in.Temperature("rated"), Actual: in.Temperature("actual")})
	},
	"wiring.EquivalentCurrent": func(in refcheck.Inputs) (any, error) {
		on := in.Time("on")
		return wiring.EquivalentCurrent(wiring.Spell{Current: in.Current("current"), For: on}, wiring.Spell{For: in.Time("cycle") - on})
	},
	"wiring.SurfaceLoss": func(in refcheck.Inputs) (any, error) {
		return wiring.SurfaceLoss(in.Length("diameter"), in.Length("length"), in.Temperature("surface"), in.Temperature("ambient"), in.Float("emissivity"))
	},
	"wiring.Battery.PeukertCapacity": func(in refcheck.Inputs) (any, error) { return peukert(in).PeukertCapacity() },
	"wiring.Battery.RunTime":         func(in refcheck.Inputs) (any, error) { return peukert(in).RunTime(in.Current("current")) },
	"wiring.PeukertExponent": func(in refcheck.Inputs) (any, error) {
		return wiring.PeukertExponent(wiring.Spell{Current: in.Current("current1"), For: in.Time("time1")}, wiring.Spell{Current: in.Current("current2"), For: in.Time("time2")})
	},
	"wiring.Battery.OpenCircuitVoltage": func(in refcheck.Inputs) (any, error) {
		return wiring.Battery{
			Chemistry: wiring.Chemistry(in.Text("chemistry")), Cells: in.Int("cells"), Charge: in.Float("charge"), Resistance: 1,
		}.OpenCircuitVoltage()
	},
	"wiring.ResistanceFromCranking": func(in refcheck.Inputs) (any, error) {
		return wiring.ResistanceFromCranking(in.Int("cells"), in.Current("current"))
	},
}

func init() {
	for name, of := range map[string]func(wiring.DropComparison) units.Voltage{
		"metric": func(d wiring.DropComparison) units.Voltage { return d.Metric },
		"cold":   func(d wiring.DropComparison) units.Voltage { return d.Cold },
		"hot":    func(d wiring.DropComparison) units.Voltage { return d.Hot },
	} {
		handlers["wiring.CompareDrop#"+name] = func(in refcheck.Inputs) (any, error) {
			c, amps, err := windlassCable(in)
			if err != nil {
				return nil, err
			}
			d, err := wiring.CompareDrop(c, in.Length("run"), amps, in.Temperature("hot"))
			return of(d).Per(in.Voltage("voltage")), err
		}
	}
}

func peukert(in refcheck.Inputs) wiring.Battery {
	return wiring.Battery{Capacity: in.Charge("capacity"), RatedOver: in.Time("over"), Peukert: in.Float("k")}
}

// windlassCable is the tinned flexible cable of a row and the current of its power.
func windlassCable(in refcheck.Inputs) (wiring.Conductor, units.Current, error) {
	s, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
	if err != nil {
		return wiring.Conductor{}, 0, err
	}
	c, err := s.Find(in.Text("size"))
	return c, in.Power("power").PerVoltage(in.Voltage("voltage")), err
}

// practice is that cable, out and back, between a battery without resistance worth mentioning
// and a load of that current.
func practice(in refcheck.Inputs) (wiring.Solution, error) {
	c, amps, err := windlassCable(in)
	if err != nil {
		return wiring.Solution{}, err
	}
	var circuit wiring.Circuit
	circuit.Elements = append(circuit.Elements, wiring.Element{
		Name: "bank", From: "-", To: "+",
		Battery: &wiring.Battery{Chemistry: wiring.AGM, OpenCircuit: in.Voltage("voltage"), Charge: 1, Resistance: 1e-9},
	})
	for i, ends := range [][2]string{{"+", "motor +"}, {"motor -", "-"}} {
		circuit.Elements = append(circuit.Elements, wiring.Element{
			Name: fmt.Sprint("cable ", i), From: ends[0], To: ends[1],
			Cable: &wiring.Cable{Conductor: c, Length: in.Length("run").Scale(0.5)},
		})
	}
	circuit.Elements = append(circuit.Elements, wiring.Element{Name: "windlass", From: "motor +", To: "motor -", Load: &wiring.Load{Current: amps}})
	return wiring.Solve(circuit, wiring.Conditions{Copper: in.Temperature("copper")})
}

// bookkeeping computes nothing that could have been printed.
var bookkeeping = map[string]string{
	"TypicalSpread":        "a list of guesses, as its doc comment says",
	"TellResistance":       "compares two intervals",
	"AllRules":             "a list",
	"PreferredRatings":     "a list, whose values have rows under Ratings.AtLeast",
	"NewStock":             "checks and sorts the caller's list",
	"Stock.Find":           "looks a name up",
	"Solution.Branch":      "looks a name up",
	"Circuit.Element":      "looks a name up",
	"Stock.WithInsulation": "copies a field",
	"NewSolver":            "the solver behind Solve, which has rows",
	"Solver.Solve":         "the solver behind Solve, which has rows",
	"CheckPlacements":      "CheckPlacement, which has rows, for every rule set",
	"Band.Opening":         "reads the points of a band; those of PublishedBand have rows",
	"Windlass.Circuit":     "builds a circuit for Solve",
}
