package draw

import (
	"math"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// A loop of chain longer than the water is deep lies on the bed: it does not hang below it, its
// length is still that of the chain, and its ends are at ring and roller.
func TestSlackChainLiesOnTheBed(t *testing.T) {
	for _, b := range []Bow{
		{Forward: 16.7, Below: 7.4, Height: 1.45, Depth: 7.1, Slack: 21},
		{Forward: 8, Below: 3, Height: 1.2, Depth: 4, Slack: 15},
		{Forward: 8, ToPort: 2, Below: 5.2, Height: 1.2, Depth: 4, Slack: 12}, // the ring on the bed
		{Forward: 8, Below: 3, Height: 1.2, Depth: 4, Slack: 40},              // a heap
	} {
		ps := b.hang()
		if len(ps) == 0 {
			t.Fatalf("%+v: no chain", b)
		}
		long, onBed := 0.0, false
		across := math.Hypot(1, float64(b.ToPort)/float64(b.Forward)) // of one metre ahead
		for i, p := range ps {
			if p.Z < -b.Depth-1e-9 {
				t.Errorf("%+v: the chain is %v below the bed", b, -b.Depth-p.Z)
			}
			onBed = onBed || p.Z < -b.Depth+1e-6
			if i > 0 {
				long += math.Hypot(float64(p.X-ps[i-1].X)*across, float64(p.Z-ps[i-1].Z))
			}
		}
		if !onBed {
			t.Errorf("%+v: nothing of it lies on the bed", b)
		}
		first, last := ps[0], ps[len(ps)-1]
		same := func(p rode.Position, x, z units.Length) bool {
			return (p.X-x).Abs() < 1e-6 && (p.Z-z).Abs() < 1e-6
		}
		if !same(first, b.Forward, b.Height-b.Below) || !same(last, 0, b.Height) {
			t.Errorf("%+v: from %+v to %+v", b, first, last)
		}
		if heap := b.Slack > 30; !heap && math.Abs(long-float64(b.Slack)) > 0.02 {
			t.Errorf("%+v: drawn %.3f m long", b, long)
		}
	}
}
