package main

func Example() {
	main()
	// Output:
	// ISO 13297, bare, 2.60 m: too far; within 200 mm of the source (ISO 10133, ISO 13297) [recalled]
	// ISO 13297, sheathed, 2.60 m: accepted; protected by its sheath all the way to the device (ISO 10133, ISO 13297) [recalled]
	// 33 CFR 183, bare, 2.60 m: too far; within 72 in of the battery (33 CFR 183.460(a)) [recalled]
	// 33 CFR 183, sheathed, 2.60 m: too far; within 72 in of the battery (33 CFR 183.460(a)) [recalled]
	// ABYC E-11, bare, 2.60 m: too far; within 7 in of the source (ABYC E-11) [read]
	// ABYC E-11, sheathed, 2.60 m: too far; sheathed, within 72 in of the battery (ABYC E-11) [read]
	// IEC 60092-352, bare, 2.60 m: no length stated; as near the source as practicable; no length is stated (IEC 60092) [recalled]
	// IEC 60092-352, sheathed, 2.60 m: no length stated; as near the source as practicable; no length is stated (IEC 60092) [recalled]
	// (33 CFR 183 is law in the United States, for boats with petrol inboard engines only)
	//
	// with the breaker alone, cables that nothing protects: cable to breaker, cable back
	//   breaker      breaks the 2.50 kA of a short, opens within 3 s in the weakest
	//
	// a short drives 5.42 kA at the bank, full and warm, the rule has the fuse break 5.00 kA; low, cold and at the breaker 942 A
	// so a fuse of 175 A at the bank, not more than the conductor's ampacity (IEC 60092-202) of 180 A; but:
	//   no fuse of 1.6 times the breaker is allowed: a stall may open the fuse before the breaker
	//   the bands alone do not prove that the breaker opens before the fuse up to the stall current of 277 A
	// with the fuse too, cables that nothing protects: none
	//   battery fuse breaks the 5.40 kA of a short, opens within 5 s in the weakest
	//   breaker      breaks the 2.50 kA of a short, opens within 3 s in the weakest
	// hauling, then stalled at 277 A for  0.5 s: the breaker holds
	// hauling, then stalled at 277 A for  2.0 s: the breaker may do either
	// hauling, then stalled at 277 A for 30.0 s: the breaker opens
}
