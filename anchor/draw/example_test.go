package draw_test

import (
	"bytes"
	"fmt"
	"log"
	"strings"
	"testing"

	"example.com/forepeak/anchor"
	"example.com/forepeak/anchor/draw"
)

func ExampleNightPlot_WriteSVG() {
	n := night()
	p, err := anchor.PlanNight(n)
	if err != nil {
		log.Fatal(err)
	}
	var b bytes.Buffer // or a file
	if err := (draw.NightPlot{Title: "Outer roads", Night: n, Plan: p}).WriteSVG(&b); err != nil {
		log.Fatal(err)
	}
	fmt.Println(strings.HasPrefix(b.String(), "<svg "))
	// Output:
	// true
}

func ExampleSwingPlan_WriteSVG() {
	n := night()
	p, err := anchor.PlanNight(n)
	if err != nil {
		log.Fatal(err)
	}
	var b bytes.Buffer
	if err := (draw.SwingPlan{Night: n, Plan: p, Alarm: p.Widest.Antenna + 8}).WriteSVG(&b); err != nil {
		log.Fatal(err)
	}
	fmt.Println(strings.Contains(b.String(), "the Hen, 4 m high"))
	// Output:
	// true
}

func BenchmarkNightPlot(b *testing.B) {
	n := night()
	p := planned(b, n)
	for b.Loop() {
		var out bytes.Buffer
		if err := (draw.NightPlot{Night: n, Plan: p}).WriteSVG(&out); err != nil {
			b.Fatal(err)
		}
	}
}
