package main

func Example() {
	main()
	// Output:
	// 3.02 m² of cloth; the hollows cost 24 %
	// 12 kn forecast: gusts of 14 kn at the awning
	// calm                         cloth  81 N/m, sag  45 mm, aft corner  572 N: strap of corner 1 at 29 %
	// gust down                    cloth 192 N/m, sag 166 mm, aft corner 1362 N: strap of corner 1 at 68 %
	// gust up                      cloth 194 N/m, sag 167 mm, aft corner 1377 N: strap of corner 1 at 69 %
	// gust down, heel and flutter  cloth 265 N/m, sag 210 mm, aft corner 1878 N: strap of corner 1 at 94 %
	// gust up, heel and flutter    cloth 287 N/m, sag 222 mm, aft corner 2034 N: strap of corner 1 at 102 %
	// wet it sags 45 mm: rain runs off at its pitch of 15°, and needs 9° at least
	// without tape the edges need a band of 59 mm, 3 layers
	// strike it at 11 kn: then the strap of corner 1 carries all it may
	// 16 pieces with all patches; the awning itself takes 3.36 m² of cloth
}
