package main

func Example() {
	main()
	// Output:
	// A:    0.0,    0.0 mm, sure to 0.0, 0.0 mm
	// B: 2999.6,    0.0 mm, sure to 0.9, 0.0 mm
	// C: 3008.5, 1999.7 mm, sure to 1.1, 1.0 mm
	// D:   -1.1, 1989.7 mm, sure to 1.2, 1.0 mm
	// the readings agree
	// the readings do not fit a flat figure: a tape is misread or the frame is warped, and these readings cannot tell which; measure the gap between two strings crossed along the diagonals, or the corners' heights above a flat plane
	// false
	// true: D stands 301 mm out of the plane of A, B and C
	// read B-D again: without it the rest agrees, and it seems 99 mm too long
}
