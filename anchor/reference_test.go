package anchor_test

import (
	"fmt"
	"maps"
	"testing"

	"example.com/forepeak/anchor"
	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
)

//go:generate go test -count=1 -run=^TestReference$ . -args -refcheck.update

// handlers are filled in by the files of the package's parts.
var handlers = map[string]refcheck.Handler{}

// bookkeeping computes nothing that could have been printed.
var bookkeeping = map[string]string{
	"Load.Plus":      "a sum",
	"Sounding.Depth": "a sum",
	"NewWatcher":     "begins a Watcher, whose Add has rows",
}

func TestReference(t *testing.T) {
	maps.Copy(handlers, handlersOfTide())
	refcheck.Run(t, refcheck.Suite{Package: "anchor", Handlers: handlers, Bookkeeping: bookkeeping})
}

func init() {
	maps.Copy(handlers, map[string]refcheck.Handler{
		"anchor.Air.Density": func(in refcheck.Inputs) (any, error) {
			return anchor.Air{Temperature: in.Temperature("t"), Pressure: in.Pressure("p"), Humidity: in.Float("h")}.Density()
		},
		// The pressure of vapour that makes saturated air so much lighter than dry air.
		"anchor.Air.Density#vapour": func(in refcheck.Inputs) (any, error) {
			t := in.Temperature("t")
			dry, err := anchor.Air{Temperature: t}.Density()
			if err != nil {
				return nil, err
			}
			moist, err := anchor.Air{Temperature: t, Humidity: 1}.Density()
			return units.Pressure(float64(dry-moist) * float64(t) / (1/287.053 - 1/461.52)), err
		},
		"anchor.Wind.Pressure": func(in refcheck.Inputs) (any, error) {
			return anchor.Wind{Speed: in.Speed("V")}.Pressure()
		},
		"anchor.Wind.At": func(in refcheck.Inputs) (any, error) {
			return anchor.Wind{Speed: in.Speed("V"), Height: in.Length("h")}.At(in.Length("z"))
		},
		"anchor.GustFactor": func(in refcheck.Inputs) (any, error) {
			return anchor.GustFactor(in.Time("t"), in.Time("T"))
		},
		"anchor.GustFactor#mean": func(in refcheck.Inputs) (any, error) {
			f, err := anchor.GustFactor(in.Time("t"), in.Time("T"))
			return in.Speed("V").Scale(1 / f), err
		},
		"anchor.GustFactor#down": func(in refcheck.Inputs) (any, error) {
			f, err := anchor.GustFactor(in.Time("t"), in.Time("T"))
			return 1 / f, err
		},
		"anchor.Exposure.GustFactor": func(in refcheck.Inputs) (any, error) {
			var e anchor.Exposure
			if err := e.UnmarshalText([]byte(in.Text("exposure"))); err != nil {
				return nil, err
			}
			return e.GustFactor(in.Time("t"), in.Time("T"))
		},
		"anchor.Windage.Load": func(in refcheck.Inputs) (any, error) {
			b := anchor.Windage{Parts: []anchor.Part{{Side: in.Area("A"), Bottom: 10, Top: 10}}}
			l, err := b.Load(anchor.Wind{Speed: in.Speed("V"), Air: anchor.Air{Temperature: in.Temperature("t")}}, 90*units.Degree)
			return l.Force(), err
		},
		"anchor.Windage.Load#coefficient": func(in refcheck.Inputs) (any, error) {
			var shape anchor.Shape
			if err := shape.UnmarshalText([]byte(in.Text("shape"))); err != nil {
				return nil, err
			}
			w := anchor.Wind{Speed: 20}
			q, err := w.Pressure()
			if err != nil {
				return nil, err
			}
			l, err := anchor.Windage{Parts: []anchor.Part{{Shape: shape, Front: 1, Bottom: 10, Top: 10}}}.Load(w, 0)
			return l.Force().Per(q.TimesArea(1)), err
		},
		"anchor.Wires.Part": func(in refcheck.Inputs) (any, error) {
			return anchor.Wires{Diameter: in.Length("diameter"), Length: in.Length("length"), Top: 1}.Part().Side, nil
		},
		"anchor.Load.Force": func(in refcheck.Inputs) (any, error) {
			return anchor.Load{X: in.Force("x"), Y: in.Force("y")}.Force(), nil
		},
		// A tug that pulls at an angle to the way of the ship, and what of it counts.
		"anchor.Load.Downstream": func(in refcheck.Inputs) (any, error) {
			return anchor.Load{X: -in.Force("pull")}.Downstream(in.Angle("angle")), nil
		},
		"anchor.Estimate": func(in refcheck.Inputs) (any, error) {
			b, err := anchor.Estimate(anchor.Dimensions{Length: in.Length("L"), Beam: in.Length("B"), Freeboard: in.Length("F")})
			if err != nil {
				return nil, err
			}
			l, err := b.Load(anchor.Wind{Speed: 30 * units.Knot}, 0)
			if err != nil {
				return nil, err
			}
			rule, err := anchor.HorizontalLoads(in.Length("rule"), 1, anchor.Sloop)
			return l.Force().Per(rule.Working), err
		},
		"anchor.FrictionCoefficient": func(in refcheck.Inputs) (any, error) {
			return anchor.FrictionCoefficient(in.Float("Re"))
		},
		"anchor.Current.Reynolds": func(in refcheck.Inputs) (any, error) {
			re, err := anchor.Current{Speed: 1, Depth: 10, Temperature: in.Temperature("t"), Fresh: in.Text("fresh") == "yes"}.Reynolds(1)
			return 1e6 / re, err
		},
		"anchor.Underwater.Load#broadside": func(in refcheck.Inputs) (any, error) {
			const l, b, t, c0 = 124.4, 14.3, 4.389, 0.853
			u := anchor.Underwater{Length: l, Beam: b, Draught: t, Mass: 3580 * units.Tonne}
			// The midship area that makes C0 = 0.22 sqrt(L² A/(B V)).
			u.Midship = units.Area(c0 * c0 / (0.22 * 0.22) * b * float64(u.Mass) / 1025 / (l * l))
			load, err := u.Load(anchor.Current{Speed: 1.5, Depth: in.Length("d")}, 90*units.Degree)
			return load.Hull.Y.Abs().Kilonewtons() / 1000, err
		},
		"anchor.Wavelength": func(in refcheck.Inputs) (any, error) {
			return anchor.Wavelength(in.Time("T"), in.Length("d"))
		},
		"anchor.Wavelength#ratio": func(in refcheck.Inputs) (any, error) {
			deep, err := anchor.Wavelength(1, 1000)
			if err != nil {
				return nil, err
			}
			d := deep.Scale(in.Float("d0"))
			l, err := anchor.Wavelength(1, d)
			return d.Per(l), err
		},
	})
	for name, f := range map[string]func(anchor.WaveSurge) any{
		"celerity":  func(s anchor.WaveSurge) any { return s.Celerity },
		"amplitude": func(s anchor.WaveSurge) any { return s.Amplitude },
	} {
		handlers["anchor.Waves.Surge#"+name] = func(in refcheck.Inputs) (any, error) {
			s, err := anchor.Waves{Height: in.Length("H"), Period: in.Time("T"), Depth: in.Length("d")}.Surge(0)
			return f(s), err
		}
	}
}

