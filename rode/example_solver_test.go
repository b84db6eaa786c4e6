package rode_test

import (
	"errors"
	"fmt"
	"log"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// A solver is checked once and asked many times; the State is used again.
func ExampleSolver_Solve() {
	c, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		log.Fatal(err)
	}
	sv, err := rode.NewSolver(rode.Rode{Pieces: []rode.Piece{c.Piece(40)}}, rode.Site{Depth: 8, Roller: 1.45})
	if err != nil {
		log.Fatal(err)
	}
	var st rode.State
	for _, pull := range []units.Force{300, 600, 1200, 2400} {
		if err := sv.Solve(&st, pull); err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%4.0f N: %2.0f m away, %2.0f m on the bed, %4.1f° at the anchor\n",
			pull.Newtons(), st.Distance.Metres(), st.OnBed.Metres(), st.Anchor.FromBed.Degrees())
	}
	// Output:
	// 300 N: 37 m away, 16 m on the bed,  0.0° at the anchor
	//  600 N: 38 m away,  8 m on the bed,  0.0° at the anchor
	// 1200 N: 39 m away,  0 m on the bed,  2.8° at the anchor
	// 2400 N: 39 m away,  0 m on the bed,  8.2° at the anchor
}

// Half a metre nearer to the taut rode the pull has nearly doubled, and a pull that is
// told from a measured distance is so much less certain: see Condition.
func ExampleSolver_SolveDistance() {
	sv, err := rode.NewSolver(rode.Rode{Pieces: []rode.Piece{chain(40)}}, rode.Site{Depth: 8, Roller: 1.45})
	if err != nil {
		log.Fatal(err)
	}
	var st rode.State
	for _, d := range []units.Length{30, 36, 38, 38.5} {
		if err := sv.SolveDistance(&st, d); err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%.1f m: %4.0f N, %3.0f N/m, condition %.0f, slack %.1f m\n",
			d.Metres(), st.Pull.Newtons(), st.Stiffness.NewtonsPerMetre(), st.Condition, st.Slack.Metres())
	}
	// Output:
	// 30.0 m:    0 N,   0 N/m, condition 0, slack 0.6 m
	// 36.0 m:  107 N,  69 N/m, condition 23, slack 0.0 m
	// 38.0 m:  525 N, 554 N/m, condition 40, slack 0.0 m
	// 38.5 m:  952 N, 1291 N/m, condition 52, slack 0.0 m
}

func ExampleSolver_SolveTension() {
	sv, err := rode.NewSolver(rode.Rode{Pieces: []rode.Piece{chain(40)}}, rode.Site{Depth: 8, Roller: 1.45})
	if err != nil {
		log.Fatal(err)
	}
	var st rode.State
	err = sv.SolveTension(&st, 1*units.Kilonewton)
	fmt.Printf("%.0f N of pull, %.0f° at the bow, %v\n", st.Pull.Newtons(), st.BowAngle.Degrees(), err)
	fmt.Println(sv.SolveTension(&st, 50)) // less than what hangs from the roller weighs
	// Output:
	// 885 N of pull, 28° at the bow, <nil>
	// rode: value not accepted: tension is 50 N, want at least the weight of the rode hanging straight down
}

// Nylon dry, wet, and wet after some seasons: what is left of its strength. At one
// load it stretches a little more when wet.
func ExampleRope_Used() {
	r, err := rode.RopeByName("polyamide three-strand 14 mm")
	if err != nil {
		log.Fatal(err)
	}
	used, err := r.Wet().Used(0.5)
	if err != nil {
		log.Fatal(err)
	}
	for _, r := range []rode.Rope{r, r.Wet(), used} {
		e, err := r.Strain(4 * units.Kilonewton)
		fmt.Printf("breaks at %.1f kN, stretches %.0f %% under 4 kN %v\n", r.Breaking.Kilonewtons(), 100*e, err)
	}
	// Output:
	// breaks at 40.2 kN, stretches 8 % under 4 kN <nil>
	// breaks at 34.2 kN, stretches 9 % under 4 kN <nil>
	// breaks at 17.1 kN, stretches 9 % under 4 kN <nil>
}

// Rope that joins the chain on the wheel pays out differently.
func ExampleScale_Out() {
	s := rode.Scale{Chain: 33.5 * units.Centimetre, Splice: 40, Rope: 31 * units.Centimetre}
	for _, turns := range []float64{50, 119.4, 150} {
		out, _, err := s.Out(turns)
		if err != nil {
			log.Fatal(err)
		}
		back, err := s.Turns(out)
		fmt.Printf("%5.1f turns: %.2f m, which is %.1f turns %v\n", turns, out.Metres(), back, err)
	}
	// Output:
	// 50.0 turns: 16.75 m, which is 50.0 turns <nil>
	// 119.4 turns: 40.00 m, which is 119.4 turns <nil>
	// 150.0 turns: 49.49 m, which is 150.0 turns <nil>
}

// What can be wrong with a rode or a site is told once, before anything is solved.
func ExampleNewSolver() {
	_, err := rode.NewSolver(rode.Rode{Pieces: []rode.Piece{chain(40)}}, rode.Site{Depth: 8, Roller: 1.45, Friction: -1})
	var refused *rode.Error
	if errors.As(err, &refused) {
		fmt.Println(refused.Field, "is", refused.Value+", want", refused.Want)
	}
	// Output:
	// Friction is -1, want from 0 to 10
}

// All that can be let out.
func ExampleRode_Length() {
	r := rode.Rode{Pieces: []rode.Piece{chain(30), {Name: "rope", Kind: rode.OfRope, Length: 20, Mass: 0.121, Density: 1140}}}
	fmt.Println(r.Length())
	// Output:
	// 50 m
}

// Scope counts from the roller and not from the water.
func ExampleSite_Rise() {
	s := rode.Site{Depth: 6 * units.Metre, Roller: 1.45 * units.Metre}
	out := 30 * units.Metre
	fmt.Printf("%v above the anchor: scope %.1f, not %.1f\n", s.Rise(), s.Scope(out), out.Per(s.Depth))
	// Output:
	// 7.45 m above the anchor: scope 4.0, not 5.0
}
