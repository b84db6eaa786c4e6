package wiring_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/forepeak/units"
	"example.com/forepeak/wiring"
)

// In random networks the parts add up to the total, the total is what the load misses,
// and the way closes round the circuit.
func TestDropToAddsUp(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 4))
	reports := 0
	for range 300 {
		c := randomCircuit(rng, 3+rng.IntN(20), true)
		st, err := wiring.Solve(c, wiring.Conditions{})
		if err != nil {
			continue
		}
		for i, b := range st.Branches {
			if c.Elements[i].Load == nil && c.Elements[i].Motor == nil || b.State == wiring.Dark {
				continue
			}
			r, err := st.DropTo(b.Name)
			if err != nil {
				t.Errorf("%s: %v", b.Name, err)
				continue
			}
			reports++
			var sum units.Voltage
			into, out := b.From, b.To
			if b.Current < 0 {
				into, out = out, into
			}
			node := r.Parts[0].From
			for _, p := range r.Parts {
				sum += p.Drop
				if node == into {
					node = out // through the load
				}
				if p.From != node || p.Current <= 0 {
					t.Fatalf("%s: the way breaks at %s", b.Name, p.Name)
				}
				node = p.To
			}
			if math.Abs(float64(sum-r.Total)) > 1e-12 || math.Abs(float64(r.EMF-r.AtLoad-r.Total)) > 1e-9 {
				t.Errorf("%s: parts %v, total %v, EMF %v, at the load %v", b.Name, sum, r.Total, r.EMF, r.AtLoad)
			}
		}
	}
	if reports < 200 {
		t.Errorf("only %d reports", reports)
	}
}
