package main

func Example() {
	main()
	// Output:
	// greatest load in 15 min   mean  9 of 10 below           lift sheer snatch
	// 35 m chain             8.3 kN  13.0 kN (10.6 to 15.4)  10°  36°  0.5
	// with 3 m of snubber    4.4 kN   6.4 kN ( 5.4 to  7.4)   8°  37°  0.4
	// with 6 m of snubber    3.5 kN   4.9 kN ( 4.2 to  5.6)   6°  41°  0.5
	// with 12 m of snubber   3.1 kN   4.0 kN ( 3.5 to  4.4)   4°  34°  0.5
	// 15 m chain, 25 m rope  2.7 kN   3.2 kN ( 3.0 to  3.5)   7°  33°  0.5
	// 6 m and a riding sail  3.8 kN   4.9 kN ( 4.3 to  5.5)   7°  30°  0.5
	// Beyond a snatch of 0.3 inertia and drag of the chain add to the loads: see RideResult.Snatch.
}
