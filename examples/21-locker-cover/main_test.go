package main

func Example() {
	main()
	// Output:
	// seam top  finished: 1922.1 mm on one side, 1922.1 mm on the other
	// seam back finished:  330.0 mm on one side,  330.0 mm on the other
	// cord: 1922 mm round, and what the knot needs; its ends come out through two eyelets in the hem, one on either side of the back seam
	// cut 1 of top,                  0.272 m²
	// cut 1 of wrap,                 0.754 m²
	// cut 1 of wrap, patch of latch, 0.014 m²
	// 16 m of thread of 90 tex; a needle of size 120
	// side by side the pieces take 1.99 m by 0.94 m of paper, or many sheets of A4
}
