package main

func Example() {
	main()
	// Output:
	// greatest load in 15 min   mean  9 of 10 below           lift sheer snatch    (lift: of the pull at the anchor)
	// 35 m chain             1.4 kN   1.8 kN ( 1.6 to  2.1)   7°  20°  0.25
	// with 3 m of snubber    1.3 kN   1.6 kN ( 1.4 to  1.7)   3°  19°  0.23
	// with 6 m of snubber    1.2 kN   1.5 kN ( 1.3 to  1.6)   0°  19°  0.21
	// with 12 m of snubber   1.2 kN   1.4 kN ( 1.3 to  1.5)   0°  18°  0.18
	// 15 m chain, 25 m rope  1.2 kN   1.4 kN ( 1.3 to  1.5)   4°  19°  0.20
	// 6 m and a riding sail  1.3 kN   1.6 kN ( 1.5 to  1.8)   1°  12°  0.22
	// 22 knots off low hills, and more sea:
	// 6 m and a riding sail  3.8 kN   5.0 kN ( 4.4 to  5.6)   7°  30°  0.51  do not rely on it
	// Beyond a snatch of 0.3 inertia and drag of the chain add to the loads: see RideResult.Snatch.
}
