package main

func Example() {
	main()
	// Output:
	// copper at  5 °C: 11.36 V at the motor, 100 A, 1986 rpm
	// copper at 20 °C: 11.32 V at the motor, 100 A, 1975 rpm
	// copper at 60 °C: 11.20 V at the motor, 100 A, 1946 rpm
	// 1.44 V of the bank's 12.64 V are lost on the way, with hot copper:
	//   bank                       0.36 V  25 %
	//   isolator +                 0.02 V   1 %
	//   lug 1 of cable to breaker  0.01 V   1 %
	//   cable to breaker           0.12 V   8 %
	//   lug 2 of cable to breaker  0.01 V   1 %
	//   breaker                    0.06 V   4 %
	//   lug 1 of cable forward     0.01 V   1 %
	//   cable forward              0.31 V  22 %
	//   lug 2 of cable forward     0.01 V   1 %
	//   solenoid haul +            0.03 V   2 %
	//   solenoid haul -            0.03 V   2 %
	//   lug 1 of cable back        0.01 V   1 %
	//   cable back                 0.43 V  30 %
	//   lug 2 of cable back        0.01 V   1 %
	//   isolator -                 0.02 V   1 %
	// with the engine running the bank gives 2.6 Ah and falls to 12.49 V
	//
	// the cables alone    cold    hot     metric formula          circular-mil formula
	//   50 mm², tinned    0.75 V  0.86 V  0.62 V, 17 % to 28 % low  0.68 V,  9 % to 21 % low
	//   50 mm², plain     0.73 V  0.85 V  0.62 V, 15 % to 27 % low  0.68 V,  7 % to 20 % low
	//   1/0 AWG, tinned   0.70 V  0.81 V  0.58 V, 16 % to 28 % low  0.63 V,  9 % to 21 % low
}
