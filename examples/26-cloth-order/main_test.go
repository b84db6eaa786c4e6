package main

func Example() {
	main()
	// Output:
	// new roll: 3 of the pieces on 2.33 m, 71 % of it used, no way below 2.25 m; 91.20
	//   cut 1: wrap, for the hatch
	//   cut 2: weather cloth, for the cockpit
	//   cut 3: weather cloth, mirrored, for the cockpit
	//   left to keep: 463 by 647 mm
	// last year's offcut: 1 of the pieces on 0.67 m, 77 % of it used, no way below 0.67 m; 5.00
	//   cut 1: top, for the hatch
	//   left to keep: 230 by 700 mm
	// the order costs 96.20; nothing below 87.40 is possible
	// checked against panels and rolls: all there, none overlaps, none on the stain
}
