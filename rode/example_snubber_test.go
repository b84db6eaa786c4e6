package rode_test

import (
	"fmt"
	"math"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// lying is 35 m of 10 mm chain in 7 m of water, a gust that comes with the boat
// falling back at 0.6 m/s, and 16 mm polyamide rope.
func lying() (rode.Rode, rode.Site, rode.Surge, rode.Rope) {
	chain, err := rode.ChainByName("DIN 766 10 mm G40")
	if err != nil {
		panic(err)
	}
	rope, err := rode.RopeByName("polyamide eight-strand 16 mm")
	if err != nil {
		panic(err)
	}
	return rode.Rode{Pieces: []rode.Piece{chain.Piece(35 * units.Metre)}},
		rode.Site{Depth: 7 * units.Metre, Roller: 1.7 * units.Metre},
		rode.Surge{Mass: 10.3 * units.Tonne, Rest: 2.3 * units.Kilonewton, Gust: 4.4 * units.Kilonewton, Speed: 0.6 * units.MetrePerSecond},
		rope.Wet()
}

// R. C. Hibbeler, Engineering Mechanics: Dynamics, 11th edition, problem 14-96: a
// 1500 lb billet at 8 ft/s against springs of 3000 and 4500 lb/ft in series
// presses the first by 0.235 m.
func ExampleSolveSurge() {
	spring := func(perFoot units.Force) rode.Piece {
		return rode.Piece{
			Name: "spring", Length: 100 * units.Foot, Stretch: rode.LinearStretch(perFoot.Scale(100)),
			Mass: 1e-9, Density: 1e12, // next to nothing
		}
	}
	r := rode.Rode{Pieces: []rode.Piece{spring(3000 * units.PoundForce), spring(4500 * units.PoundForce)}}
	p, err := rode.SolveSurge(r, rode.Site{Depth: 1e-9}, rode.Surge{Mass: 1500 * units.Pound, Speed: 8 * units.FootPerSecond})
	fmt.Printf("%.3f m, %v\n", p.Peak.Pieces[0].Stretch.Metres(), err)
	// Output:
	// 0.235 m, <nil>
}

func ExampleSolver_Energy() {
	r, s, _, _ := lying()
	sv, err := rode.NewSolver(r, s)
	if err != nil {
		fmt.Println(err)
		return
	}
	var st rode.State
	for _, pull := range []units.Force{500, 1000, 2000, 4000, 8000} {
		if err := sv.Solve(&st, pull); err != nil {
			fmt.Println(err)
			return
		}
		e, err := sv.Energy(&st)
		fmt.Printf("%.1f kN: %.0f J, of which lifting %.0f J %v\n",
			pull.Kilonewtons(), e.Total.Joules(), e.Pieces[0].Lifting.Joules(), err)
	}
	// Output:
	// 0.5 kN: 1341 J, of which lifting 1340 J <nil>
	// 1.0 kN: 1783 J, of which lifting 1780 J <nil>
	// 2.0 kN: 2305 J, of which lifting 2296 J <nil>
	// 4.0 kN: 2616 J, of which lifting 2581 J <nil>
	// 8.0 kN: 2866 J, of which lifting 2726 J <nil>
}

func ExampleSurge_Kinetic() {
	fmt.Println(rode.Surge{Mass: 10 * units.Tonne, Speed: 0.5 * units.MetrePerSecond}.Kinetic())
	// Output:
	// 1250 J
}

func ExampleRode_Snub() {
	r, s, g, rope := lying()
	snubbed, err := r.Snub(rode.Snubber{Rope: rope.Cyclic(), Length: 10 * units.Metre, Slack: 14 * units.Metre})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range []rode.Rode{r, snubbed} {
		p, err := rode.SolveSurge(r, s, g)
		if err != nil {
			fmt.Println(err)
			return
		}
		last := len(r.Pieces) - 1
		fmt.Printf("peak %.1f kN, the boat runs back %.2f m; %s takes %.0f %%\n",
			p.Peak.Tension.Kilonewtons(), p.Run.Metres(), r.Pieces[last].Name, 100*p.Share(last))
	}
	// Output:
	// peak 34.8 kN, the boat runs back 0.25 m; DIN 766 10 mm G40 chain takes 100 %
	// peak 12.5 kN, the boat runs back 0.94 m; snubber, polyamide eight-strand 16 mm takes 80 %
}

func ExampleSnubberLength() {
	r, s, g, rope := lying()
	limits := rode.SnubberLimits{Bow: 12 * units.Kilonewton, OfBreaking: 0.25}
	length, err := rode.SnubberLength(r, s, rode.Snubber{Rope: rope, Legs: 2}, g, limits)
	fmt.Printf("%.3f m, %v\n", length.Metres(), err)
	// Output:
	// 22.155 m, <nil>
}

func ExampleCompareSnubbers() {
	r, s, g, _ := lying()
	var snubbers []rode.Snubber
	for _, size := range []string{"12", "14", "16", "20", "24"} {
		rope, err := rode.RopeByName("polyamide eight-strand " + size + " mm")
		if err != nil {
			fmt.Println(err)
			return
		}
		snubbers = append(snubbers, rode.Snubber{Rope: rope.Wet(), Length: 10 * units.Metre})
	}
	options, err := rode.CompareSnubbers(r, s, g, rode.SnubberLimits{Bow: 12 * units.Kilonewton, OfBreaking: 0.4}, snubbers)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range options {
		fmt.Printf("%s: peak %.1f kN, %2.0f %% of breaking, stretch %.2f m, takes %.0f %% of the energy; holds %t, wanted %.1f m\n",
			o.Snubber.Rope.Size, o.Peak.Peak.Tension.Kilonewtons(), 100*o.OfBreaking, o.Stretch.Metres(), 100*o.Share, o.Holds(), math.Ceil(10*o.Wanted.Metres())/10)
	}
	// Output:
	// 12 mm: peak 10.7 kN, 43 % of breaking, stretch 1.21 m, takes 88 % of the energy; holds false, wanted 13.4 m
	// 14 mm: peak 11.6 kN, 34 % of breaking, stretch 0.96 m, takes 85 % of the energy; holds true, wanted 8.8 m
	// 16 mm: peak 12.4 kN, 28 % of breaking, stretch 0.79 m, takes 83 % of the energy; holds false, wanted 11.4 m
	// 20 mm: peak 14.1 kN, 20 % of breaking, stretch 0.57 m, takes 78 % of the energy; holds false, wanted 17.7 m
	// 24 mm: peak 15.7 kN, 16 % of breaking, stretch 0.44 m, takes 74 % of the energy; holds false, wanted 24.9 m
}

// The slow curve of the rope gives the longer way.
func ExampleSurgePeak_LeastSlack() {
	r, s, g, rope := lying()
	snubbed, err := r.Snub(rode.Snubber{Rope: rope, Length: 10 * units.Metre})
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := rode.SolveSurge(snubbed, s, g)
	fmt.Printf("more than %.1f m of chain between hook and roller; hook %.1f m above the water at rest, %.1f m at the peak, %v\n",
		p.LeastSlack().Metres(), p.Rest.HookHeight().Metres(), p.Peak.HookHeight().Metres(), err)
	// Output:
	// more than 11.3 m of chain between hook and roller; hook -1.4 m above the water at rest, -0.7 m at the peak, <nil>
}

func ExampleState_HookHeight() {
	r, s, _, rope := lying()
	snubbed, err := r.Snub(rode.Snubber{Rope: rope, Length: 10 * units.Metre})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, pull := range []units.Force{0, 500, 2300} {
		st, err := rode.Solve(snubbed, s, pull)
		fmt.Printf("%.1f kN: %.1f m %v\n", pull.Kilonewtons(), st.HookHeight().Metres(), err)
	}
	// Output:
	// 0.0 kN: -7.0 m <nil>
	// 0.5 kN: -3.2 m <nil>
	// 2.3 kN: -1.4 m <nil>
}

// J. M. Gere, Mechanics of Materials, 7th edition, problem 2.7-12: a cord of 760 mm
// and 140 N/m between pegs 380 mm apart, pulled in the middle with 80 N, comes to
// 497.88 mm from the line between the pegs.
func ExampleSolveBridle() {
	rope := rode.Rope{Diameter: 0.01, Mass: 0.1, Density: 1140, Breaking: 1000, Stretch: rode.LinearStretch(280 * 0.38)}
	b := rode.Bridle{Rope: rope, Spread: 380 * units.Millimetre, Port: 380 * units.Millimetre, Starboard: 380 * units.Millimetre}
	st, err := rode.SolveBridle(b, rode.BridlePull{Horizontal: 80})
	fmt.Printf("%.2f mm, each half stretched by %.2f mm, %v\n", st.Forward.Millimetres(), st.Port.Stretch.Millimetres(), err)
	for _, sheer := range []float64{10, 30, 60} {
		st, err := rode.SolveBridle(b, rode.BridlePull{Horizontal: 80, Sheer: units.Degree.Scale(sheer)})
		fmt.Printf("rode %.0f° to port: port %.1f N, starboard %.1f N, %v\n", sheer, st.Port.Tension.Newtons(), st.Starboard.Tension.Newtons(), err)
	}
	// Output:
	// 497.88 mm, each half stretched by 152.91 mm, <nil>
	// rode 10° to port: port 36.1 N, starboard 49.3 N, <nil>
	// rode 30° to port: port 22.1 N, starboard 61.6 N, <nil>
	// rode 60° to port: port 0.8 N, starboard 79.3 N, <nil>
}

func ExampleHangBridle() {
	r, s, _, rope := lying()
	b := rode.Bridle{Rope: rope, Spread: 6 * units.Metre, Port: 9 * units.Metre, Starboard: 9 * units.Metre}
	for _, pull := range []units.Force{1000, 2300, 7200} {
		h, err := rode.HangBridle(r, s, b, pull, 0, 12*units.Metre)
		fmt.Printf("%.1f kN: ring %.2f m above the water and %.1f m ahead, each leg %.2f kN, %v\n",
			pull.Kilonewtons(), h.Ring.Metres(), h.Bridle.Forward.Metres(), h.Bridle.Port.Tension.Kilonewtons(), err)
	}
	// Output:
	// 1.0 kN: ring -2.36 m above the water and 7.5 m ahead, each leg 0.60 kN, <nil>
	// 2.3 kN: ring -1.24 m above the water and 8.2 m ahead, each leg 1.29 kN, <nil>
	// 7.2 kN: ring -0.49 m above the water and 8.7 m ahead, each leg 3.91 kN, <nil>
}

func ExampleSlackChain_Hang() {
	l, err := rode.SlackChain{
		Length: 12 * units.Metre, Apart: 8 * units.Metre, Above: 2.5 * units.Metre, Weight: units.LinearDensity(2.2 * 0.87).Weight(),
	}.Hang()
	fmt.Printf("lowest %.1f m below the hook, %.0f N on the hook, %v\n", l.Below.Metres(), l.AtHook.Newtons(), err)
	// Output:
	// lowest 2.7 m below the hook, 87 N on the hook, <nil>
}

func ExampleCraft_StrongPointLoad() {
	plover := rode.Craft{Hull: 11.9 * units.Metre, Waterline: 11.5 * units.Metre, Category: rode.Ocean, Mass: 9.4 * units.Tonne}
	for _, use := range []rode.StrongPoint{rode.ForAnchoring, rode.ForMooring, rode.Aft} {
		f, err := plover.StrongPointLoad(use)
		fmt.Printf("%v: %.1f kN %v\n", use, f.Kilonewtons(), err)
	}
	n, err := plover.StrongPoints()
	fmt.Println(n.Forward, "forward,", n.Aft, "aft", err)
	// Output:
	// anchoring: 44.9 kN <nil>
	// mooring: 36.6 kN <nil>
	// aft: 31.3 kN <nil>
	// 1 forward, 1 aft <nil>
}

func ExampleCraft_StrongPoints() {
	n, err := rode.Craft{Hull: 14 * units.Metre, Waterline: 13 * units.Metre, Category: rode.Offshore}.StrongPoints()
	fmt.Println(n.Forward, "forward,", n.Aft, "aft", err)
	// Output:
	// 2 forward, 2 aft <nil>
}

func ExampleCraft_CheckCleat() {
	plover := rode.Craft{Hull: 11.9 * units.Metre, Waterline: 11.5 * units.Metre, Category: rode.Ocean}
	rope, err := rode.RopeByName("polyamide eight-strand 20 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := plover.CheckCleat(rode.ForAnchoring, 12*units.Kilonewton, 40*units.Kilonewton, rope)
	fmt.Printf("%.0f %% of the strength, %.0f %% of the rule, %v\n", 100*c.OfStrength, 100*c.OfRule, err)
	for _, p := range c.Problems {
		fmt.Println(p)
	}
	// Output:
	// 30 % of the strength, 27 % of the rule, <nil>
	// the cleat's strength of 40.0 kN is less than the 44.9 kN that the rule asks for anchoring
	// the rope breaks at 203 % of what holds it, more than 80 %: it may take the cleat with it
}

func ExampleEyeSpliceTucks() {
	n, err := rode.EyeSpliceTucks("polyamide")
	fmt.Println(n, err)
	// Output: 4 <nil>
}

func ExampleShortSpliceTucks() {
	n, err := rode.ShortSpliceTucks("manila")
	fmt.Println(n, err)
	// Output: 6 <nil>
}

func ExampleSpliceTail() {
	tail, err := rode.SpliceTail(14 * units.Millimetre)
	fmt.Printf("%.0f mm %v\n", tail.Millimetres(), err)
	// Output: 84 mm <nil>
}

func ExampleSpliceTaperTail() {
	tail, err := rode.SpliceTaperTail(10 * units.Millimetre)
	fmt.Printf("%.0f mm %v\n", tail.Millimetres(), err)
	// Output: 60 mm <nil>
}

func ExampleSpliceFactor() {
	f, err := rode.SpliceFactor("eight-strand")
	fmt.Println(f, err)
	// Output: 0.9 <nil>
}

func ExampleKnotFactor() {
	f, err := rode.KnotFactor("bowline")
	fmt.Println(f, err)
	// Output: 0.63 <nil>
}

func ExampleEyeAngle() {
	for _, eye := range []units.Length{1.5, 3, 5} {
		a, err := rode.EyeAngle(eye, 1)
		fmt.Printf("%.1f times the post: %.1f° %v\n", eye.Metres(), a.Degrees(), err)
	}
	// Output:
	// 1.5 times the post: 60.0° <nil>
	// 3.0 times the post: 23.1° <nil>
	// 5.0 times the post: 12.8° <nil>
}

func ExampleEyeLengthFor() {
	l, err := rode.EyeLengthFor(90*units.Millimetre, 16*units.Millimetre)
	fmt.Printf("at least %.0f mm, better %.0f mm, %v\n", l.Least.Millimetres(), l.Good.Millimetres(), err)
	// Output: at least 270 mm, better 450 mm, <nil>
}

func ExampleCleat_EyeLength() {
	l, err := rode.Cleat{Horns: 250 * units.Millimetre, Thick: 25 * units.Millimetre, Base: 100 * units.Millimetre}.EyeLength()
	fmt.Printf("%.0f mm %v\n", l.Millimetres(), err)
	// Output: 275 mm <nil>
}

func ExampleEyeSplice_Allowance() {
	_, _, _, rope := lying()
	a, err := rode.EyeSplice{Rope: rope, Eye: 450 * units.Millimetre, Round: 90 * units.Millimetre}.Allowance()
	fmt.Printf("%.0f mm round the eye, %.0f mm for tucks, %.0f mm more than the finished length, %v\n",
		a.Around.Millimetres(), a.Tail.Millimetres(), a.Extra.Millimetres(), err)
	// Output:
	// 983 mm round the eye, 320 mm for tucks, 853 mm more than the finished length, <nil>
}

func ExampleEyeSplice_MidlineAllowance() {
	_, _, _, rope := lying()
	a, err := rode.EyeSplice{Rope: rope, Eye: 150 * units.Millimetre, Round: 40 * units.Millimetre}.MidlineAllowance()
	fmt.Printf("%.0f mm round the eye, %.0f mm for the passes, %.0f mm to add, %v\n",
		a.Around.Millimetres(), a.Tail.Millimetres(), a.Extra.Millimetres(), err)
	// Output:
	// 354 mm round the eye, 64 mm for the passes, 118 mm to add, <nil>
}

func ExampleThimble_FitsRope() {
	t := rode.Thimble{Name: "16 mm", Groove: 17 * units.Millimetre}
	fmt.Println(t.FitsRope(16 * units.Millimetre))
	fmt.Println(t.FitsRope(12 * units.Millimetre))
	// Output:
	// <nil>
	// rode: does not fit: diameter is 12 mm, want from 13.6 mm to 17 mm for thimble 16 mm
}

func ExampleThimble_Eye() {
	_, _, _, rope := lying()
	t := rode.Thimble{Name: "16 mm", Groove: 17 * units.Millimetre, Width: 28 * units.Millimetre, Length: 46 * units.Millimetre, Wall: 3 * units.Millimetre}
	a, err := t.Eye(rope).Allowance()
	fmt.Printf("%.0f mm %v\n", a.Extra.Millimetres(), err)
	// Output:
	// 433 mm <nil>
}

func ExampleShackle_FitsChain() {
	chain, err := rode.ChainByName("DIN 766 10 mm G40")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(rode.Shackle{Name: "10 mm", Pin: 11 * units.Millimetre, Gape: 20 * units.Millimetre}.FitsChain(chain))
	fmt.Println(rode.Shackle{Name: "16 mm", Pin: 18 * units.Millimetre, Gape: 32 * units.Millimetre}.FitsChain(chain))
	// Output:
	// <nil>
	// rode: does not fit: Shackle.Pin is 18 mm, want at most the width inside a link of DIN 766 10 mm G40, 16 mm
}

func ExampleShackle_FitsThimble() {
	t := rode.Thimble{Name: "16 mm", Width: 28 * units.Millimetre, Thick: 24 * units.Millimetre}
	fmt.Println(rode.Shackle{Name: "10 mm", Body: 10 * units.Millimetre, Inside: 28 * units.Millimetre}.FitsThimble(t))
	// Output: <nil>
}

func ExampleChooseShackle() {
	chain, err := rode.ChainByName("DIN 766 10 mm G40")
	if err != nil {
		fmt.Println(err)
		return
	}
	mm := func(x float64) units.Length { return units.Millimetre.Scale(x) }
	t := rode.Thimble{Name: "16 mm", Width: mm(28), Thick: mm(24)}
	s, err := rode.ChooseShackle([]rode.Shackle{
		{Name: "8 mm", Pin: mm(9), Gape: mm(16), Body: mm(8), Inside: mm(24), Working: 6 * units.Kilonewton},
		{Name: "10 mm", Pin: mm(11), Gape: mm(20), Body: mm(10), Inside: mm(28), Working: 10 * units.Kilonewton},
	}, chain, t, 9*units.Kilonewton)
	fmt.Println(s.Name, err)
	// Output: 10 mm <nil>
}

func ExampleFlatSleeve() {
	d, err := rode.FlatSleeve(40 * units.Millimetre)
	fmt.Printf("%.1f mm %v\n", d.Millimetres(), err)
	// Output: 25.5 mm <nil>
}

func ExampleNeedSleeve() {
	n, err := rode.NeedSleeve(16 * units.Millimetre)
	fmt.Printf("over the rope %.1f mm, over a splice %.1f mm, over an eye %.1f mm, %v\n",
		n.OverRope.Millimetres(), n.OverSplice.Millimetres(), n.OverEye.Millimetres(), err)
	// Output:
	// over the rope 17.6 mm, over a splice 24.9 mm, over an eye 28.8 mm, <nil>
}

func ExampleChooseSleeve() {
	stock := []rode.Sleeve{{Name: "20 mm hose", Inside: 20 * units.Millimetre}, {Name: "32 mm hose", Inside: 32 * units.Millimetre}}
	s, err := rode.ChooseSleeve(stock, 16*units.Millimetre, rode.OverSplice)
	fmt.Println(s.Name, err)
	_, err = rode.ChooseSleeve(stock[:1], 16*units.Millimetre, rode.OverSplice)
	fmt.Println(err)
	// Output:
	// 32 mm hose <nil>
	// rode: does not fit: stock is 20 mm hose, which passes over the rope but only before the splice is made, want at least 24.9 mm inside
}

func ExampleFairlead_Sleeve() {
	p, err := rode.Fairlead{
		Inboard: 1.8 * units.Metre, Contact: 60 * units.Millimetre, Margin: 150 * units.Millimetre, Strain: 0.15,
	}.Sleeve()
	fmt.Printf("from %.2f m to %.2f m from the cleat, %.2f m long, %v\n", p.From.Metres(), p.To.Metres(), p.Length.Metres(), err)
	// Output:
	// from 1.39 m to 1.98 m from the cleat, 0.59 m long, <nil>
}

func ExampleSecureAnchor() {
	l, err := rode.SecureAnchor(33*units.Kilogram, rode.BowMotion{
		Vertical: 2 * units.StandardGravity, Ahead: 1 * units.StandardGravity, Pitch: 25 * units.Degree, Heel: 40 * units.Degree,
	})
	fmt.Printf("lift %.0f N, ahead %.0f N, aside %.0f N: hold %.0f N, %v\n",
		l.Lift.Newtons(), l.Ahead.Newtons(), l.Aside.Newtons(), l.Hold.Newtons(), err)
	// Output:
	// lift 324 N, ahead 460 N, aside 208 N: hold 647 N, <nil>
}

func ExampleLashingLoad() {
	f, err := rode.LashingLoad(650*units.Newton, 4, 40*units.Degree)
	fmt.Printf("%.0f N %v\n", f.Newtons(), err)
	// Output: 212 N <nil>
}

func ExamplePinShear() {
	p, err := rode.PinShear(650*units.Newton, 8*units.Millimetre)
	fmt.Printf("%.1f MPa %v\n", p.Megapascals(), err)
	// Output: 6.5 MPa <nil>
}

// By hand: 8 turns of 82.3 mm + 6.3 mm are 708 mm, two frapping turns of 32 mm +
// 32 mm + 6.3 mm are 141 mm, and the ends 300 mm: 1.15 m.
func ExampleSeizingTwine() {
	l, err := rode.SeizingTwine(16*units.Millimetre, 2*units.Millimetre, 8)
	fmt.Printf("%.2f m %v\n", l.Metres(), err)
	// Output:
	// 1.15 m <nil>
}

func ExampleBitterEndLashing() {
	cord, err := rode.RopeByName("polyester three-strand 8 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	l, err := rode.BitterEndLashing(15*units.Kilonewton, cord, 1.2*units.Metre)
	fmt.Printf("%d turns, %.1f kN, %.1f m of cord, %v\n", l.Turns, l.Strength.Kilonewtons(), l.Cord.Metres(), err)
	// Output:
	// 2 turns, 21.2 kN, 5.1 m of cord, <nil>
}

func ExampleCutList_Shopping() {
	_, _, _, rope := lying()
	cleat := rode.EyeSplice{Rope: rope, Eye: 300 * units.Millimetre, Round: 100 * units.Millimetre}
	list := rode.CutList{
		Ropes:   []rode.CutRope{{Name: "bridle leg", Rope: rope, Count: 2, Finished: 9 * units.Metre, Eyes: []rode.EyeSplice{cleat}, Tail: 2 * units.Metre, Step: 1 * units.Metre}},
		Lengths: []rode.CutLength{{Name: "32 mm hose", Each: 0.7 * units.Metre, Count: 2, Why: "sleeves at the fairleads", Step: 0.5 * units.Metre}},
		Parts:   []rode.CutPart{{Name: "16 mm thimble", Count: 2, Why: "the ring"}},
	}
	s, err := list.Shopping()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range s.Cuts {
		fmt.Printf("cut %d x %.2f m of %s for %s\n", c.Count, c.Length.Metres(), c.Material, c.Name)
		for _, a := range c.Allowances {
			fmt.Printf("  %.2f m: %s\n", a.Length.Metres(), a.Why)
		}
	}
	for _, b := range s.Buy {
		if b.Count > 0 {
			fmt.Printf("buy %d of %s\n", b.Count, b.Name)
		} else {
			fmt.Printf("buy %.1f m of %s\n", b.Length.Metres(), b.Name)
		}
	}
	// Output:
	// cut 2 x 11.72 m of polyamide eight-strand 16 mm for bridle leg
	//   0.40 m: the way back of an eye 300 mm long round 100 mm
	//   0.32 m: tucks or bury, and to cut off
	//   2.00 m: to make fast
	// cut 2 x 0.70 m of 32 mm hose for sleeves at the fairleads
	// buy 24.0 m of polyamide eight-strand 16 mm
	// buy 1.5 m of 32 mm hose
	// buy 2 of 16 mm thimble
}

// Where does the energy of a rode sit: in lifted chain or in stretched rope?
func ExamplePieceEnergy_Total() {
	r, s, _, rope := lying()
	snubbed, err := r.Snub(rode.Snubber{Rope: rope, Length: 10 * units.Metre})
	if err != nil {
		fmt.Println(err)
		return
	}
	sv, err := rode.NewSolver(snubbed, s)
	if err != nil {
		fmt.Println(err)
		return
	}
	var st rode.State
	if err := sv.Solve(&st, 5*units.Kilonewton); err != nil {
		fmt.Println(err)
		return
	}
	e, err := sv.Energy(&st)
	for i, p := range e.Pieces {
		fmt.Printf("%s: %.0f J lifted and %.0f J stretched, %.0f J\n", st.Pieces[i].Name, p.Lifting.Joules(), p.Stretching.Joules(), p.Total().Joules())
	}
	fmt.Println(err)
	// Output:
	// DIN 766 10 mm G40 chain: 1780 J lifted and 53 J stretched, 1833 J
	// snubber, polyamide eight-strand 16 mm: 19 J lifted and 1695 J stretched, 1715 J
	// <nil>
}

// Of three lengths of one rope, which stays within what bow and rope may see?
func ExampleSnubberOption_Holds() {
	r, s, g, rope := lying()
	options, err := rode.CompareSnubbers(r, s, g, rode.SnubberLimits{Bow: 12 * units.Kilonewton, OfBreaking: 0.25},
		[]rode.Snubber{{Rope: rope, Length: 5, Legs: 2}, {Rope: rope, Length: 15, Legs: 2}, {Rope: rope, Length: 25, Legs: 2}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range options {
		fmt.Printf("%v: %.1f kN, %.2f of the limit, holds %t\n", o.Snubber.Length, o.Peak.Peak.Tension.Kilonewtons(), o.OfLimit, o.Holds())
	}
	// Output:
	// 5 m: 18.5 kN, 1.54 of the limit, holds false
	// 15 m: 13.4 kN, 1.12 of the limit, holds false
	// 25 m: 11.6 kN, 0.97 of the limit, holds true
}
