package main

func Example() {
	main()
	// Output:
	// 945 mm round it: a diameter of 299.8 mm
	// down to the deck, refused: canvas: gas would be held in: Clearance is 0 m, want 10 mm or more between the foot and the open lower edge
	// with a base, refused: canvas: gas would be held in: Vent is 0 m, want 0.019 m or more at the lowest point of a closed base, or no base at all
	// open below, 40 mm above the foot: the flat gores leave a round dome by 8.1 mm inwards and 4.1 mm outwards
	// seam upright  finished: 350.0 mm on one side, 350.0 mm on the other
	// seam gores    finished: 180.5 mm on one side, 180.5 mm on the other
	// seam top      finished: 979.6 mm on one side, 979.6 mm on the other
	// cut 1 of wall
	// cut 1 of wall, patch of hose, half 1
	// cut 1 of wall, patch of hose, half 2
	// cut 8 of gore
	// cut 1 of flap of hose
	// Printed on every piece: CAUTION, GAS: heavier than air, it gathers low down and explodes. Keep the lower edge and every vent open, stand the bottle where leaking gas runs overboard, turn the valve off after use, never cover a hot or leaking bottle. This cover is no fire protection. Local rules for gas on boats come first; have the installation checked by someone licensed.
}
