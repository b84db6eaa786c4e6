package rode_test

import (
	"math"

	"example.com/forepeak/internal/refcheck"
	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// snubberSuite is what snubbers, bridles, splices and cutting add to the package's checks.
func snubberSuite() refcheck.Suite {
	return refcheck.Suite{Handlers: snubberHandlers()}
}

func snubberHandlers() map[string]refcheck.Handler {
	h := map[string]refcheck.Handler{
		"rode.EyeSpliceTucks":    func(in refcheck.Inputs) (any, error) { return rode.EyeSpliceTucks(in.Text("fibre")) },
		"rode.ShortSpliceTucks":  func(in refcheck.Inputs) (any, error) { return rode.ShortSpliceTucks(in.Text("fibre")) },
		"rode.SpliceTail":        func(in refcheck.Inputs) (any, error) { return rode.SpliceTail(in.Length("diameter")) },
		"rode.SpliceTaperTail":   func(in refcheck.Inputs) (any, error) { return rode.SpliceTaperTail(in.Length("diameter")) },
		"rode.SpliceTaperTucks":  func(refcheck.Inputs) (any, error) { return rode.SpliceTaperTucks, nil },
		"rode.EyeAngleLimit":     func(refcheck.Inputs) (any, error) { return rode.EyeAngleLimit, nil },
		"rode.EyeSpliceCrowns":   func(refcheck.Inputs) (any, error) { return rode.EyeSpliceCrowns, nil },
		"rode.ShortSpliceFactor": func(refcheck.Inputs) (any, error) { return rode.ShortSpliceFactor, nil },
		"rode.LineOfStrongPoint": func(refcheck.Inputs) (any, error) { return rode.LineOfStrongPoint, nil },
		"rode.LoadOfStrongPoint": func(refcheck.Inputs) (any, error) { return rode.LoadOfStrongPoint, nil },
		"rode.SpliceFactor":      func(in refcheck.Inputs) (any, error) { return rode.SpliceFactor(in.Text("construction")) },
		"rode.KnotFactor":        func(in refcheck.Inputs) (any, error) { return rode.KnotFactor(in.Text("knot")) },
		"rode.EyeAngle":          func(in refcheck.Inputs) (any, error) { return rode.EyeAngle(in.Length("eye"), in.Length("post")) },
		"rode.Cleat.EyeLength": func(in refcheck.Inputs) (any, error) {
			return rode.Cleat{Horns: in.Length("horns"), Thick: in.Length("thick"), Base: in.Length("base")}.EyeLength()
		},
		"rode.EyeSplice.Allowance#tail": func(in refcheck.Inputs) (any, error) {
			e, err := splice(in)
			if err != nil {
				return nil, err
			}
			a, err := e.Allowance()
			return a.Tail.Per(e.Rope.Diameter), err
		},
		"rode.EyeSplice.MidlineAllowance#passes": func(in refcheck.Inputs) (any, error) {
			e, err := splice(in)
			if err != nil {
				return nil, err
			}
			a, err := e.MidlineAllowance()
			return a.Tail.Per(e.Rope.Diameter), err
		},
		"rode.SecureAnchor#twice": func(in refcheck.Inputs) (any, error) {
			l, err := rode.SecureAnchor(in.Mass("mass"), rode.BowMotion{})
			return l.Twice.Per(in.Mass("mass").Weight()), err
		},
		// What the knot leaves of the parts.
		"rode.BitterEndLashing#left": func(refcheck.Inputs) (any, error) {
			const part = units.Kilonewton
			l, err := rode.BitterEndLashing(10*part, rode.Rope{Breaking: part}, units.Metre)
			return l.Strength.Per(part.Scale(2 * float64(l.Turns))), err
		},
		// A line that is stretched to the fairlead and beyond: what of it moves through.
		"rode.Fairlead.Sleeve#moves": func(in refcheck.Inputs) (any, error) {
			strain := in.Float("strain")
			p, err := rode.Fairlead{Inboard: in.Length("line").Scale(1 + strain), Strain: strain}.Sleeve()
			return p.Length, err
		},
		"rode.FlatSleeve": func(in refcheck.Inputs) (any, error) { return rode.FlatSleeve(in.Length("width")) },
		"rode.NeedSleeve#splice": func(in refcheck.Inputs) (any, error) {
			n, err := rode.NeedSleeve(in.Length("diameter"))
			return n.OverSplice.Per(n.OverRope), err
		},
		"rode.NeedSleeve#ease": func(in refcheck.Inputs) (any, error) {
			n, err := rode.NeedSleeve(in.Length("diameter"))
			return n.OverRope.Per(in.Length("diameter")), err
		},
		"rode.Craft.StrongPointLoad#factor": func(in refcheck.Inputs) (any, error) {
			k := rode.Craft{Hull: 10, Waterline: 10, Category: rode.Category(in.Text("category"))}
			f, err := k.StrongPointLoad(rode.ForAnchoring)
			return f.Kilonewtons() / (43 - 5.4), err
		},
		"rode.LashingLoad": func(in refcheck.Inputs) (any, error) {
			f, err := rode.LashingLoad(2*units.Newton, 2, 90*units.Degree-in.Angle("angle"))
			return f.Newtons(), err
		},
		// The source's leg carries the share of a load that hangs on two.
		"rode.SolveBridle#share": func(in refcheck.Inputs) (any, error) {
			b := rode.Bridle{Rope: elastic(1e12), Port: 1, Starboard: 1, Spread: units.Length(2 * in.Angle("angle").Cos())}
			st, err := rode.SolveBridle(b, rode.BridlePull{Horizontal: 2})
			return st.Port.Tension.Newtons(), err
		},
		"rode.Solver.Energy#speed": func(in refcheck.Inputs) (any, error) {
			e, err := held(in.Force("EA"), in.Length("length"), in.Force("EA").Scale(in.Length("stretched").Per(in.Length("length"))-1))
			mass := float64(in.Force("weight")) / 9.81 // as the source has it
			return units.Speed(math.Sqrt(2 * float64(e) / mass)), err
		},
		"rode.Solver.Energy#bridle": func(in refcheck.Inputs) (any, error) {
			e, err := held(in.Length("length").TimesStiffness(in.Stiffness("k")), in.Length("length"), in.Force("tension"))
			return e.Scale(in.Float("legs")), err
		},
	}
	for name, use := range map[string]rode.StrongPoint{"anchoring": rode.ForAnchoring, "mooring": rode.ForMooring, "aft": rode.Aft} {
		h["rode.Craft.StrongPointLoad#"+name] = func(in refcheck.Inputs) (any, error) {
			k := rode.Craft{Hull: in.Length("lc"), Waterline: in.Length("lc"), Category: rode.Category(in.Text("category"))}
			return k.StrongPointLoad(use)
		}
	}
	for name, f := range map[string]func(rode.StrongPointCount) int{
		"forward": func(n rode.StrongPointCount) int { return n.Forward },
		"aft":     func(n rode.StrongPointCount) int { return n.Aft },
		"side":    func(n rode.StrongPointCount) int { return n.EachSide },
	} {
		h["rode.Craft.StrongPoints#"+name] = func(in refcheck.Inputs) (any, error) {
			n, err := rode.Craft{Hull: in.Length("lh"), Waterline: in.Length("lh"), Category: rode.Offshore}.StrongPoints()
			return f(n), err
		}
	}
	for name, f := range map[string]func(rode.EyeLength) any{
		"byangle": func(l rode.EyeLength) any { return l.ByAngle },
		"least":   func(l rode.EyeLength) any { return l.Least },
		"good":    func(l rode.EyeLength) any { return l.Good },
	} {
		h["rode.EyeLengthFor#"+name] = func(in refcheck.Inputs) (any, error) {
			l, err := rode.EyeLengthFor(in.Length("post"), in.Length("rope"))
			return f(l), err
		}
	}
	for name, f := range map[string]func(rode.SurgePeak, units.Force) any{
		"run":     func(p rode.SurgePeak, _ units.Force) any { return p.Run },
		"stretch": func(p rode.SurgePeak, _ units.Force) any { return p.Peak.Pieces[0].Stretch },
		"factor":  func(p rode.SurgePeak, w units.Force) any { return p.Peak.Pull.Per(w) },
	} {
		h["rode.SolveSurge#"+name] = func(in refcheck.Inputs) (any, error) {
			perFoot := float64(in.Force("unit")) / units.Foot.Metres()
			ks := []units.Stiffness{units.Stiffness(in.Float("k1") * perFoot)}
			if in.Has("k2") {
				ks = append(ks, units.Stiffness(in.Float("k2")*perFoot))
			}
			r, s := spring(ks...)
			const g = 32.2 * 0.3048 // as these sources have it
			w := in.Force("weight")
			b := rode.Surge{Mass: units.Mass(float64(w) / g)}
			if in.Has("v") {
				b.Speed = in.Speed("v")
			}
			if in.Has("drop") {
				b.Speed = units.Speed(math.Sqrt(2 * g * in.Length("drop").Metres()))
			}
			if in.Has("gust") {
				b.Gust = in.Force("gust")
			}
			if in.Has("rest") {
				b.Rest = in.Force("rest")
			}
			p, err := rode.SolveSurge(r, s, b)
			if err != nil {
				return nil, err
			}
			return f(p, w), nil
		}
	}
	for name, f := range map[string]func(rode.BridleState) any{
		"forward": func(s rode.BridleState) any { return s.Forward },
		"stretch": func(s rode.BridleState) any { return s.Port.Stretch + s.Starboard.Stretch },
	} {
		h["rode.SolveBridle#"+name] = func(in refcheck.Inputs) (any, error) {
			leg := in.Length("leg")
			b := rode.Bridle{Rope: elastic(leg.TimesStiffness(in.Stiffness("k"))), Port: leg, Starboard: leg, Spread: in.Length("spread")}
			st, err := rode.SolveBridle(b, rode.BridlePull{Horizontal: in.Force("pull")})
			return f(st), err
		}
	}
	for name, f := range map[string]func(rode.Loop) any{
		"below": func(l rode.Loop) any { return l.Below },
		"tension": func(l rode.Loop) any {
			return units.Force(math.Hypot(float64(l.Horizontal), float64(l.AtHook)))
		},
	} {
		h["rode.SlackChain.Hang#"+name] = func(in refcheck.Inputs) (any, error) {
			l, err := rode.SlackChain{
				Length: in.Length("length"), Apart: in.Length("apart"), Weight: in.ForcePerLength("weight"),
			}.Hang()
			return f(l), err
		}
	}
	return h
}

// splice is the eye that a row describes.
func splice(in refcheck.Inputs) (rode.EyeSplice, error) {
	r, err := rode.RopeByName(in.Text("rope"))
	return rode.EyeSplice{Rope: r, Eye: in.Length("eye"), Round: in.Length("round")}, err
}

// elastic is a rope of an axial stiffness and nothing else that counts.
func elastic(ea units.Force) rode.Rope {
	return rode.Rope{Diameter: 0.01, Mass: 0.1, Density: 1140, Breaking: 1e12, Stretch: rode.LinearStretch(ea)}
}

// held is the energy in a level line without weight under a tension.
func held(ea units.Force, length units.Length, tension units.Force) (units.Energy, error) {
	r := rode.Rode{Pieces: []rode.Piece{{Length: length, Mass: 1e-9, Density: math.MaxFloat64, Stretch: rode.LinearStretch(ea)}}}
	sv, err := rode.NewSolver(r, rode.Site{Depth: 1e-9})
	if err != nil {
		return 0, err
	}
	var st rode.State
	if err := sv.Solve(&st, tension); err != nil {
		return 0, err
	}
	e, err := sv.Energy(&st)
	return e.Total, err
}
