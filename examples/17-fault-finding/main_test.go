package main

func Example() {
	main()
	// Output:
	// held fast 274 A, a short 577 A to 3855 A
	//   tripped after  0.1 s: short
	//   tripped after  1.0 s: short
	//   tripped after  4.0 s: stalled motor
	//   tripped after 30.0 s: neither: the device itself, its warmth or another load
	// the short takes 49 minutes to find on average, 85 at worst, by resistance, supply isolated:
	//   part the terminals in the chain locker
	//     still there: part the saloon junction
	//       still there: it is companionway to saloon (12 %)
	//       gone: part the joint behind the lining
	//         still there: it is behind the saloon lining (19 %)
	//         gone: it is through the bulkhead (31 %)
	//     gone: it is chain locker to solenoid (38 %)
	// Isolate the supply on both poles before parting a joint.
	// Do not close the breaker onto the fault to test: test by resistance with the supply isolated, or through a lamp or a fuse of a few amperes.
	// Work on a battery circuit can burn and start fires; if in doubt leave it to a qualified marine electrician.
}
