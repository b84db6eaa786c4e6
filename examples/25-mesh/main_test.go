package main

func Example() {
	main()
	// Output:
	// in one piece:
	//   cowl: warp 1.4 %, weft 3.4 %, shear 2.7°
	//     This surface bends two ways and cannot lie flat without strain: the angle defect is 3.8 degrees at point 7, and 42.1 in all.
	//     12 of 48 triangles are strained beyond the limits (warp 1.4 %, weft 3.4 %, shear 2.7 degrees at most): add a seam or a dart.
	//     first row: ease in 5.8 mm.
	//     last column: ease in 11.8 mm.
	//     last row: ease in 6.2 mm.
	//     first column: ease in 11.7 mm.
	// with a seam along the ridge:
	//   cowl 1: warp 0.5 %, weft 1.0 %, shear 0.9°
	//     This surface bends two ways and cannot lie flat without strain: the angle defect is 2.9 degrees at point 6, and 12.5 in all.
	//     first row 1: ease in 0.6 mm.
	//     ridge left: ease in 3.3 mm.
	//     last row 1: ease in 0.6 mm.
	//     first column: ease in 2.4 mm.
	//   cowl 2: warp 0.5 %, weft 1.0 %, shear 0.9°
	//     This surface bends two ways and cannot lie flat without strain: the angle defect is 2.9 degrees at point 8, and 12.5 in all.
	//     first row 2: ease in 0.6 mm.
	//     last column: ease in 2.4 mm.
	//     last row 2: ease in 0.6 mm.
	//     ridge right: ease in 3.3 mm.
}