func init() {
	const tiny = 1e-12
	maps.Copy(handlers, map[string]refcheck.Handler{
		"anchor.EquipmentNumber#displacement": func(in refcheck.Inputs) (any, error) {
			return anchor.EquipmentNumber(in.Mass("D"), tiny, tiny, tiny)
		},
		"anchor.EquipmentNumber#front": func(in refcheck.Inputs) (any, error) {
			return anchor.EquipmentNumber(tiny, in.Length("B"), in.Length("h"), tiny)
		},
		"anchor.EquipmentNumber#side": func(in refcheck.Inputs) (any, error) {
			return anchor.EquipmentNumber(tiny, tiny, tiny, in.Area("A"))
		},
		"anchor.Holding": func(in refcheck.Inputs) (any, error) {
			h, err := holding(in.Text("kind"), in.Text("soil"), in.Mass("W"))
			return h.Law, err
		},
		"anchor.Holding#byweight": func(in refcheck.Inputs) (any, error) {
			h, err := holding(in.Text("kind"), in.Text("soil"), in.Mass("W"))
			return h.Law.Per(in.Mass("W").Weight()), err
		},
		"anchor.Holding#ratio": func(in refcheck.Inputs) (any, error) {
			h, err := holding(in.Text("kind"), in.Text("soil"), in.Mass("W"))
			if err != nil {
				return nil, err
			}
			other, err := holding(in.Text("otherkind"), in.Text("soil"), in.Mass("otherW"))
			return h.Law.Per(other.Law), err
		},
		"anchor.HoldingByEfficiency": func(in refcheck.Inputs) (any, error) {
			h, err := anchor.HoldingByEfficiency(in.Float("efficiency"), in.Mass("W"))
			return h.Law, err
		},
		"anchor.HoldingLeft#low": func(in refcheck.Inputs) (any, error) {
			left, err := anchor.HoldingLeft(in.Angle("angle"), in.Angle("fluke"))
			return left.Low, err
		},
		"anchor.Bottoms": func(in refcheck.Inputs) (any, error) {
			name := in.Text("bottom")
			for _, b := range anchor.Bottoms() {
				if b.Name == name {
					return b.Factor, nil
				}
			}
			return nil, fmt.Errorf("no bottom %q", name)
		},
		"anchor.Held.On": func(in refcheck.Inputs) (any, error) {
			h, err := anchor.Holding(anchor.PlateHinged, anchor.Sand, 20)
			if err != nil {
				return nil, err
			}
			for _, b := range anchor.Bottoms() {
				if b.Name == in.Text("bottom") {
					on, err := h.On(b)
					return on.Low.Per(h.Low), err
				}
			}
			return nil, fmt.Errorf("no such bottom")
		},
		"anchor.SafetyFactors": func(in refcheck.Inputs) (any, error) {
			of := in.Text("of")
			for _, f := range anchor.SafetyFactors() {
				if f.Of == of {
					return f.Factor, nil
				}
			}
			return nil, fmt.Errorf("no factor of %q", of)
		},
		"anchor.StaticThrust#rule": func(in refcheck.Inputs) (any, error) {
			t, err := anchor.StaticThrust(in.Power("P"), in.Length("D"))
			return t.Rule, err
		},
		"anchor.BackDown#high": func(in refcheck.Inputs) (any, error) {
			p, err := anchor.BackDown(in.Power("P"), in.Length("D"))
			return p.High, err
		},
		"anchor.MinimumWindlass#deeper": func(in refcheck.Inputs) (any, error) {
			a, err := anchor.MinimumWindlass(in.Length("d"), 1, in.Length("from"))
			if err != nil {
				return nil, err
			}
			b, err := anchor.MinimumWindlass(in.Length("d"), 1, in.Length("to"))
			return b.Continuous - a.Continuous, err
		},
		"anchor.MinimumWindlass#continuous": func(in refcheck.Inputs) (any, error) {
			d := in.Length("d")
			r, err := anchor.MinimumWindlass(d, in.Int("grade"), 0)
			return r.Continuous.Newtons() / (d.Millimetres() * d.Millimetres()), err
		},
		// A motor through the outer two of three printed points, at the current of the middle.
		"anchor.Drive.Run#speed": func(in refcheck.Inputs) (any, error) {
			d := anchor.Drive{Voltage: 250, Points: []anchor.DrivePoint{
				{Pull: 9500, Speed: 1.173, Current: 95}, {Pull: 29500, Speed: 1.115, Current: 295},
			}}
			// 100 N to an ampere.
			r, err := d.Run(units.Force(100*in.Current("I")), anchor.Supply{Voltage: 250})
			return 1000 * r.Speed.MetresPerSecond(), err
		},
		// A motor through its run without load and its stall, 100 N to an ampere
		// and 1 m/s to 1000 rpm; a weaker field makes it so much faster.
		"anchor.Drive.Run#weakened": func(in refcheck.Inputs) (any, error) {
			v, i0, stall := in.Voltage("V"), in.Float("I0"), in.Voltage("V").Volts()/in.Float("R")
			d := anchor.Drive{Voltage: v, Points: []anchor.DrivePoint{
				{Pull: units.Force(100 * i0), Speed: units.Speed(in.Float("n0") / 1000), Current: units.Current(i0)},
				{Pull: units.Force(100 * stall), Current: units.Current(stall)},
			}}
			r, err := d.Run(units.Force(100*in.Float("I")), anchor.Supply{Voltage: v})
			return 1000 * r.Speed.MetresPerSecond() / in.Float("flux"), err
		},
		// The force on a metre of wall, over rho g times the mean square of the amplitude.
		"anchor.Waves.Drift#wall": func(in refcheck.Inputs) (any, error) {
			w := anchor.Waves{Height: in.Length("H"), Period: in.Time("T"), Depth: in.Length("d")}
			f, err := w.Drift(1, 90*units.Degree)
			return f.High.Newtons() / (1025 * 9.80665 * w.Height.Metres() * w.Height.Metres() / 8), err
		},
	})
	for name, f := range map[string]func(anchor.DesignLoads) any{
		"lunch":     func(l anchor.DesignLoads) any { return l.Lunch },
		"working":   func(l anchor.DesignLoads) any { return l.Working },
		"storm":     func(l anchor.DesignLoads) any { return l.Storm },
		"permanent": func(l anchor.DesignLoads) any { return l.Permanent },
	} {
		handlers["anchor.HorizontalLoads#"+name] = func(in refcheck.Inputs) (any, error) {
			rig := anchor.Sloop
			if in.Text("power") == "yes" {
				rig = anchor.Motor
			}
			l, err := anchor.HorizontalLoads(in.Length("L"), in.Length("B"), rig)
			return f(l), err
		}
	}
	for name, f := range map[string]func(anchor.ShipGear) any{
		"mass":   func(g anchor.ShipGear) any { return g.Mass },
		"chain":  func(g anchor.ShipGear) any { return g.Chain },
		"grade1": func(g anchor.ShipGear) any { return g.Grade1 },
		"grade2": func(g anchor.ShipGear) any { return g.Grade2 },
	} {
		handlers["anchor.EquipmentGear#"+name] = func(in refcheck.Inputs) (any, error) {
			g, err := anchor.EquipmentGear(in.Float("EN"))
			return f(g), err
		}
	}
	for name, f := range map[string]func(anchor.VesselGear) any{
		"main":  func(g anchor.VesselGear) any { return g.Main },
		"kedge": func(g anchor.VesselGear) any { return g.Kedge },
		"chain": func(g anchor.VesselGear) any { return g.MainChain },
		"rope":  func(g anchor.VesselGear) any { return g.MainRope },
	} {
		handlers["anchor.SmallVesselGear#"+name] = func(in refcheck.Inputs) (any, error) {
			g, err := anchor.SmallVesselGear(in.Length("L"))
			return f(g), err
		}
	}
	for name, f := range map[string]func(anchor.WindlassRule) any{
		"overload": func(r anchor.WindlassRule) any { return r.Overload.Per(r.Continuous) },
		"speed":    func(r anchor.WindlassRule) any { return r.Speed },
		"brake":    func(r anchor.WindlassRule) any { return r.Brake },
		"stopper":  func(r anchor.WindlassRule) any { return r.BrakeWithStopper },
	} {
		handlers["anchor.MinimumWindlass#"+name] = func(in refcheck.Inputs) (any, error) {
			r, err := anchor.MinimumWindlass(in.Length("d"), in.Int("grade"), in.Length("depth"))
			return f(r), err
		}
	}
}

func holding(kind, soil string, mass units.Mass) (anchor.Held, error) {
	var k anchor.Kind
	var s anchor.Soil
	if err := k.UnmarshalText([]byte(kind)); err != nil {
		return anchor.Held{}, err
	}
	if err := s.UnmarshalText([]byte(soil)); err != nil {
		return anchor.Held{}, err
	}
	return anchor.Holding(k, s, mass)
}
