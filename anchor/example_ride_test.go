package anchor_test

import (
	"context"
	"fmt"
	"log"

	"example.com/forepeak/anchor"
	"example.com/forepeak/units"
)

func ExampleGusts_Density() {
	w := anchor.Wind{Speed: 25 * units.Knot}
	for _, g := range []anchor.Gusts{{Roughness: 0.05}, {Spectrum: anchor.Sea}} {
		for _, f := range []units.Frequency{0.001, 0.01, 0.1} {
			d, err := g.Density(w, f)
			if err != nil {
				log.Fatal(err)
			}
			fmt.Printf("%v %v Hz: %.3g m²/s² per hertz\n", g.Spectrum, f.Hertz(), d)
		}
	}
	// Output:
	// land 0.001 Hz: 181 m²/s² per hertz
	// land 0.01 Hz: 100 m²/s² per hertz
	// land 0.1 Hz: 9.91 m²/s² per hertz
	// sea 0.001 Hz: 159 m²/s² per hertz
	// sea 0.01 Hz: 33 m²/s² per hertz
	// sea 0.1 Hz: 2.56 m²/s² per hertz
}

func ExampleGusts_Deviation() {
	w := anchor.Wind{Speed: 25 * units.Knot}
	for _, g := range []anchor.Gusts{{Spectrum: anchor.Sea}, {Roughness: 0.01}, {Roughness: 0.3}, {Intensity: 0.4}} {
		s, err := g.Deviation(w)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%v, roughness %v: 25 kn ± %.1f kn\n", g.Spectrum, g.Roughness, s.Knots())
	}
	// Output:
	// sea, roughness 0 m: 25 kn ± 2.7 kn
	// land, roughness 0.01 m: 25 kn ± 3.6 kn
	// land, roughness 0.3 m: 25 kn ± 7.0 kn
	// land, roughness 0 m: 25 kn ± 9.9 kn
}

func ExampleUnderwater_AddedMass() {
	m, err := grebeBelow.AddedMass(anchor.Current{Depth: 6})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("a boat of %.1f t carries %.1f t of water along, %.1f t across and %.0f t m² in yaw\n",
		grebeBelow.Mass.Tonnes(), m.Along.Tonnes(), m.Across.Tonnes(), float64(m.Yaw)/1000)
	// Output:
	// a boat of 6.0 t carries 0.6 t of water along, 11.7 t across and 54 t m² in yaw
}

func ExampleRide_Simulate() {
	r := dunlin(8) // an invented cutter on 35 m of chain and 8 m of snubber in 25 kn
	r.Duration = 600
	res, err := r.Simulate(context.Background(), nil)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("steady wind %.1f kN, mean %.1f kN, significant %.0f kN, peak %.0f kN\n",
		res.Static.Kilonewtons(), res.Bow.Mean.Kilonewtons(), res.Bow.Significant.Kilonewtons(), res.Bow.Peak.Kilonewtons())
	fmt.Printf("she sheers to %.0f° and the chain can follow: %t\n", res.Sheer.Degrees(), res.Trusted)
	// Output:
	// steady wind 0.7 kN, mean 0.7 kN, significant 2 kN, peak 3 kN
	// she sheers to 19° and the chain can follow: false
}

func ExampleRide_Realise() {
	r := dunlin(8)
	r.Duration, r.Settle, r.Waves.Height = 300, 60, 0.1
	for _, length := range []units.Length{4, 8, 16} {
		r.Rode.Pieces[1].Length = length
		e, err := r.Realise(context.Background(), 12, nil)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%2.0f m of snubber: %.1f kN expected in 5 min, nine times in ten under %.0f kN\n",
			length.Metres(), e.Expected.Kilonewtons(), e.Bow.Load.Kilonewtons())
	}
	// Output:
	// 4 m of snubber: 3.3 kN expected in 5 min, nine times in ten under 4 kN
	//  8 m of snubber: 2.6 kN expected in 5 min, nine times in ten under 3 kN
	// 16 m of snubber: 2.1 kN expected in 5 min, nine times in ten under 3 kN
}

func ExampleFitGumbel() {
	// The greatest loads of twelve hours.
	peaks := []units.Force{4100, 3650, 5200, 3900, 4480, 3720, 4020, 4900, 3580, 4260, 6010, 3840}
	g, err := anchor.FitGumbel(peaks)
	if err != nil {
		log.Fatal(err)
	}
	q, err := g.Quantile(0.9)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("mode %.2f kN, scale %.2f kN; nine hours in ten stay under %.1f kN (%.1f to %.1f)\n",
		g.Mode.Kilonewtons(), g.Scale.Kilonewtons(), q.Load.Kilonewtons(), q.Low.Kilonewtons(), q.High.Kilonewtons())
	// Output:
	// mode 4.00 kN, scale 0.47 kN; nine hours in ten stay under 5.1 kN (4.5 to 5.6)
}
