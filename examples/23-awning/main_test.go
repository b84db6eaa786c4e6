package main

func Example() {
	main()
	// Output:
	// 3.02 m² of cloth; the hollows cost 24 %
	// 12 kn forecast: gusts of 14 kn at the awning
	// prestress                    cloth  72 N/m, sag   0 mm, aft corner  508 N: strap of corner 1 at 25 %
	// gust down                    cloth 190 N/m, sag 164 mm, aft corner 1346 N: strap of corner 1 at 67 %
	// gust up                      cloth 188 N/m, sag 162 mm, aft corner 1333 N: strap of corner 1 at 67 %
	// gust down, heel and flutter  cloth 260 N/m, sag 207 mm, aft corner 1842 N: strap of corner 1 at 92 %
	// gust up, heel and flutter    cloth 266 N/m, sag 210 mm, aft corner 1886 N: strap of corner 1 at 94 %
	// wet it sags 45 mm: rain runs off at its pitch of 15°, and needs 9° at least
	// without tape the edges need a band of 55 mm, 3 layers
	// strike it at 13 kn: then the strap of corner 1 carries all it may
	// 16 pieces with all patches; the awning itself takes 3.36 m² of cloth
}
