package rode_test

import (
	"math"
	"testing"

	"example.com/forepeak/rode"
	"example.com/forepeak/units"
)

// A heap is a cone while its foot is clear of the walls, and as it reaches all of
// them its top is above the level height by the mean fall of the slope. In
// between, count columns.
func TestHeap(t *testing.T) {
	const chain = 8 * units.Millimetre
	stow := func(l rode.Locker, length units.Length) rode.Stowage {
		t.Helper()
		ss, err := l.Stow(rode.OfChain, length, chain)
		if err != nil {
			t.Fatal(err)
		}
		return ss[0]
	}
	wide := rode.Locker{Length: 10, Width: 10, Fall: 2, Slope: 40 * units.Degree}
	s := stow(wide, 50)
	tan := wide.Slope.Tan()
	cone := math.Cbrt(3 * float64(s.Volume) * tan * tan / math.Pi)
	if math.Abs(float64(s.Heap)/cone-1) > 1e-9 {
		t.Errorf("heap %v, cone %v m", s.Heap, cone)
	}
	narrow := rode.Locker{Length: 0.6, Width: 0.4, Fall: 2, Slope: 40 * units.Degree}
	s = stow(narrow, 200)
	// Mean distance from the middle of a rectangle to its points, by columns.
	const n = 1000
	columns := func(top float64) float64 {
		var v float64
		for i := range n {
			for j := range n {
				x, y := 0.3*(float64(i)+0.5)/n, 0.2*(float64(j)+0.5)/n
				v += math.Max(0, top-tan*math.Hypot(x, y))
			}
		}
		return v * 0.6 * 0.4 / n / n
	}
	if math.Abs(columns(float64(s.Heap))/float64(s.Volume)-1) > 1e-6 {
		t.Errorf("heap %v holds %v m³ by columns, want %v", s.Heap, columns(float64(s.Heap)), s.Volume)
	}
	s = stow(narrow, 25) // its foot has reached the sides and not the corners
	if math.Abs(columns(float64(s.Heap))/float64(s.Volume)-1) > 1e-5 {
		t.Errorf("heap %v holds %v m³ by columns, want %v", s.Heap, columns(float64(s.Heap)), s.Volume)
	}
	// What stows by itself makes a heap up to the clear fall.
	whole := stow(narrow, 2000)
	at := stow(narrow, whole.Stows)
	if math.Abs(float64(at.Heap)-(2-0.46)) > 1e-9 {
		t.Errorf("%v stows itself and heaps to %v", whole.Stows, at.Heap)
	}
	// Level, it is a box.
	level := rode.Locker{Length: 0.6, Width: 0.4, Fall: 2}
	s = stow(level, 100)
	if math.Abs(float64(s.Heap-s.Level)) > 1e-12 || math.Abs(float64(s.Level)*0.24/float64(s.Volume)-1) > 1e-12 {
		t.Errorf("%+v", s)
	}
}

// The rules for chain, in their order, and their spread.
func TestLockerRules(t *testing.T) {
	ss, err := rode.Locker{Length: 0.7, Width: 0.5, Fall: 1.2, Slope: 35 * units.Degree}.Stow(rode.OfChain, 60, 10*units.Millimetre)
	if err != nil {
		t.Fatal(err)
	}
	for i := range ss[1:] {
		if ss[i+1].Volume > ss[i].Volume || ss[i+1].Stows < ss[i].Stows {
			t.Errorf("%+v after %+v", ss[i+1], ss[i])
		}
	}
	if spread := ss[0].Volume.Per(ss[len(ss)-1].Volume); spread < 2 || spread > 2.2 {
		t.Errorf("spread %v", spread)
	}
	rope, err := rode.Locker{Length: 0.7, Width: 0.5, Fall: 1.2}.Stow(rode.OfRope, 60, 14*units.Millimetre)
	if err != nil || len(rope) != 1 || rope[0].Rule.Kind != rode.OfRope {
		t.Errorf("%+v, %v", rope, err)
	}
}
