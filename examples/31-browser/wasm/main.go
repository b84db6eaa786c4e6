//go:build js && wasm

// The part of the page that computes, compiled to WebAssembly. It offers the page
// one function, rodeAt(depth, wind, out), each a text with its unit.
package main

import (
	"errors"
	"syscall/js"

	"example.com/forepeak/examples/31-browser/scene"
)

func main() {
	js.Global().Set("rodeAt", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 3 || args[0].Type() != js.TypeString || args[1].Type() != js.TypeString || args[2].Type() != js.TypeString {
			return map[string]any{"error": "want three texts: depth, wind and rode out"}
		}
		s, err := scene.At(args[0].String(), args[1].String(), args[2].String())
		if err != nil {
			var r *scene.Refusal
			control := ""
			if errors.As(err, &r) {
				control = r.Control
			}
			return map[string]any{"error": err.Error(), "control": control}
		}
		var fan []any
		for _, f := range s.Fan {
			fan = append(fan, f)
		}
		return map[string]any{
			"chain": s.Chain, "rope": s.Rope, "fan": fan, "off": s.Off,
			"lying": s.Lying, "chainOut": s.ChainOut, "says": s.Says, "solved": s.Solved,
		}
	}))
	js.Global().Call("rodeReady")
	select {} // the function stays
}
