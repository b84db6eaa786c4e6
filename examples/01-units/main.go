// How do I write a length, a load or a wind so that nobody mistakes its unit?
//
//	go run ./examples/01-units
package main

import (
	"encoding/json"
	"fmt"

	"example.com/forepeak/units"
)

func main() {
	// A value is a number times its unit, or what a person typed.
	chain := 40 * units.Metre
	boat, _ := units.ParseLength("34ft 1 1/2in")
	fmt.Printf("%v of chain is %.1f fathoms\n", chain, chain.Fathoms())
	fmt.Printf("34ft 1 1/2in is %v\n", boat)

	// A number never prints without its unit; %.3v picks a handy one.
	wire := 8 * units.Millimetre
	pull := 250 * units.PoundForce
	fmt.Printf("%v or %.1v wire, a pull of %.3v\n", wire, wire, pull)

	// What is ambiguous is refused, with the reason.
	for _, s := range []string{"12", "1,200 lbf", "25 KN"} {
		_, err := units.ParseForce(s)
		fmt.Println(err)
	}
	_, err := units.ParseLength("3 shackles")
	fmt.Println(err)

	// Products change the dimension, so they have names.
	kilo, _ := units.ParseLinearDensity("1.4 kg/m")
	fmt.Printf("the chain weighs %.3v in air\n", kilo.TimesLength(chain).Weight())

	// Files hold the unit too.
	var gust struct{ Gust units.Speed }
	if err := json.Unmarshal([]byte(`{"Gust": "35 kn"}`), &gust); err == nil {
		fmt.Printf("a gust of %.0f kn is %.3v\n", gust.Gust.Knots(), gust.Gust)
	}
}
