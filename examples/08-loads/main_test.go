package main

func Example() {
	main()
	// Output:
	// gusts of 30 s are 1.26 times the mean
	// mean 15 kn, gust 19 kn: 0.33 kN to 0.60 kN, sheered by 30° about 0.53 kN
	// mean 25 kn, gust 32 kn: 0.91 kN to 1.65 kN, sheered by 30° about 1.46 kN
	// mean 35 kn, gust 44 kn: 1.78 kN to 3.24 kN, sheered by 30° about 2.87 kN
	// waves of 0.5 m push with 74 N to 527 N and take her 0.11 m to and fro
	// the loads of ABYC H-40, in its row of 40 ft: lunch 1.3 kN, working 5.3 kN, storm 10.7 kN
}
