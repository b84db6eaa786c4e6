package rode_test

import (
	"math"

	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// composedHandlers are what is put together from other calculations, in cases that somebody
// has worked out.
func composedHandlers() map[string]refcheck.Handler {
	perInch := units.Stiffness(units.PoundForce.Newtons() / units.Inch.Metres())
	return map[string]refcheck.Handler{
		"rode.Site.Rise": func(in refcheck.Inputs) (any, error) { return scoped(in).Rise(), nil },
		"rode.Site.Scope": func(in refcheck.Inputs) (any, error) {
			return scoped(in).Scope(in.Length("out")), nil
		},
		"rode.Fitting.Weight": func(in refcheck.Inputs) (any, error) {
			return rode.Fitting{Mass: in.Mass("mass"), Volume: in.Mass("mass").PerDensity(in.Density("density"))}.Weight(in.Density("water")), nil
		},
		"rode.PinShear": func(in refcheck.Inputs) (any, error) { return rode.PinShear(in.Force("load"), in.Length("diameter")) },
		"rode.Surge.Kinetic": func(in refcheck.Inputs) (any, error) {
			return rode.Surge{Mass: in.Mass("mass"), Speed: in.Speed("speed")}.Kinetic(), nil
		},
		"rode.LinearStretch": func(in refcheck.Inputs) (any, error) {
			e, err := rode.LinearStretch(in.Area("area").TimesPressure(in.Pressure("modulus"))).Strain(in.Force("load"))
			return in.Length("length").Scale(e), err
		},
		"rode.RopeStretch":    ropeStrain,
		"rode.Stretch.Strain": ropeStrain,
		"rode.Rope.New": func(in refcheck.Inputs) (any, error) {
			const breaking = 10 * units.Kilonewton
			worked, err := rode.RopeStretch(in.Text("fibre"), in.Text("construction"), breaking)
			if err != nil {
				return nil, err
			}
			r, err := rode.Rope{Fibre: in.Text("fibre"), Construction: in.Text("construction"), Breaking: breaking, Stretch: worked}.New()
			if err != nil {
				return nil, err
			}
			return r.Strain(breaking.Scale(in.Float("loadpercent") / 100))
		},
		"rode.Scale.Out": func(in refcheck.Inputs) (any, error) {
			out, _, err := rollingWheel(in).Out(in.Float("turns"))
			return out, err
		},
		// Lays of five turns, each out by five times as much as a sample deviates, for a mean known as
		// closely as the source asks; the reading itself adds next to nothing.
		"rode.ProposeLays#count": func(in refcheck.Inputs) (any, error) {
			const turn, part, turns = units.Metre, units.Millimetre, 5
			plans, err := rode.ProposeLays(rode.Counter{Setting: turn, Pulses: 1000}, rode.LayGoal{
				Payout: turn, Half: part.Scale(in.Float("margin")), Longest: turn.Scale(turns),
				Errors: rode.LayErrors{Repeat: part.Scale(turns * in.Float("deviation"))},
			})
			if err != nil {
				return nil, err
			}
			return len(plans[0].Lays), nil
		},
		// Links from one mark to the next, a shot apart.
		"rode.MarkRode#links": func(in refcheck.Inputs) (any, error) {
			m, err := rode.MarkRode(rode.MarkPlan{Every: units.Shot, Chain: units.Shot.Scale(3.5), Pitch: in.Length("pitch")})
			if err != nil {
				return nil, err
			}
			return m.Marks[1].Links, nil
		},
		"rode.SeizingTwine#turn": func(in refcheck.Inputs) (any, error) {
			const thin = units.Length(1e-9)
			one, err := rode.SeizingTwine(in.Length("rope"), thin, 1)
			if err != nil {
				return nil, err
			}
			two, err := rode.SeizingTwine(in.Length("rope"), thin, 2)
			return two - one, err
		},
		"rode.Craft.CheckCleat#rule": func(in refcheck.Inputs) (any, error) {
			k := rode.Craft{Hull: in.Length("lc"), Waterline: in.Length("lc"), Category: rode.Category(in.Text("category"))}
			c, err := k.CheckCleat(rode.ForAnchoring, in.Force("load"), 0, rode.Rope{Diameter: 0.01, Breaking: 1000})
			return c.OfRule, err
		},
		"rode.CompareKellet#lift": func(in refcheck.Inputs) (any, error) {
			r, s := published(in, "")
			options, err := rode.CompareKellet(r, s, rode.Fitting{Mass: 1}, 1, in.Force("H"))
			if err != nil {
				return nil, err
			}
			return options[0].LiftPull, nil
		},
		"rode.CompareKellet#tension": func(in refcheck.Inputs) (any, error) {
			r, s := published(in, "")
			r.Pieces[0].Length += units.Metre // beyond what the pull lifts
			options, err := rode.CompareKellet(r, s, rode.Fitting{Mass: 1}, 1, in.Force("H"))
			if err != nil {
				return nil, err
			}
			return options[0].State.Tension, nil
		},
		// Legs of a millimetre put the ring where the roller is.
		"rode.HangBridle#tension": func(in refcheck.Inputs) (any, error) {
			r, s := published(in, "")
			r.Pieces[0].Length += units.Metre
			const leg = units.Millimetre
			h, err := rode.HangBridle(r, s, rode.Bridle{Rope: elastic(1e12), Port: leg, Starboard: leg, Spread: leg}, in.Force("H"), 0, 0)
			return h.Rode.Tension, err
		},
		"rode.CompareSnubbers#stretch": func(in refcheck.Inputs) (any, error) {
			base, site, surge := dropped(in)
			n := rode.Snubber{Rope: elastic(units.Length(10).TimesStiffness(perInch.Scale(in.Float("k")))), Length: 10}
			o, err := rode.CompareSnubbers(base, site, surge, rode.SnubberLimits{Bow: 1e9, OfBreaking: 1}, []rode.Snubber{n})
			if err != nil {
				return nil, err
			}
			return o[0].Stretch, nil
		},
		"rode.SurgePeak.LeastSlack#stretch": func(in refcheck.Inputs) (any, error) {
			base, site, surge := dropped(in)
			n := rode.Snubber{Rope: elastic(units.Length(10).TimesStiffness(perInch.Scale(in.Float("k")))), Length: 10}
			whole, err := base.Snub(n)
			if err != nil {
				return nil, err
			}
			p, err := rode.SolveSurge(whole, site, surge)
			if err != nil {
				return nil, err
			}
			return p.LeastSlack() - 10, nil
		},
		// The spring, per inch, that a rope of this length is.
		"rode.SnubberLength#k": func(in refcheck.Inputs) (any, error) {
			base, site, surge := dropped(in)
			const ea = 1000 * units.Newton
			l, err := rode.SnubberLength(base, site, rode.Snubber{Rope: elastic(ea)}, surge, rode.SnubberLimits{Bow: in.Force("peak"), OfBreaking: 1})
			if err != nil {
				return nil, err
			}
			return ea.PerLength(l).Per(units.ForcePerLength(perInch)), nil
		},
	}
}

func scoped(in refcheck.Inputs) rode.Site {
	return rode.Site{Depth: in.Length("depth") + in.Length("tide"), Roller: in.Length("bow")}
}

func rollingWheel(in refcheck.Inputs) rode.Scale {
	return rode.Scale{Chain: in.Length("diameter").Scale(math.Pi)}
}

// dropped is a block that falls onto a spring, on a rode that neither sags nor gives.
func dropped(in refcheck.Inputs) (rode.Rode, rode.Site, rode.Surge) {
	const g = 32.2 * 0.3048 // as the source has it
	w := in.Force("weight")
	base := rode.Rode{Pieces: []rode.Piece{{Length: 10, Mass: 1e-9, Density: math.MaxFloat64, Stretch: rode.LinearStretch(1e12)}}}
	return base, rode.Site{Depth: 1e-10}, rode.Surge{
		Mass: units.Mass(float64(w) / g), Speed: units.Speed(math.Sqrt(2 * g * in.Length("drop").Metres())), Gust: w,
	}
}

// ropeStrain is that of a worked rope by the catalogue.
func ropeStrain(in refcheck.Inputs) (any, error) {
	const breaking = 10 * units.Kilonewton
	s, err := rode.RopeStretch(in.Text("fibre"), in.Text("construction"), breaking)
	if err != nil {
		return nil, err
	}
	return s.Strain(breaking.Scale(in.Float("loadpercent") / 100))
}
