package main

func Example() {
	main()
	// Output:
	// engine running, boat motored up: 73 s, 0.63 Ah, at most 128 A
	//   shortening up  55 s at 13.2 V and  29 A
	//   breaking out    1 s at 12.0 V and 128 A
	//   lifting        17 s at 13.1 V and  35 A
	// on the battery, 15 kn of wind: 89 s, 1.26 Ah, at most 128 A
	//   shortening up  69 s at 11.8 V and  54 A
	//   breaking out    1 s at 10.9 V and 128 A
	//   lifting        19 s at 12.0 V and  35 A
	// tired battery, 25 kn of wind: 117 s, 2.64 Ah, at most 128 A
	//   shortening up  91 s at 10.7 V and  93 A
	//   breaking out    1 s at 10.3 V and 128 A
	//   lifting        24 s at 11.4 V and  34 A
	// the rule of ships (IACS UR A3, its coefficient recalled): 2.4 kN for half an hour, 3.6 kN for two minutes, 9 m/min
	// anchor: windlass stalls: pull with 9.8 m out is 3.486 kN, want less than 3.252 kN, at which the motor stands still with 9.22 V
	// stalled it draws 215 A and pulls 3.3 kN
}
