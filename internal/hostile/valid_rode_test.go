package hostile

import (
	"example.com/forepeak/rode"
	rodedraw "example.com/forepeak/rode/draw"
	"example.com/forepeak/units"
)

// must is for values known to be accepted.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func theRope() rode.Rope { return must(rode.RopeByName("polyamide eight-strand 14 mm")).Wet() }

func theChain() rode.Chain { return must(rode.ChainByName("DIN 766 8 mm G30")) }

// theRode is chain with a kellet, then rope.
func theRode() rode.Rode {
	chain := theChain().Piece(30 * units.Metre)
	chain.Top = []rode.Fitting{{Name: "kellet", Mass: 8, Volume: 1 * units.Litre, Working: 5000, Breaking: 20000, SideLoad: 0.5}}
	return rode.Rode{Pieces: []rode.Piece{chain, theRope().Piece(40 * units.Metre)}}
}

func theSite() rode.Site {
	return rode.Site{Depth: 6, Roller: 1.4, Slope: 0.02, Friction: 0.5, Water: 1025}
}

// theSnubbed is chain with a snubber at its end.
func theSnubbed() rode.Rode {
	return must(rode.Rode{Pieces: []rode.Piece{theChain().Piece(35 * units.Metre)}}.Snub(theSnubber()))
}

func theSnubber() rode.Snubber { return rode.Snubber{Rope: theRope(), Length: 10, Legs: 1, Slack: 3} }

func theSurge() rode.Surge { return rode.Surge{Mass: 9000, Rest: 1500, Gust: 3000, Speed: 0.5} }

func theLimits() rode.SnubberLimits { return rode.SnubberLimits{Bow: 12000, OfBreaking: 0.3} }

func theSolver() *rode.Solver { return must(rode.NewSolver(theRode(), theSite())) }

func theState() *rode.State {
	st := must(rode.Solve(theRode(), theSite(), 1500))
	return &st
}

func theBridle() rode.Bridle {
	return rode.Bridle{Rope: theRope(), Spread: 4, Port: 8, Starboard: 8}
}

func theCounter() rode.Counter { return rode.Counter{Setting: 0.33, Step: 1} }

func theScale() rode.Scale {
	return rode.Scale{Chain: 0.336, Splice: 40, Rope: 0.31, RopeU: 0.01}
}

func theErrors() rode.LayErrors { return rode.LayErrors{Tape: 0.01, TapeScale: 1e-4, Repeat: 0.02} }

func theLays() []rode.Lay {
	return []rode.Lay{
		{From: 1, To: 6, Taped: 5.04, FromAtChange: true, ToAtChange: true},
		{From: 1, To: 20, Taped: 19.15, FromAtChange: true, ToAtChange: true},
		{From: 20, To: 1, Taped: 19.13, FromAtChange: true, ToAtChange: true},
	}
}

func theShackle() rode.Shackle {
	return rode.Shackle{Name: "8 mm", Pin: 0.008, Gape: 0.016, Body: 0.008, Inside: 0.024, Working: 6000, Breaking: 30000}
}

func theThimble() rode.Thimble {
	return rode.Thimble{Name: "14 mm", Groove: 0.0145, Width: 0.035, Length: 0.055, Wall: 0.003, Thick: 0.02}
}

func theMarks() rode.MarkPlan {
	return rode.MarkPlan{Every: 10, AtAnchor: 0.11, AtZero: 2.3, Chain: 30, Pitch: 0.024, Rope: 20, Scheme: [][]string{{"one band"}, {"two bands"}}}
}

