package main

func Example() {
	main()
	// Output:
	// neither pole on the hull: yes; the isolator parts both: yes
	//   positive to the hull: insulated by 38.5 kΩ, enough: NO; supply on, black on the hull and red on it shows 0.24 V
	//   negative to the hull: insulated by 2.00 MΩ, enough: yes; supply on, black on the hull and red on it shows -12.43 V
	// hauling, the meter should show:
	//   bank +      to bank -      12.452 V, from 12.330 to 12.575 V (meter 0.064, boat 0.058)
	//   bank +      to breaker in   0.143 V, from 0.123 to 0.162 V (meter 0.003, boat 0.017)
	//   breaker in  to breaker out  0.049 V, from 0.036 to 0.061 V (meter 0.002, boat 0.011)
	//   breaker out to solenoid +   0.245 V, from 0.218 to 0.271 V (meter 0.003, boat 0.023)
	//   motor A     to motor B     11.620 V, from 11.448 to 11.793 V (meter 0.060, boat 0.112)
	//   solenoid -  to bank -       0.347 V, from 0.310 to 0.384 V (meter 0.004, boat 0.034)
	// what it showed means:
	//   bad   4.29 mΩ, from 4.14 to 4.46, 26 W of heat too much: lug 2 of cable forward
	//   sound 1.78 mΩ, from 1.70 to 1.87,  0 W of heat too much: isolator +, lug 1 of cable to breaker, lug 2 of cable to breaker, battery fuse, cable to breaker
	//   sound 0.62 mΩ, from 0.57 to 0.66,  0 W of heat too much: breaker
	//   sound 4.24 mΩ, from 4.09 to 4.41,  0 W of heat too much: lug 1 of cable back, lug 2 of cable back, isolator -, cable back
	//   sound 2.79 mΩ, from 2.68 to 2.91,  0 W of heat too much: lug 1 of cable forward, cable forward
}
