package canvas_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/forepeak/canvas"
)

// Inputs and results go to JSON and back without loss.
func TestJSON(t *testing.T) {
	v, err := bottle().Cover()
	if err != nil {
		t.Fatal(err)
	}
	out, err := v.Pieces(canvas.Cloth{Thickness: mm / 2, Warp: -0.01})
	if err != nil {
		t.Fatal(err)
	}
	a, err := polygon(house, none).Adjust()
	if err != nil {
		t.Fatal(err)
	}
	roundTrip(t, v)
	roundTrip(t, out)
	roundTrip(t, a)
	roundTrip(t, polygon(house, none))
	roundTrip(t, bottle())
	roundTrip(t, locker())
}

func roundTrip[T any](t *testing.T, v T) {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var back T
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(v, back); d != "" {
		t.Error(d)
	}
}
