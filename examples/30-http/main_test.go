package main

func Example() {
	main()
	// Output:
	// 200 OK
	//   15 kn: pull 0.27 kN, 33.2 m off, 15.6 m on the bed, pull on the anchor 0.0° above it
	//   25 kn: pull 0.74 kN, 33.9 m off, 4.1 m on the bed, pull on the anchor 0.0° above it
	// 422 Unprocessable Entity
	//   not long enough
	//     field: Rode.Length
	//     value: 5 m
	//     want: more than the rise of 7.2 m
	// 400 Bad Request
	//   it does not begin with a number
	//     field: Site.Depth
	//     value: six metres
	//     want: length with its unit
	// 400 Bad Request
	//   unknown field
	//     field: Wind
	// 413 Request Entity Too Large
	//   more than 65536 bytes
}
