package main

func Example() {
	main()
	// Output:
	//  6 gores: sides 19.6 mm inside the round, seams 9.9 mm outside it,  9.1 m of thread
	//  8 gores: sides 10.9 mm inside the round, seams 5.5 mm outside it, 10.7 m of thread
	// 12 gores: sides  4.8 mm inside the round, seams 2.4 mm outside it, 14.1 m of thread
	// 8 bases of 164.9 mm go round the rim; each seam is 289.4 mm on both sides
	// the gore's cut line, square to a baseline along its hem:
	//      0 along,    0 up
	//    185 along,    0 up
	//    183 along,   61 up
	//    170 along,  121 up
	//    145 along,  197 up
	//     98 along,  314 up
	//     87 along,  314 up
	//     40 along,  197 up
	//     15 along,  121 up
	//      2 along,   61 up
}
