// An application that uses the library from a module of its own. The continuous
// integration copies it out of the clone, adds an import of every library
// package, and builds and runs it.
package main

import (
	"fmt"
	"log"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

func main() {
	depth, err := units.ParseLength("3 fathoms")
	if err != nil {
		log.Fatal(err)
	}
	if got := depth.Metres(); got != 5.4864 {
		log.Fatalf("3 fathoms are %v m, want 5.4864", got)
	}
	if _, err := units.ParseLength("3"); err == nil {
		log.Fatal("a length without a unit was accepted")
	}
	chain, err := rode.ChainByName("DIN 766 8 mm G30")
	if err != nil {
		log.Fatal(err)
	}
	r := rode.Rode{Pieces: []rode.Piece{chain.Piece(40 * units.Metre)}}
	s, err := rode.Solve(r, rode.Site{Depth: depth}, 1*units.Kilonewton)
	if err != nil {
		log.Fatal(err)
	}
	if s.OnBed <= 0 || s.OnBed >= s.Out {
		log.Fatalf("%v of %v of chain lie on the bed", s.OnBed, s.Out)
	}
	fmt.Printf("depth %v, %.1f m of chain on the bed\n", depth, s.OnBed.Metres())
}
