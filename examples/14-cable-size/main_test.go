package main

func Example() {
	main()
	// Output:
	// at most 10 % of 12 V lost  asks for 50 mm²
	// 10.5 V at the motor        asks for 35 mm²
	// 100 A steadily at 55 °C    asks for 35 mm²
	// the heat of two retrievals asks for 25 mm²
	// a short of 2 kA for 1 s    asks for 25 mm²
	// all of it                  asks for 50 mm²
	//
	// voltage drop governs:
	//   one size down  1 x 35 mm²  loses 12.5 %, may carry 107 A, gets 67 °C hot,  7.0 kg, costs 203; fails [voltage drop]
	//   this one       1 x 50 mm²  loses  9.4 %, may carry 133 A, gets 62 °C hot,  9.9 kg, costs 283
	//   one size up    1 x 70 mm²  loses  7.2 %, may carry 166 A, gets 59 °C hot, 13.7 kg, costs 390
	//   3 % in cables  1 x 150 mm² loses  2.4 %, may carry 269 A, gets 56 °C hot, 29.0 kg, costs 815
	//   3 % in cables  2 x 70 mm²  loses  2.5 %, may carry 273 A, gets 56 °C hot, 27.5 kg, costs 779
}
