package canvas

import (
	"context"
	"math"
	"slices"
	"testing"
	"time"

	"example.com/forepeak/internal/plane"
	"example.com/forepeak/units"
)

// Places of a seam: both parts fit at each of them, and would not a millimetre
// beyond the outer ones; the middle comes first.
func TestPlacesOfASeam(t *testing.T) {
	hem, seam := Finish{Kind: SingleHem, Width: 30 * milli}, Finish{Kind: PlainSeam, Width: 15 * milli}
	sheet := func(w, h units.Length) Cover {
		p := square(hem)
		for i := range p.Edges {
			p.Edges[i].From.X, p.Edges[i].From.Y = p.Edges[i].From.X.Scale(float64(w)/2), p.Edges[i].From.Y.Scale(float64(h))
		}
		return Cover{Panels: []Panel{p}}
	}
	roll := Roll{Width: 1.53, Selvedge: 10 * milli}
	for name, c := range map[string]struct {
		cover  Cover
		grain  units.Angle
		cloth  Cloth
		roll   Roll
		way    string
		size   float64
		places []float64 // the lowest and the highest, or all three
	}{
		// 2 m and two hems are 2.06 m, on 1.51 m: a part reaches 1.51 - 0.03 - 0.015 m from its hem.
		"halves":          {sheet(3, 2), 0, Cloth{}, roll, "across", 2.06, []float64{0.5352, 1.4648}},
		"three":           {sheet(3, 4), 0, Cloth{}, roll, "across", 4.06, []float64{4. / 3, 1.4648, 2.5352}},
		"turned":          {sheet(2, 3), math.Pi / 2, Cloth{}, roll, "across", 2.06, []float64{-1.4648, -0.5352}},
		"a little":        {sheet(3, 1.46), 0, Cloth{}, roll, "across", 1.52, []float64{0.015, 1.445}},
		"shrinks across":  {sheet(3, 2), 0, Cloth{Weft: -0.02}, roll, "across", 2/0.98 + 0.06, []float64{2 - 0.98*1.4648, 0.98 * 1.4648}},
		"too long":        {sheet(3, 1), 0, Cloth{}, Roll{Width: 1.53, Length: 2}, "along", 3.06, []float64{1.0452, 1.9548}},
		"shrinks along":   {sheet(3, 1), 0, Cloth{Warp: -0.02}, Roll{Width: 1.53, Length: 2}, "along", 3/0.98 + 0.06, []float64{3 - 0.98*1.9548, 0.98 * 1.9548}},
		"no room for it":  {sheet(3, 2), 0, Cloth{}, Roll{Width: 0.03}, "across", 2.06, nil},
		"ever so narrow":  {sheet(3, 2), 0, Cloth{}, Roll{Width: 0.05}, "across", 2.06, []float64{0.04, 0.0048, 1.9952}},
		"three of a roll": {sheet(3, 1), 0, Cloth{}, Roll{Width: 1.53, Length: 1.2}, "along", 3.06, []float64{1, 1.1548, 1.8452}},
	} {
		c.cover.Panels[0].Grain = c.grain
		f := fitting{ctx: t.Context(), lay: Lay{Rolls: []Roll{c.roll}}, cloth: c.cloth, seam: seam}
		got, err := f.choice(c.cover, "p")
		if err != nil {
			t.Fatal(err)
		}
		if got.way != c.way || math.Abs(got.size-c.size) > 1e-9 {
			t.Errorf("%s: %v m %s, want %v m %s", name, got.size, got.way, c.size, c.way)
		}
		found := slices.Sorted(slices.Values(got.places))
		if len(c.places) == 2 {
			if len(found) != 21 || math.Abs(got.places[0]-(c.places[0]+c.places[1])/2) > 1e-9 {
				t.Fatalf("%s: %v", name, got.places)
			}
			for k := range found { // at equal distances
				if want := c.places[0] + float64(k)/20*(c.places[1]-c.places[0]); math.Abs(found[k]-want) > 1e-9 {
					t.Errorf("%s: place %d at %v, want %v", name, k, found[k], want)
				}
			}
			for _, at := range []float64{found[0], found[20], found[0] - 1e-3, found[20] + 1e-3, got.places[0]} {
				q := got.square.Times(at)
				out, err := f.parts(c.cover, PanelSplit{Panel: "p", From: wrap(q), To: wrap(q.Add(got.square.Right())), Square: got.way == "along"})
				inside := at > found[0]-1e-9 && at < found[20]+1e-9
				if inside && (err != nil || len(out.parts) != 2 || len(out.splits) != 1) {
					t.Errorf("%s, at %v: %d parts, %v", name, at, len(out.parts), err)
				}
				if one := err == nil && len(out.parts) == 2; !inside && one && name != "a little" {
					t.Errorf("%s, at %v: both parts fit", name, at)
				}
				if err == nil && inside {
					long := 3.0
					if c.way == "along" {
						long = 1
					}
					if math.Abs(out.seam-long) > 1e-9 {
						t.Errorf("%s: a seam of %v", name, out.seam)
					}
				}
			}
			continue
		}
		if len(got.places) != len(c.places) {
			t.Fatalf("%s: %v", name, got.places)
		}
		for k, want := range c.places {
			if math.Abs(got.places[k]-want) > 1e-9 {
				t.Errorf("%s: %v, want %v", name, got.places, c.places)
			}
		}
	}
	// Of several rolls the widest and the longest count.
	f := fitting{ctx: t.Context(), lay: Lay{Rolls: []Roll{{Width: 1, Length: 5}, roll, {Width: 1.2, Length: 3}}}, seam: seam}
	if got, err := f.choice(sheet(3, 2), "p"); err != nil || got.way != "across" || math.Abs(slices.Max(got.places)-1.4648) > 1e-9 {
		t.Errorf("%+v, %v", got, err)
	}
	if low, high := reach([]Point{{1, 2}, {-3, 4}, {2, -1}}, plane.Point{X: 0.6, Y: 0.8}); math.Abs(low-0.4) > 1e-12 || math.Abs(high-2.2) > 1e-12 {
		t.Errorf("%v to %v", low, high)
	}
}

