package main

func Example() {
	main()
	// Output:
	// 0.9 kN, rode  0° to port: port leg 0.54 kN, starboard 0.54 kN; ring 2.9 m below the water
	// 0.9 kN, rode 20° to port: port leg 0.08 kN, starboard 0.96 kN; ring 3.1 m below the water
	// 0.9 kN, rode 40° to port: port leg 0.00 kN, starboard 1.02 kN; ring 3.1 m below the water
	// 2.3 kN, rode  0° to port: port leg 1.29 kN, starboard 1.29 kN; ring 1.6 m below the water
	// 2.3 kN, rode 20° to port: port leg 0.18 kN, starboard 2.29 kN; ring 1.8 m below the water
	// 2.3 kN, rode 40° to port: port leg 0.00 kN, starboard 2.43 kN; ring 1.8 m below the water
	// 7.2 kN, rode  0° to port: port leg 3.90 kN, starboard 3.90 kN; ring 0.9 m below the water
	// 7.2 kN, rode 20° to port: port leg 1.01 kN, starboard 6.57 kN; ring 1.0 m below the water
	// 7.2 kN, rode 40° to port: port leg 0.00 kN, starboard 7.39 kN; ring 1.0 m below the water
	//
	// each cleat: 15 % of its strength, 17 % of the rule's load
	// but the rope breaks at 104 % of what holds it, more than 80 %: it may take the cleat with it
	//
	// buy 23.0 m of polyamide eight-strand 16 mm: 2 x 11.34 m for legs
	// buy 1.5 m of 32 mm hose: 2 x 0.60 m for sleeves at the fairleads
	// buy 2 16 mm thimble: 2 for the ring
	// buy 1 ring of 12 mm, 70 mm inside, working load 8 kN or more: 1 for legs to shackle
	// buy 1 10 mm shackle: 1 for ring to chain
}
