package main

func Example() {
	main()
	// Output:
	// depth  6.0 m, pull 0.5 kN: let out 22.7 m, scope 3.0, roller to anchor 21 m
	// depth  6.0 m, pull 1.3 kN: let out 32.6 m, scope 4.4, roller to anchor 32 m
	// depth  6.0 m, pull 2.5 kN: let out 41.0 m, scope 5.5, roller to anchor 40 m
	// depth  6.0 m, pull 4.1 kN: let out 47.9 m, scope 6.4, roller to anchor 48 m
	// depth  9.1 m, pull 0.5 kN: let out 28.2 m, scope 2.7, roller to anchor 26 m
	// depth  9.1 m, pull 1.3 kN: let out 40.6 m, scope 3.8, roller to anchor 39 m
	// depth  9.1 m, pull 2.5 kN: let out 52.0 m, scope 4.9, roller to anchor 51 m
	// depth  9.1 m, pull 4.1 kN: let out 62.3 m, scope 5.9, roller to anchor 63 m
	// 47.9 m let out at low water pulls the anchor at 8.8° at high water
}