// A place is better if its cloth costs less, then if less of it is used, then if its
// seam is shorter; what is alike but for rounding is alike.
func TestBetterPlaces(t *testing.T) {
	base := fitted{cost: 10, used: 3, seam: 1}
	for k, c := range []struct {
		other         fitted
		less, greater bool
	}{
		{fitted{cost: 9.9, used: 9, seam: 9}, true, false},
		{fitted{cost: 10 + 9e-8, used: 2.9, seam: 9}, true, false},
		{fitted{cost: 10 - 9e-8, used: 3.1, seam: 0}, false, true},
		{fitted{cost: 10, used: 3 + 9e-8, seam: 0.9}, true, false},
		{fitted{cost: 10, used: 3, seam: 1 - 9e-8}, false, false},
		{base, false, false},
	} {
		if c.other.less(&base) != c.less || base.less(&c.other) != c.greater {
			t.Errorf("%d: %v and %v", k, c.other.less(&base), base.less(&c.other))
		}
	}
}

// Covers on rolls that have pieces already: those come first, the plan has all, work
// stays within its budget and is told, and when time is up or nobody waits, one place is
// enough.
func TestPlanCoversBesideOthers(t *testing.T) {
	hem, seam := Finish{Kind: SingleHem, Width: 30 * milli}, Finish{Kind: PlainSeam, Width: 15 * milli}
	p := square(hem)
	p.Edges[2].From.Y, p.Edges[3].From.Y = 2, 2 // 2 by 2 m
	q := square(hem)
	q.Name = "q"
	covers := []Cover{{Panels: []Panel{q}}, {Panels: []Panel{p}, Title: "second"}}
	lay := Lay{Rolls: []Roll{{Width: 1.53, Selvedge: 10 * milli, Price: 20}}, Pieces: []Cutting{{Name: "old", Cut: rectangle(0.5, 0.4), Quantity: 2}}, Gap: 2 * milli}
	last, calls := int64(-1), 0
	o := LayOptions{Work: 20_000, Progress: func(p LayProgress) {
		if p.Work < last || p.Roll != 0 || !(p.Length > 1 && p.Length < 10) {
			t.Errorf("%+v after %d", p, last)
		}
		last = p.Work
		calls++
	}}
	got, err := lay.PlanCovers(t.Context(), covers, Cloth{}, seam, o)
	if err != nil {
		t.Fatal(err)
	}
	if err := got.Plan.Check(got.Lay); err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, c := range got.Lay.Pieces {
		names = append(names, c.Name)
	}
	if !slices.Equal(names, []string{"old", "q", "p 1", "p 2"}) || got.Lay.Pieces[0].Quantity != 2 || len(lay.Pieces) != 1 {
		t.Errorf("%q", names)
	}
	if len(got.Splits) != 1 || got.Splits[0].Cover != 1 || got.Splits[0].Panel != "p" || got.Splits[0].Square || got.Splits[0].Tried < 2 || got.Splits[0].Tried > 21 {
		t.Errorf("%+v", got.Splits)
	}
	if len(got.Covers) != 2 || got.Covers[1].Title != "second" || len(got.Covers[0].Panels) != 1 {
		t.Errorf("%+v", got.Covers)
	}
	if calls == 0 || last > got.Plan.Work || got.Plan.Work > o.Work*3/2 {
		t.Errorf("%d calls, %d told, %d worked", calls, last, got.Plan.Work)
	}
	done, cancel := context.WithCancel(t.Context())
	cancel()
	for _, o := range []struct {
		name string
		ctx  context.Context
		LayOptions
	}{
		{"nobody waits", done, LayOptions{Work: 1 << 40}},
		{"no time", t.Context(), LayOptions{Left: func() time.Duration { return 0 }}},
	} {
		got, err := lay.PlanCovers(o.ctx, covers, Cloth{}, seam, o.LayOptions)
		if err != nil {
			t.Fatal(o.name, err)
		}
		if err := got.Plan.Check(got.Lay); err != nil || got.Splits[0].Tried != 1 {
			t.Errorf("%s: %+v, %v", o.name, got.Splits, err)
		}
	}
	// Time that goes by is shared: half of it for the places of seams.
	left := 100 * time.Second
	asked := 0
	got, err = lay.PlanCovers(t.Context(), covers, Cloth{}, seam, LayOptions{Left: func() time.Duration {
		left -= time.Second
		asked++
		return left
	}})
	if err != nil || got.Plan.Check(got.Lay) != nil {
		t.Errorf("%+v, %v", got.Splits, err)
	}
	if left < -50*time.Second || left > 50*time.Second {
		t.Errorf("%v left after asking %d times", left, asked)
	}
	// Bad pieces are refused before anything else.
	bad := lay
	bad.Pieces = []Cutting{{Name: "old", Cut: rectangle(0.5, 0.4)[:2]}}
	if _, err := bad.PlanCovers(t.Context(), covers, Cloth{}, seam, LayOptions{Work: 1000}); err == nil {
		t.Error("a piece of two points")
	}
}

