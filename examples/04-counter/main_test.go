package main

func Example() {
	main()
	// Output:
	// the wheel pays out 33.6 cm a turn, the counter reads -1.8 %
	// when it shows 30 m, 30.9 m is out, from 30.2 to 31.6 m
	// to tell 33.0 from 33.6 cm, lay out on a quay:
	//   97.3 m, read standing
	//   23.3 m, read at the change, end only
	//   4.9 m, read at the change, both ends
	// to set it within 1 mm a turn, lay out in all:
	//   217.2 m, lays: 11, read at the change, end only
	//   14.7 m, lays: 1, read at the change, both ends
	// set it to 33.50 cm; 95 in 100 such sets are right within 33.45 to 33.55
	// at 80 m shown, 79.8 to 81.0 m will be out
}
