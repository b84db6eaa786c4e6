package main

func Example() {
	main()
	// Output:
	// seam top: 1922.1 mm on one side, 1922.1 mm on the other
	// seam back: 330.0 mm on one side, 330.0 mm on the other
	// cord: 1922 mm round, and what the knot needs
	// cut 1 top, 0.272 m²
	// cut 1 wrap, 0.754 m²
	// cut 1 wrap, patch of latch, 0.014 m²
	// 15 m of thread of 90 tex, needle 120
	// the pattern is 1.99 m by 0.94 m
}