// What is laid keeps clear of a line by half the gap and of a curve by what it
// bulges besides, at most twice that.
func TestClearOfCurves(t *testing.T) {
	l := ruled{&Lay{Gap: 4e-3}, hundredth}
	for _, n := range []int{100, 400, 1000} {
		const r = 0.2
		var ring []Point
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			ring = append(ring, Point{units.Length(r * cos), units.Length(r * sin)})
		}
		bulge := r * (1 - math.Cos(math.Pi/float64(n))) // m
		cut, clear, err := l.tidy(&Cutting{Cut: ring}, "")
		if err != nil || len(cut) != n || len(clear) != n {
			t.Fatal(len(cut), len(clear), err)
		}
		for _, c := range clear {
			extra := float64(l.length(c - 200))
			if most := math.Min(2.01*bulge, 4*tolerance) + 1e-9; extra > most || extra < math.Min(bulge, 4*tolerance)-1e-9 {
				t.Fatalf("%d points: %v m, the curve bulges by %v", n, extra, bulge)
			}
		}
		// The check sees the same circle: chord/2 tan(turn/4) is its bulge exactly.
		check := newCheckRing(complexes(ring))
		for _, b := range check.bulge {
			if want := math.Min(bulge*1e9, mostBulge); math.Abs(b-want) > 2 {
				t.Fatalf("%d points: a bulge of %v nm, want %v", n, b, want)
			}
		}
		box := check.bulged()
		if n == 400 {
			for _, x := range []float64{-box.x0, box.x1, -box.y0, box.y1} {
				if x < r*1e9 || x > (r+2*bulge)*1e9 {
					t.Errorf("a disc of %v m reaches to %v nm", r, x)
				}
			}
		}
		// Two discs whose circles are so far apart.
		for _, d := range []float64{-20e-6, -1e-6, 1e-6, 8e-6, 20e-6} {
			const gap = 1e-3
			var other []Point
			for _, q := range ring {
				other = append(other, Point{q.X + units.Length(2*r+gap+d), q.Y})
			}
			two := newCheckRing(complexes(other))
			clear := check.clear(&two, gap*1e9)
			if sure := 2*mostBulge*1e-9 + 1e-8; d < -1.1e-8 && clear && n >= 400 || d > sure && !clear {
				t.Errorf("%d points, %v beyond the gap: %v", n, d, clear)
			}
		}
	}
	// Corners, straight runs and turns of half a radian.
	_, clear, err := l.tidy(&Cutting{Cut: []Point{{}, {X: 0.5}, {X: 1}, {1, 0.5}, {0, 0.5}}}, "")
	if err != nil || !slices.Equal(clear, []float64{200, 200, 200, 200, 200}) {
		t.Errorf("%v, %v", clear, err)
	}
	for _, c := range []struct{ turn, want float64 }{{1e-7, 0}, {2e-6, 2e-6}, {0.3, 0.3}, {0.499, 0.499}, {0.501, 0}, {2, 0}} {
		for _, sign := range []float64{1, -1} {
			sin, cos := math.Sincos(sign * c.turn)
			if got := bendAt(plane.Point{}, plane.Point{X: 1}, plane.Point{X: 1 + cos, Y: sin}); math.Abs(got-c.want) > 1e-12 {
				t.Errorf("a turn of %v: %v", sign*c.turn, got)
			}
			want := c.want // the check's curves bulge outwards only
			if sign < 0 {
				want = 0
			}
			if got := bent(checkPoint{}, checkPoint{1e9, 0}, checkPoint{1e9 + 1e9*cos, 1e9 * sin}); math.Abs(got-want) > 1e-12 {
				t.Errorf("a turn of %v: %v in the check", sign*c.turn, got)
			}
		}
	}
	// How far a line reaches: the farther end of each edge, with what must be clear of it but half the gap.
	if got := reachOf([]float64{0, 0, 100, 0, 90, 50, 0, 50}, []float64{200, 200, 230, 200}, 200); got != 120 {
		t.Errorf("%v, want 120", got)
	}
	// Points that repeat, and rings the other way round.
	cut, _, err := l.tidy(&Cutting{Cut: []Point{{}, {}, {0, 1}, {0, 1 + 1e-10}, {1, 1}, {X: 1}, {X: 1e-10}, {}}}, "")
	if err != nil || !slices.Equal(cut, []Point{{X: 1}, {1, 1}, {0, 1}, {}}) {
		t.Errorf("%v, %v", cut, err)
	}
}

func complexes(ring []Point) []complex128 {
	out := make([]complex128, len(ring))
	for k, v := range ring {
		out[k] = complex(nm(v.X), nm(v.Y))
	}
	return out
}
