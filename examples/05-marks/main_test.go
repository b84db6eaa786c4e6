package main

func Example() {
	main()
	// Output:
	// out, m  mark             count on  link  off, mm
	// 10.0    yellow           488       488   -2
	// 20.0    yellow + yellow  415       903   +8
	// 30.0    blue             414       1317  -6
	// 40.0    blue + blue      rope, 1.77 m beyond the splice
	// 50.0    white            rope, 11.77 m beyond the splice
	// 60.0    white + yellow   rope, 21.77 m beyond the splice
	// 70.0    white + blue     rope, 31.77 m beyond the splice
	// 80.0    white + white    rope, 41.77 m beyond the splice
	//
	// markers: 4 × yellow, 4 × blue, 5 × white
}
