package rode_test

import (
	"fmt"
	"maps"
	"math"
	"strings"
	"testing"

	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

//go:generate go test -count=1 -run=^TestReference$ . -args -refcheck.update

func TestReference(t *testing.T) {
	handlers := map[string]refcheck.Handler{
		"rode.LengthFor": func(in refcheck.Inputs) (any, error) {
			r, s := published(in, "")
			r.Pieces[0].Length = s.Rise().Scale(100)
			pull := units.Force(0)
			if in.Has("H") {
				pull = in.Force("H")
			} else {
				st, err := rode.SolveTension(r, s, in.Force("T"))
				if err != nil {
					return nil, err
				}
				pull = st.Pull
			}
			return rode.LengthFor(r, s, pull, 0)
		},
		"rode.PullFor": func(in refcheck.Inputs) (any, error) {
			r, s := published(in, "")
			return rode.PullFor(r, s, 0)
		},
		"rode.ScopeTable": func(in refcheck.Inputs) (any, error) {
			r, s := published(in, "")
			r.Pieces[0].Length = s.Rise().Scale(100)
			rows, err := rode.ScopeTable(r, rode.Site{}, []units.Length{s.Rise()}, []units.Force{in.Force("H")}, 0)
			if err != nil {
				return nil, err
			}
			return rows[0].Out, nil
		},
		"rode.Rope.Strain": func(in refcheck.Inputs) (any, error) {
			const breaking = 10 * units.Kilonewton
			var r rode.Rope
			var err error
			r.Fibre, r.Construction = in.Text("fibre"), in.Text("construction")
			if r.Stretch, err = rode.RopeStretch(r.Fibre, r.Construction, breaking); err != nil {
				return nil, err
			}
			if in.Text("state") == "new" {
				if r, err = r.New(); err != nil {
					return nil, err
				}
			}
			e, err := r.Strain(breaking.Scale(in.Float("loadpercent") / 100))
			return e, err
		},
		"rode.Rope.Wet": func(in refcheck.Inputs) (any, error) {
			r, err := rode.RopeByName(in.Text("rope"))
			return r.Wet().Breaking.Per(r.Breaking), err
		},
		"rode.Rope.Cyclic": func(in refcheck.Inputs) (any, error) {
			r := rode.Rope{Fibre: "polyamide", Breaking: in.Force("breaking")}.Cyclic()
			load := r.Breaking.Scale(0.2)
			strain, err := r.Strain(load)
			return load.Scale(1 / strain), err
		},
		"rode.Chain.WornPitch": func(in refcheck.Inputs) (any, error) {
			p, err := rode.Chain{Wire: in.Length("wire"), Pitch: in.Length("pitch")}.WornPitch(in.Length("measured"))
			return p.High, err
		},
		"rode.GradeBreaking": func(in refcheck.Inputs) (any, error) {
			return rode.GradeBreaking(in.Length("wire"), in.Float("grade"))
		},
		"rode.Chain.LinkMass": func(in refcheck.Inputs) (any, error) {
			return rode.Chain{Wire: in.Length("wire"), Pitch: in.Length("pitch"), OutsideWidth: in.Length("outside")}.LinkMass()
		},
		"rode.Chain.AxialStiffness": func(in refcheck.Inputs) (any, error) {
			return rode.Chain{Wire: in.Length("wire")}.AxialStiffness(), nil
		},
		"rode.Chain.Worn": func(in refcheck.Inputs) (any, error) {
			c, err := rode.Chain{Wire: in.Length("wire"), Breaking: 1}.Worn(in.Length("measured"))
			return float64(c.Breaking), err
		},
	}
	for name, f := range map[string]func(rode.Chain) any{
		// As ASTM A413 defines it: from the breaking force in lbf and the wire in inches.
		"grade": func(c rode.Chain) any {
			d := c.Wire.Inches()
			return 0.000689 * c.Breaking.PoundsForce() / (0.5 * math.Pi * d * d)
		},
		"innerwidth": func(c rode.Chain) any { return c.InsideWidth },
		"outerwidth": func(c rode.Chain) any { return c.OutsideWidth },
		"mass":       func(c rode.Chain) any { return c.Mass },
		"mbf":        func(c rode.Chain) any { return c.Breaking },
		"pitch":      func(c rode.Chain) any { return c.Pitch },
		"proof":      func(c rode.Chain) any { return c.Proof },
		"wire":       func(c rode.Chain) any { return c.Wire },
		"wll":        func(c rode.Chain) any { return c.Working },
	} {
		handlers["rode.ChainByName#"+name] = func(in refcheck.Inputs) (any, error) {
			c, err := rode.ChainByName(in.Text("chain"))
			return f(c), err
		}
	}
	for name, f := range map[string]func(rode.Rope) any{
		"mass": func(r rode.Rope) any { return r.Mass },
		"mbf":  func(r rode.Rope) any { return r.Breaking },
	} {
		handlers["rode.RopeByName#"+name] = func(in refcheck.Inputs) (any, error) {
			r, err := rode.RopeByName(in.Text("rope"))
			return f(r), err
		}
	}
	for name, f := range map[string]func(rode.Position) units.Length{
		"distance": func(p rode.Position) units.Length { return p.X },
		"height":   func(p rode.Position) units.Length { return p.Z },
	} {
		handlers["rode.State.Points#"+name] = func(in refcheck.Inputs) (any, error) {
			r, site := published(in, "")
			st, err := rode.SolveDistance(r, site, in.Length("X"))
			if err != nil {
				return nil, err
			}
			arc := in.Length("arc")
			var last rode.CurvePoint
			for p := range st.Points(100 * units.Millimetre) {
				if p.Arc >= arc {
					part := (arc - last.Arc).Per(p.Arc - last.Arc)
					return f(last.Position) + (f(p.Position) - f(last.Position)).Scale(part), nil
				}
				last = p
			}
			return nil, fmt.Errorf("arc %v is beyond the bow", arc)
		}
	}
	results := map[string]func(rode.State) any{
		"onbed":     func(s rode.State) any { return s.OnBed },
		"span":      func(s rode.State) any { return s.Distance },
		"tension":   func(s rode.State) any { return s.Tension },
		"vertical":  func(s rode.State) any { return s.Vertical },
		"pull":      func(s rode.State) any { return s.Pull },
		"anchor":    func(s rode.State) any { return s.Anchor.Tension },
		"angle":     func(s rode.State) any { return s.BowAngle },
		"stiffness": func(s rode.State) any { return s.Stiffness },
	}
	for _, c := range []struct {
		fn, want string
		solve    func(rode.Rode, rode.Site, refcheck.Inputs) (rode.State, error)
	}{
		{"Solve", "onbed span tension vertical", func(r rode.Rode, s rode.Site, in refcheck.Inputs) (rode.State, error) {
			return rode.Solve(r, s, in.Force("H"))
		}},
		{"SolveDistance", "anchor angle onbed pull stiffness tension vertical", func(r rode.Rode, s rode.Site, in refcheck.Inputs) (rode.State, error) {
			return rode.SolveDistance(r, s, in.Length("X"))
		}},
		{"SolveTension", "pull span stiffness", func(r rode.Rode, s rode.Site, in refcheck.Inputs) (rode.State, error) {
			return rode.SolveTension(r, s, in.Force("T"))
		}},
	} {
		for _, w := range strings.Fields(c.want) {
			handlers["rode."+c.fn+"#"+w] = func(in refcheck.Inputs) (any, error) {
				var r rode.Rode
				var s rode.Site
				if in.Has("L1") {
					r, s = published(in, "1", "2", "3")
				} else {
					r, s = published(in, "")
				}
				st, err := c.solve(r, s, in)
				return results[w](st), err
			}
		}
	}
	maps.Copy(handlers, composedHandlers())
	suite := refcheck.Suite{Package: "rode", Handlers: handlers, Bookkeeping: bookkeeping}
	for _, part := range []refcheck.Suite{
		counterSuite(),
		snubberSuite(),
	} {
		maps.Copy(suite.Handlers, part.Handlers)
	}
	refcheck.Run(t, suite)
}

// published is a rode of the pieces that a row describes, weighed in water, in
// water as deep as the line's upper end is high above the anchor.
func published(in refcheck.Inputs, pieces ...string) (rode.Rode, rode.Site) {
	var r rode.Rode
	for _, n := range pieces {
		var p rode.Piece
		p.Mass = in.ForcePerLength("w" + n).Mass()
		p.Density = math.MaxFloat64 // the weight is the one in water already
		p.Length = 1
		if in.Has("L" + n) {
			p.Length = in.Length("L" + n)
		}
		if in.Has("EA" + n) {
			p.Stretch = rode.LinearStretch(in.Force("EA" + n))
		}
		r.Pieces = append(r.Pieces, p)
	}
	s := rode.Site{Depth: in.Length("rise")}
	if in.Has("mu") {
		s.Friction = in.Float("mu")
	}
	return r, s
}

// bookkeeping computes nothing that could have been printed.
var bookkeeping = map[string]string{
	"NewSolver":           "the solver behind Solve, SolveDistance and SolveTension, which have rows",
	"Solver":              "the solver behind Solve, SolveDistance and SolveTension, which have rows",
	"Chains":              "lists the catalogue",
	"Ropes":               "lists the catalogue",
	"Chain.Name":          "joins three words",
	"Rope.Name":           "joins three words",
	"Chain.Piece":         "copies fields",
	"Rope.Piece":          "copies fields",
	"Rope.Used":           "scales a field by the caller's factor",
	"Rode.Length":         "a sum",
	"Rode.Veer":           "cuts a list",
	"Rode.Hang":           "cuts a list",
	"Rode.Snub":           "adds a piece to a list",
	"ScopeRow.Enough":     "a comparison",
	"SnubberOption.Holds": "a comparison",
	"WheelFit.Fits":       "a comparison",
	"ChainWheel.FitRope":  "comparisons with what the wheel's maker gives",
	"Marks.Table":         "prints",
	"LockerRules":         "lists the rules, which have rows",
	"PieceEnergy.Total":   "a sum",
	"State.HookHeight":    "a difference",
	"SurgePeak.Share":     "a ratio",
	"Thimble.FitsRope":    "comparisons",
	"Thimble.Eye":         "sums",
	"Shackle.FitsChain":   "comparisons",
	"Shackle.FitsThimble": "comparisons",
	"ChooseShackle":       "picks from a list",
	"ChooseSleeve":        "picks from a list by NeedSleeve, which has rows",
	"CutList.Shopping":    "adds up EyeSplice.Allowance, which has rows",
}