func init() {
	add := func(f func() any) { addType(f) }
	add(func() any { return theRode() })
	add(func() any { return theSite() })
	add(func() any { return theRope() })
	add(func() any { return theChain() })
	add(func() any { return theChain().Piece(30) })
	add(func() any { return theSnubber() })
	add(func() any { return theSurge() })
	add(func() any { return theLimits() })
	add(func() any { return theSolver() })
	add(func() any { return theState() })
	add(func() any { return *theState() })
	add(func() any { return theBridle() })
	add(func() any { return rode.BridlePull{Horizontal: 2000, Vertical: 300, Sheer: 0.2} })
	add(func() any { return theCounter() })
	add(func() any { return theScale() })
	add(func() any { return theErrors() })
	add(func() any { return theLays() })
	add(func() any { return must(rode.Calibrate(theCounter(), theLays(), theErrors())) })
	add(func() any { return []rode.Shackle{theShackle()} })
	add(func() any { return theShackle() })
	add(func() any { return theThimble() })
	add(func() any { return theMarks() })
	add(func() any { return must(rode.MarkRode(theMarks())) })
	add(func() any { return rode.ForAnchoring })
	add(func() any {
		return rode.ChainWheel{Pockets: 6, Pitch: 0.024, Wire: 0.008, Play: 0.003, Width: 0.032, RopeLeast: 0.012, RopeMost: 0.016}
	})
	add(func() any { return rode.SlackChain{Length: 3, Apart: 1, Above: 0.5, Weight: 12} })
	add(func() any { return rode.LayGoal{Payout: 0.335, Half: 0.002, Longest: 30, Errors: theErrors()} })
	add(func() any { return rode.Cleat{Horns: 0.25, Thick: 0.025, Base: 0.1} })
	add(func() any { return rode.Fairlead{Inboard: 1.8, Contact: 0.06, Margin: 0.15, Strain: 0.15} })
	add(func() any { return rode.EyeSplice{Rope: theRope(), Eye: 0.3, Round: 0.1} })
	add(func() any { return rode.Craft{Hull: 10.4, Waterline: 9.1, Category: "A", Mass: 8200} })
	add(func() any { return rode.LockerRules()[0] })
	add(func() any { return rode.Locker{Length: 0.6, Width: 0.5, Fall: 1, Clear: 0.3, Slope: 0.6} })
	add(func() any { return []rode.Sleeve{{Name: "25", Inside: 0.025}, {Name: "40", Inside: 0.04}} })
	add(func() any { return must(rode.SolveSurge(theSnubbed(), theSite(), theSurge())) })
	add(func() any { v := must(rode.SolveSurge(theSnubbed(), theSite(), theSurge())); return &v })
	add(func() any {
		return rode.CutList{
			Ropes:   []rode.CutRope{{Name: "leg", Rope: theRope(), Finished: 10, Eyes: []rode.EyeSplice{{Rope: theRope(), Eye: 0.3, Round: 0.1}}, Tail: 0.2}},
			Lengths: []rode.CutLength{{Name: "sleeve", Each: 1}},
			Parts:   []rode.CutPart{{Name: "thimble", Count: 2}},
		}
	})
	add(func() any {
		return rodedraw.Profile{Views: []rodedraw.View{{Label: "1.5 kN", State: *theState(), Rode: theRode(), Site: theSite()}}, Boat: rodedraw.Boat{}}
	})
	add(func() any {
		return rodedraw.Snubber(must(rode.Solve(theSnubbed(), theSite(), 1500)), theSite(), 3)
	})

	for _, k := range []string{"Solve", "LengthFor", "PullFor"} {
		valid["rode."+k+" pull"] = 1500
	}
	valid["rode.SolveTension tension"] = 1500
	valid["rode.SolveDistance distance"] = 66
	valid["rode.Solver.Solve 2"] = 1500
	valid["rode.Solver.SolveTension 2"] = 1500
	valid["rode.Solver.SolveDistance 2"] = 66
	valid["rode.ScopeTable pulls"] = []units.Force{1000, 1500}
	valid["rode.ScopeTable depths"] = []units.Length{4, 8}
	valid["rode.CompareKellet kellet"] = rode.Fitting{Name: "kellet", Mass: 10, Volume: 0.001}
	valid["rode.Rode.Hang 1"] = rode.Fitting{Name: "kellet", Mass: 10, Volume: 0.001}
	valid["rode.ChainByName name"] = "DIN 766 8 mm G30"
	valid["rode.RopeByName name"] = "polyamide eight-strand 14 mm"
	valid["rode.KnotFactor knot"] = "bowline"
	valid["rode.EyeSpliceTucks fibre"] = "polyamide"
	valid["rode.ShortSpliceTucks fibre"] = "polyamide"
	valid["rode.SpliceFactor construction"] = "three-strand"
	valid["rode.RopeStretch fibre"] = "polyamide"
	valid["rode.RopeStretch construction"] = "eight-strand"
	valid["rode.RopeStretch breaking"] = 40000
	valid["rode.GradeBreaking wire"] = 0.008
	valid["rode.GradeBreaking grade"] = 30.0
	level := theSite()
	level.Slope = 0
	valid["rode.HangBridle s"] = level
	chainOnly := rode.Rode{Pieces: theRode().Pieces[:1]}
	for _, k := range []string{"SnubberLength", "CompareSnubbers", "HangBridle"} {
		valid["rode."+k+" r"] = chainOnly
	}
	valid["rode.Rode.Snub 0"] = chainOnly
	valid["rode.CompareSnubbers snubbers"] = []rode.Snubber{theSnubber()}
	valid["rode.HangBridle pull"] = 2000
	valid["rode.PullFor r"] = must(theRode().Veer(35))
	valid["rode.LayToTell a"] = 0.33
	valid["rode.LayToTell b"] = 0.336
	valid["rode.ChooseSleeve diameter"] = 0.016
	valid["rode.Thimble.FitsRope 1"] = 0.014
	valid["rode.Rope.New 0"] = must(rode.RopeByName("polyamide three-strand 14 mm"))
	valid["rode.Marks.Table 1"] = "ft"
	valid["rode.StrongPoint.UnmarshalText 1"] = []byte("mooring")
	valid["rode.Kind.UnmarshalText 1"] = []byte("chain")
	valid["rode.Chain.Worn 1"] = 0.0075
	valid["rode.Chain.WornPitch 1"] = 0.0075
	valid["rode.ChooseShackle load"] = 3000
}
