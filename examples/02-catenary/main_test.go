package main

func Example() {
	main()
	// Output:
	//   pull  tension  distance  on the bed  angle at the anchor
	// 0.0 kN  0.09 kN   32.55 m      32.6 m       0.0°
	// 0.2 kN  0.29 kN   37.80 m      22.5 m       0.0°
	// 0.5 kN  0.59 kN   38.56 m      13.9 m       0.0°
	// 1.0 kN  1.09 kN   38.97 m       3.9 m       0.0°
	// 2.0 kN  2.10 kN   39.22 m       0.0 m       4.1°
	// 4.0 kN  4.13 kN   39.31 m       0.0 m       7.4°
	// the anchor begins to be lifted at 1.24 kN
	// at 39.00 m from the anchor the pull is  1.06 kN
	// at 39.20 m from the anchor the pull is  1.78 kN
	// at 39.25 m from the anchor the pull is  2.32 kN
	// at 39.30 m from the anchor the pull is  3.64 kN
	//  0.0 m of chain:  0.00 m out, 0.00 m up, 1000 N
	//  3.9 m of chain:  3.92 m out, 0.00 m up, 1000 N
	// 12.0 m of chain: 11.98 m out, 0.39 m up, 1005 N
	// 20.1 m of chain: 19.96 m out, 1.54 m up, 1018 N
	// 28.1 m of chain: 27.80 m out, 3.43 m up, 1041 N
	// 36.2 m of chain: 35.45 m out, 6.00 m up, 1072 N
	// 40.0 m of chain: 38.97 m out, 7.45 m up, 1092 N
}
