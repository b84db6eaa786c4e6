package rode_test

import (
	"fmt"
	"math"

	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// counterSuite checks wheel, counter, calibration, marks and locker.
func counterSuite() refcheck.Suite {
	wheel := func(in refcheck.Inputs) rode.ChainWheel {
		return rode.ChainWheel{Pockets: in.Int("pockets"), Pitch: in.Length("pitch")}
	}
	handlers := map[string]refcheck.Handler{
		"rode.ChainWheel.Payout": func(in refcheck.Inputs) (any, error) { return wheel(in).Payout() },
		"rode.ChainWheel.PitchDiameter": func(in refcheck.Inputs) (any, error) {
			w := wheel(in)
			w.Wire = in.Length("wire")
			return w.PitchDiameter()
		},
		"rode.ChainWheel.Fit#creep": func(in refcheck.Inputs) (any, error) {
			const wire = 10 * units.Millimetre
			w := rode.ChainWheel{Pockets: in.Int("pockets"), Pitch: in.Length("wheel"), Wire: wire}
			f, err := w.Fit(rode.Chain{Pitch: in.Length("pitch"), Wire: wire})
			return f.Creep, err
		},
		"rode.MeasuredPitch": func(in refcheck.Inputs) (any, error) {
			return rode.MeasuredPitch(in.Length("length"), in.Int("links"))
		},
		"rode.CounterError": func(in refcheck.Inputs) (any, error) {
			return rode.CounterError(in.Length("payout"), in.Length("setting"))
		},
		"rode.Counter.Readings#least": func(in refcheck.Inputs) (any, error) {
			c := rode.Counter{Setting: in.Length("setting")}
			shown, err := c.Readings(rode.Scale{Chain: in.Length("payout")}, in.Length("out"))
			return shown.Low, err
		},
		"rode.Counter.Readings#most": func(in refcheck.Inputs) (any, error) {
			c := rode.Counter{Setting: in.Length("setting")}
			shown, err := c.Readings(rode.Scale{Chain: in.Length("payout")}, in.Length("out"))
			return shown.High, err
		},
		"rode.Scale.Turns": func(in refcheck.Inputs) (any, error) {
			return rollingWheel(in).Turns(in.Length("out"))
		},
		// A speedometer for wheels of one size on others: what it says, and what is so. A pulse is a
		// thousandth of a turn, on wheels a hundred times smaller.
		"rode.Counter.Reading": func(in refcheck.Inputs) (any, error) {
			c, s := wheels(in)
			return c.Reading(s, 0, in.Length("out"))
		},
		"rode.Counter.Length": func(in refcheck.Inputs) (any, error) {
			c, s := wheels(in)
			l, err := c.Length(s, in.Length("shown"))
			return l.Length, err
		},
		// A payout without a slip is a line through the origin. Turns stand for cases and taped
		// metres for minutes; what the counter can show is fine enough to be nothing.
		"rode.Calibration.Predict#least": func(in refcheck.Inputs) (any, error) {
			l, err := shelves(in)
			return float64(l.Low), err
		},
		"rode.Calibration.Predict#most": func(in refcheck.Inputs) (any, error) {
			l, err := shelves(in)
			return float64(l.High), err
		},
		"rode.Calibration.Predict#variance": func(in refcheck.Inputs) (any, error) {
			l, err := shelves(in)
			return float64(l.U) * float64(l.U), err
		},
		"rode.Calibration.Predict#slope": func(in refcheck.Inputs) (any, error) {
			l, err := shelves(in)
			return float64(l.Length) / in.Float("x"), err
		},
		"rode.LayToTell#standing": func(in refcheck.Inputs) (any, error) {
			a := in.Length("a")
			ls, err := rode.LayToTell(rode.Counter{Setting: a}, a, in.Length("b"), rode.LayErrors{})
			if err != nil {
				return nil, err
			}
			return ls[0].Length, nil
		},
		"rode.LayLine.At#length": func(in refcheck.Inputs) (any, error) {
			x := in.Float("t") - in.Float("t0")
			l, err := annexH3(in)
			if err != nil {
				return nil, err
			}
			b, _, err := l.At(x)
			return float64(b) - x - 1, err
		},
		"rode.LayLine.At#u": func(in refcheck.Inputs) (any, error) {
			l, err := annexH3(in)
			if err != nil {
				return nil, err
			}
			_, u, err := l.At(in.Float("t") - in.Float("t0"))
			return float64(u), err
		},
		"rode.LockerRule.Volume": func(in refcheck.Inputs) (any, error) {
			for _, r := range rode.LockerRules() {
				if r.Name == in.Text("rule") {
					return r.Volume(in.Length("length"), in.Length("size"))
				}
			}
			return nil, fmt.Errorf("no rule %q", in.Text("rule"))
		},
		// The deepest locker in which nothing stows by itself.
		"rode.Locker.Stow#clear": func(refcheck.Inputs) (any, error) {
			for fall := units.Length(0.3); ; fall += units.Millimetre {
				l := rode.Locker{Length: 0.5, Width: 0.5, Fall: fall}
				ss, err := l.Stow(rode.OfChain, 30, 8*units.Millimetre)
				if err != nil || ss[0].Stows > 0 {
					return fall, err
				}
			}
		},
	}
	for name, f := range map[string]func(rode.LayLine) any{
		"slip":        func(l rode.LayLine) any { return float64(l.Slip - 1) },
		"slip-u":      func(l rode.LayLine) any { return float64(l.SlipU) },
		"payout":      func(l rode.LayLine) any { return float64(l.Payout - 1) },
		"payout-u":    func(l rode.LayLine) any { return float64(l.PayoutU) },
		"correlation": func(l rode.LayLine) any { return l.Correlation },
		"scatter":     func(l rode.LayLine) any { return float64(l.Scatter) },
	} {
		handlers["rode.Calibrate#"+name] = func(in refcheck.Inputs) (any, error) {
			l, err := annexH3(in)
			return f(l), err
		}
	}
	return refcheck.Suite{Handlers: handlers}
}

// annexH3 lays out rode as a thermometer is calibrated: turns stand for degrees
// above t0, and the taped length for turns + 1 + correction. The counter shows
// thousandths of a turn, read as they change.
func annexH3(in refcheck.Inputs) (rode.LayLine, error) {
	c := rode.Counter{Setting: 1, Pulses: 1000}
	var lays []rode.Lay
	for i := 1; in.Has(fmt.Sprintf("t%d", i)); i++ {
		x := in.Float(fmt.Sprintf("t%d", i)) - in.Float("t0")
		b := in.Float(fmt.Sprintf("b%d", i))
		lays = append(lays, rode.Lay{
			From: 1, To: units.Length(1 + x), FromAtChange: true, ToAtChange: true,
			Taped: units.Length(x + 1 + b),
		})
	}
	r, err := rode.Calibrate(c, lays, rode.LayErrors{})
	if err != nil {
		return rode.LayLine{}, err
	}
	return *r.Line, nil
}

func wheels(in refcheck.Inputs) (rode.Counter, rode.Scale) {
	const smaller = 1.0 / 100
	return rode.Counter{Setting: in.Length("set").Scale(math.Pi * smaller), Pulses: 1000},
		rode.Scale{Chain: in.Length("diameter").Scale(math.Pi * smaller)}
}

// shelves predicts one more lay of so many turns after those of a row.
func shelves(in refcheck.Inputs) (rode.LengthOut, error) {
	c := rode.Counter{Setting: 1, Pulses: 1000}
	var lays []rode.Lay
	for i := 1; in.Has(fmt.Sprintf("x%d", i)); i++ {
		lays = append(lays, rode.Lay{
			To: units.Length(in.Float(fmt.Sprintf("x%d", i))), FromAtChange: true, ToAtChange: true,
			Taped: units.Length(in.Float(fmt.Sprintf("y%d", i))),
		})
	}
	r, err := rode.Calibrate(c, lays, rode.LayErrors{})
	if err != nil {
		return rode.LengthOut{}, err
	}
	return r.Predict(c, units.Length(in.Float("x")))
}
