package main

func Example() {
	main()
	// Output:
	// chain alone: the boat brings 1565 J and runs back 0.21 m, peak 22.2 kN at the bow
	//
	// 8 m of    peak     of breaking  stretch  of the energy  length wanted
	// 10 mm    6.8 kN      39 %      0.88 m        87 %          23.1 m
	// 12 mm    7.5 kN      30 %      0.68 m        84 %           8.0 m
	// 14 mm    8.2 kN      24 %      0.54 m        81 %           8.8 m
	// 18 mm    9.5 kN      17 %      0.39 m        76 %          14.1 m
	// 24 mm   11.4 kN      11 %      0.26 m        68 %          24.2 m
	//
	// 8.8 m of 14 mm: hook 0.9 m below the water at rest; leave more than 9.7 m of chain slack
	// sleeve from 0.94 m to 1.34 m from the cleat
}
