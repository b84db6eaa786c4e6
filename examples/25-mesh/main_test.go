package main

func Example() {
	main()
	// Output:
	// in one piece:
	//   cowl: warp 1.5 %, weft 3.3 %, shear 3.5°
	//     This surface bends two ways and cannot lie flat without strain: the angle defect is 5.6 degrees at point 12, and 37.5 in all.
	//     16 of 32 triangles are strained beyond the limits of 1 % along the warp, 2 % along the weft and 3 degrees of shear, up to 1.5 %, 3.3 % and 3.5 degrees: add a seam or a dart.
	//     first row: ease in 4.6 mm.
	//     last column: ease in 11.4 mm.
	//     last row: ease in 4.8 mm.
	//     first column: ease in 11.4 mm.
	// with a seam along the ridge:
	//   cowl 1: warp 0.6 %, weft 1.0 %, shear 1.2°
	//     This surface bends two ways and cannot lie flat without strain: the angle defect is 4.4 degrees at point 6, and 11 in all.
	//     ridge left: ease in 3.0 mm.
	//     first column: ease in 2.3 mm.
	//   cowl 2: warp 0.6 %, weft 1.0 %, shear 1.2°
	//     This surface bends two ways and cannot lie flat without strain: the angle defect is 4.4 degrees at point 8, and 11 in all.
	//     last column: ease in 2.3 mm.
	//     ridge right: ease in 3.0 mm.
}
