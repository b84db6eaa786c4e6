package main

func Example() {
	main()
	// Output:
	// now     20:00: 6.7 m deep, 4.2 m under the keel in a trough, scope 4.3, 0.6 kN at the bow
	// lowest  00:05: 3.7 m deep, 1.2 m under the keel in a trough, scope 6.8, 0.6 kN at the bow
	// highest 06:20: 7.7 m deep, 5.2 m under the keel in a trough, scope 3.8, 1.0 kN at the bow
	// worst   05:00: 7.3 m deep, 4.8 m under the keel in a trough, scope 4.0, 1.7 kN at the bow
	// let out 35.0 m; the stern stays within 45 m, ledge inside it stands 0.6 m high
	// set the anchor alarm to 61 m, or to 52 m once its mark is moved to the anchor
	// closer in she grounds: anchor: not enough water under the keel: clearance over the ledge at 2030-05-18 00:05 is -0.21 m, want at least 0.3 m
}
