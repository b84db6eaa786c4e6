package draw_test

import (
	"bytes"
	"fmt"
	"strings"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
	"example.com/forepeak/wiring/draw"
)

// A lamp on a fused cable.
func ExampleDiagram_WriteSVG() {
	wire := wiring.Conductor{Size: "2.5 mm²", Area: 2.5 * units.SquareMillimetre, Resistance: 0.00821}
	c := wiring.Circuit{Elements: []wiring.Element{
		{Name: "bank", From: "bank -", To: "bank +", Battery: &wiring.Battery{
			Chemistry: wiring.AGM, Cells: 6, Capacity: 100 * units.AmpereHour, Resistance: 5 * units.Milliohm, Charge: 0.8,
		}},
		{Name: "fuse", From: "bank +", To: "out", Device: &wiring.Device{Kind: wiring.Fuse, Rating: 10, Resistance: 8 * units.Milliohm}},
		{Name: "cable out", From: "out", To: "lamp +", Cable: &wiring.Cable{Conductor: wire, Length: 6}},
		{Name: "lamp", From: "lamp +", To: "lamp -", Load: &wiring.Load{Resistance: 4}},
		{Name: "cable back", From: "lamp -", To: "bank -", Cable: &wiring.Cable{Conductor: wire, Length: 6}},
	}}
	s, err := wiring.Solve(c, wiring.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	var file bytes.Buffer
	if err := (draw.Diagram{Title: "A lamp", Circuit: c, Solution: &s}).WriteSVG(&file); err != nil {
		fmt.Println(err)
		return
	}
	r, err := s.DropTo("lamp")
	if err != nil {
		fmt.Println(err)
		return
	}
	var bars bytes.Buffer
	if err := (draw.Bars{Title: "Where the volts go", Report: r}).WriteSVG(&bars); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(strings.Contains(file.String(), "2.5 mm², 6.00 m"), strings.Count(bars.String(), `class="drop-bar"`))
	// Output: true 4
}

// Where the volts go on the way to the lamp, one bar a part.
func ExampleBars_WriteSVG() {
	report := wiring.DropReport{Load: "lamp", EMF: 12.8, AtLoad: 12.4, Total: 0.4, Parts: []wiring.PartDrop{
		{Name: "cable out", Current: 3, Drop: 0.15, Share: 0.375},
		{Name: "bad joint", Current: 3, Drop: 0.1, Share: 0.25},
		{Name: "cable back", Current: 3, Drop: 0.15, Share: 0.375},
	}}
	var file bytes.Buffer
	if err := (draw.Bars{Title: "Where the volts go", Report: report}).WriteSVG(&file); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(strings.Count(file.String(), `class="drop-bar"`), "bars,", strings.Contains(file.String(), "bad joint"))
	// Output:
	// 3 bars, true
}
