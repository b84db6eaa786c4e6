// An application that uses the library from a module of its own. The continuous
// integration copies it out of the clone, adds an import of every library
// package, and builds and runs it.
package main

import (
	"fmt"
	"log"

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
	fmt.Println("depth", depth)
}
