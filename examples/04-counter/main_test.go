package main

func Example() {
	main()
	// Output:
	// the wheel pays out 33.6 cm a turn, the counter reads -1.8 %
	// when it shows 30 m, 30.9 m is out, from 30.2 to 31.6 m
	//   read standing: a lay of 97.3 m tells
	//   read at the change, end only: a lay of 23.3 m tells
	//   read at the change, both ends: a lay of 4.9 m tells
	//   read at the change, end only: 217.2 m of chain, lays: 11
	//   read at the change, both ends: 14.7 m of chain, lays: 1
	// set it to 33.50 cm; 95 in 100 such sets are right within 33.45 to 33.55
	// at 80 m shown, 79.8 to 81.0 m will be out
}
