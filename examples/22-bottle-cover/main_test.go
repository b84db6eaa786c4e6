package main

func Example() {
	main()
	// Output:
	// diameter 299.8 mm
	// canvas: gas would be held in: Clearance is 0 m, want 10 mm or more between the foot and the open lower edge
	// canvas: gas would be held in: Vent is 0 m, want 0.019 m or more at the lowest point of a closed base, or no base at all
	// the flat gores leave a round dome by 8.1 mm inwards and 4.1 mm outwards
	// seam upright: 350.0 mm, 350.0 mm
	// seam gores: 180.5 mm, 180.5 mm
	// seam top: 979.6 mm, 979.6 mm
	// cut 1 wall
	// cut 1 wall, patch of hose, half 1
	// cut 1 wall, patch of hose, half 2
	// cut 8 gore
	// CAUTION, GAS: heavier than air, it gathers low down and explodes. Keep the lower edge and every vent open, stand the bottle where leaking gas runs overboard, turn the valve off after use, never cover a hot or leaking bottle. This cover is no fire protection. Local rules for gas on boats come first; have the installation checked by someone licensed.
}
