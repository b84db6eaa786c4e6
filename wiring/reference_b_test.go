package wiring_test

import (
	"fmt"
	"maps"
	"math"

	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

func init() {
	maps.Copy(handlers, protectionHandlers)
}

var protectionHandlers = map[string]refcheck.Handler{
	"wiring.Withstand#k": func(in refcheck.Inputs) (any, error) {
		i2t, err := wiring.Withstand(units.SquareMillimetre, in.Temperature("initial"), in.Temperature("final"))
		return math.Sqrt(float64(i2t)), err
	},
	"wiring.WithstandCurrent": func(in refcheck.Inputs) (any, error) {
		return wiring.WithstandCurrent(in.Area("area"), in.Time("time"), in.Temperature("initial"), in.Temperature("final"))
	},
	"wiring.WithstandTime": func(in refcheck.Inputs) (any, error) {
		return wiring.WithstandTime(in.Area("area"), in.Current("fault"), in.Temperature("initial"), in.Temperature("final"))
	},
	"wiring.Ratings.AtLeast": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.PreferredRatings(wiring.SeriesName(in.Text("series")))
		if err != nil {
			return nil, err
		}
		return s.AtLeast(in.Current("current"))
	},
	"wiring.Ratings.AtMost": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.PreferredRatings(wiring.SeriesName(in.Text("series")))
		if err != nil {
			return nil, err
		}
		return s.AtMost(in.Current("current"))
	},
	"wiring.PublishedBand#state": func(in refcheck.Inputs) (any, error) {
		o, err := publishedOpening(in)
		switch {
		case o.Holds:
			return "holds", err
		case o.Opens:
			return "opens", err
		}
		return "need not open", err
	},
	"wiring.PublishedBand#earliest": func(in refcheck.Inputs) (any, error) {
		o, err := publishedOpening(in)
		return o.Earliest, err
	},
	"wiring.PublishedBand#latest": func(in refcheck.Inputs) (any, error) {
		o, err := publishedOpening(in)
		if err == nil && !o.Opens {
			err = fmt.Errorf("need not open")
		}
		return o.Latest, err
	},
	"wiring.LargestRating": func(in refcheck.Inputs) (any, error) {
		return largest(in, in.Current("ampacity"))
	},
	"wiring.LargestRating#share": func(in refcheck.Inputs) (any, error) {
		a := in.Current("ampacity")
		l, err := largest(in, a)
		return l.Per(a), err
	},
	"wiring.LargestRating#gauge": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.AWG(wiring.Plain)
		if err != nil {
			return nil, err
		}
		c, err := s.WithInsulation(in.Temperature("insulation")).Find(in.Text("gauge") + " AWG")
		if err != nil {
			return nil, err
		}
		r, err := wiring.Ampacity(wiring.Rules(in.Text("rules")), c, wiring.Installation{})
		if err != nil {
			return nil, err
		}
		return largest(in, r.Current)
	},
	"wiring.ChooseRating": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.PreferredRatings(wiring.SeriesNEC)
		if err != nil {
			return nil, err
		}
		r, _, err := wiring.ChooseRating(wiring.Rules(in.Text("rules")), in.Current("load"), in.Current("ampacity"), in.Voltage("system"), s)
		return r, err
	},
	"wiring.ProposeFuse": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.PreferredRatings(wiring.SeriesNEC)
		if err != nil {
			return nil, err
		}
		band, err := wiring.PublishedBand(wiring.BandUL489, in.Current("breaker"))
		if err != nil {
			return nil, err
		}
		p, err := wiring.ProposeFuse(wiring.SecondFuse{
			Breaker: wiring.Device{Kind: wiring.Breaker, Rating: in.Current("breaker"), Resistance: 1e-3, Band: &band},
			Cable:   wiring.Cable{Conductor: wiring.Conductor{Area: 35 * units.SquareMillimetre, Resistance: 0.565e-3}},
			Rules:   wiring.Rules(in.Text("rules")), Ampacity: in.Current("ampacity"), System: in.Voltage("system"),
			Series: s, Band: wiring.BandBolted, Interrupting: 2000, Resistance: 0.3e-3,
			Stall: 300, Near: 1500, Far: 1000,
		})
		return p.Fuse.Rating, err
	},
	"wiring.InterruptingRule#main": func(in refcheck.Inputs) (any, error) {
		i, err := wiring.InterruptingRule(in.Voltage("system"), in.Current("cranking"), 0)
		return i.Main, err
	},
	"wiring.InterruptingRule#branch": func(in refcheck.Inputs) (any, error) {
		i, err := wiring.InterruptingRule(in.Voltage("system"), in.Current("cranking"), 0)
		return i.Branch, err
	},
	"wiring.BankFault": func(in refcheck.Inputs) (any, error) {
		return wiring.BankFault(in.Current("one"), in.Int("strings"))
	},
	"wiring.CheckPlacement#limit": func(in refcheck.Inputs) (any, error) {
		p := wiring.Place{Battery: in.Int("battery") == 1, Sheathed: in.Int("sheathed") == 1}
		v, err := wiring.CheckPlacement(wiring.Rules(in.Text("rules")), p)
		return v.Limit, err
	},
	"wiring.ShoppingList#clips": func(in refcheck.Inputs) (any, error) {
		l := in.Length("length")
		c := wiring.Circuit{Elements: []wiring.Element{{Name: "cable", From: "a", To: "b", Cable: &wiring.Cable{
			Conductor: wiring.Conductor{Size: "cable", Area: in.Area("area"), Resistance: 1e-3}, Length: l,
		}}}}
		items, err := wiring.ShoppingList(c, wiring.Shop{})
		for _, i := range items {
			if i.Kind == "clip" {
				return l.Scale(1 / float64(i.Count-1)), err
			}
		}
		return nil, fmt.Errorf("no clips: %w", err)
	},
	"wiring.SizeConductor#size": func(in refcheck.Inputs) (any, error) {
		series := wiring.AWG
		if in.Text("stock") == "SAE" {
			series = wiring.SAE
		}
		s, err := series(wiring.Plain)
		if err != nil {
			return nil, err
		}
		ch, err := sized(in, s, in.Float("drop"))
		return ch.Conductor.Size, err
	},
	"wiring.SizeConductor#share": func(in refcheck.Inputs) (any, error) {
		s, err := wiring.Metric(wiring.Flexible, wiring.Tinned)
		if err != nil {
			return nil, err
		}
		c, err := s.Find(in.Text("size"))
		if err != nil {
			return nil, err
		}
		ch, err := sized(in, wiring.Stock{c}, 0.1)
		return ch.Share, err
	},
}

func sized(in refcheck.Inputs, s wiring.Stock, drop float64) (wiring.Choice, error) {
	return wiring.SizeConductor(wiring.Requirement{
		Stock: s, Run: in.Length("run"), Current: in.Current("current"), System: in.Voltage("system"),
		MaxDrop: drop, Copper: in.Temperature("copper"),
	})
}

func largest(in refcheck.Inputs, a units.Current) (units.Current, error) {
	s, err := wiring.PreferredRatings(wiring.SeriesNEC)
	if err != nil {
		return 0, err
	}
	l, err := wiring.LargestRating(wiring.Rules(in.Text("rules")), a, in.Voltage("system"), s)
	return l.Limit, err
}

func publishedOpening(in refcheck.Inputs) (wiring.OpenTimes, error) {
	rating := in.Current("rating")
	b, err := wiring.PublishedBand(wiring.BandName(in.Text("band")), rating)
	if err != nil {
		return wiring.OpenTimes{}, err
	}
	return b.Opening(rating, rating.Scale(in.Float("multiple")))
}
