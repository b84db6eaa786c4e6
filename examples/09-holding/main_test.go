package main

func Example() {
	main()
	// Output:
	// 16 kg of hinged plates hold    when pulled level    at 8° above the bed
	//   stiff, dense clay           2.4 kN to  9.4 kN     1.6 kN to  9.3 kN
	//   firm sand                   1.6 kN to  6.3 kN     1.1 kN to  6.2 kN
	//   sticky clay                 1.0 kN to  4.1 kN     0.7 kN to  4.1 kN
	//   soft mud                    0.5 kN to  2.1 kN     0.3 kN to  2.0 kN
	//   coarse, loose sand          0.5 kN to  2.1 kN     0.3 kN to  2.0 kN
	//   gravel                      0.5 kN to  2.1 kN     0.3 kN to  2.0 kN
	//   rock                        0.0 kN to  0.0 kN     0.0 kN to  0.0 kN
	// astern at 15 kW the anchor held 1.3 kN at least
	//   1.3 kN is a steady wind of 33 kn from ahead
	//   2.1 kN is a steady wind of 42 kn from ahead
	// a code for small vessels asks for 13 kg on 8 mm chain
	// equipment number 15: too small a boat for the rule of ships
}
