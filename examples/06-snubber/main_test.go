package main

func Example() {
	main()
	// Output:
	// chain alone: the boat brings 1565 J and runs back 0.21 m, peak 22.2 kN at the bow
	//
	// 8 m of    peak     of breaking  stretch  of the energy  length wanted
	// 10 mm    6.4 kN      37 %      1.37 m        90 %          18.4 m
	// 12 mm    6.7 kN      27 %      1.09 m        89 %           5.6 m
	// 14 mm    7.1 kN      21 %      0.90 m        87 %           5.5 m
	// 18 mm    7.9 kN      14 %      0.65 m        83 %           7.7 m
	// 24 mm    9.2 kN       9 %      0.44 m        78 %          12.4 m
	//
	// 5.5 m of 14 mm: hook 0.2 m below the water at rest; leave more than 6.1 m of chain slack
	// sleeve from 0.93 m to 1.34 m from the cleat
}
