package main

func Example() {
	main()
	// Output:
	// 16 kg in sand: 3.1 kN to 12.2 kN
	//   pulled at  5° above the bed 2.6 kN to 12.2 kN
	//   pulled at 10° above the bed 2.2 kN to 12.0 kN
	// 16 kg in mud: 1.1 kN to 4.3 kN
	//   pulled at  5° above the bed 0.9 kN to 4.3 kN
	//   pulled at 10° above the bed 0.8 kN to 4.2 kN
	// astern at 15 kW the anchor held 1.3 kN at least
	//   1.3 kN is a steady wind of 33 kn from ahead
	//   2.1 kN is a steady wind of 42 kn from ahead
	// a code for small vessels asks for 13 kg on 8 mm chain
	// equipment number 15, too small for the rule of ships: true
}
