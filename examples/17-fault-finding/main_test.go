package main

func Example() {
	main()
	// Output:
	// held fast 244 A to 279 A, a short 577 A to 5418 A
	//   tripped after  0.1 s: short
	//   tripped after  1.0 s: short
	//   tripped after  8.0 s: stalled motor
	//   tripped after 60.0 s: overloaded motor: it turned, with more than the device carries
	//   after  1.0 s, warm from a haul: short or stalled motor
	// the short takes 42 minutes to find on average, 70 at worst, by resistance, supply isolated:
	//   part the terminals in the chain locker
	//     still there: part the saloon junction
	//       still there: it is companionway to saloon (15 %)
	//       gone: it is saloon to chain locker (38 %)
	//     gone: it is chain locker to solenoid (46 %)
	// Isolate the supply on both poles before parting a joint.
	// Do not close the breaker onto the fault to test: test by resistance with the supply isolated, or through a lamp.
	// A small fuse in its place must be made to break what the bank drives into a short, thousands of amperes, in a closed holder.
	// Part the motor's leads first: standing, it looks like a short.
	// Wear eye protection and no rings.
	// Work on a battery circuit can burn and start fires; if in doubt leave it to a qualified marine electrician.
}
