package main

func Example() {
	main()
	// Output:
	// 40 m of chain is 21.9 fathoms
	// 34ft 1 1/2in is 10.4013 m
	// 0.008 m or 8 mm wire, a pull of 1.11 kN
	// units: force "12": the unit is missing: write for example 12 N or 12 lbf
	// units: force "1,200 lbf": a comma is not accepted, as 1,200 is 1200 to some and 1.2 to others: write 1200 or 1.2
	// units: force "25 KN": unknown unit "KN", did you mean "kN" (upper and lower case differ); accepted units: N, daN, kN, lbf, kgf, tf
	// units: length "3 shackles": a shackle of cable is 27.5 m (units.Shackle) in metric chain, 15 fathoms = 27.432 m (units.Shot) in imperial: write metres, feet or fathoms; accepted units: m, µm, mm, cm, km, in, ft, yd, fathom, nmi, mi
	// the chain weighs 549 N in air
	// a gust of 35 kn is 18.0 m/s
}
