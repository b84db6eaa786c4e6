package main

func Example() {
	main()
	// Output:
	// 1. Six tapes. Corners, from A along A-B and square to it:
	//    A at    0.0,    0.0 mm, each good to about 0.0, 0.0 mm
	//    B at 2999.6,    0.0 mm, each good to about 0.9, 0.0 mm
	//    C at 3008.5, 1999.7 mm, each good to about 1.1, 1.0 mm
	//    D at   -1.1, 1989.7 mm, each good to about 1.2, 1.0 mm
	//    Advice: the readings agree
	// 2. The same with C-D misread by 50 mm.
	//    Advice: the readings do not fit a flat figure: a tape is misread or the frame is warped, and these readings cannot tell which; measure the gap between two strings crossed along the diagonals, or the corners' heights above a flat plane
	// 3. A frame that is warped. As a flat one, it does not fit
	//    With the gap between two strings, it fits: D stands 301 mm out of the plane of A, B and C
	// 4. Five corners, all ten distances, one of them wrong.
	//    Advice: read B-D again: without it the rest agrees, and it seems 99 mm too long
}
