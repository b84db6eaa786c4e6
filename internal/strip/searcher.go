package strip

import (
	"math"
	"math/bits"
	"math/rand/v2"
)

// Numbers of the search for a better place of one piece.
const (
	samplesAcross = 40 // places tried over the whole strip
	samplesNear   = 20 // and around the piece
	finalists     = 3  // the best of them, refined
)

// searcher moves pieces on a strip of a certain length. Several may work on one
// problem, each with a state of its own.
type searcher struct {
	*forms
	first  []int   // forms of shape k: first[k] to first[k+1]
	shape  []int   // of each piece, and then of each flaw
	pieces int     // the rest of state and shape are the flaws, which stay where they are
	reach  float64 // of the flaws
	width  float64 // of the strip
	length float64

	state
	bins   bins
	weight []float64 // n by n, symmetric, at least 1
	losses []float64 // n by n, symmetric
	pairs  []int32   // of pieces i > j, as i*n+j, that overlap or have a weight above 1
	listed []bool    // of i*n+j: is in pairs

	near     []int32 // scratch of forms.overlap
	order    []int32 // scratch of sweep
	overlaps []bool  // scratch of sweep

	random *rand.PCG
	work   int64 // places tried
	moves  int64 // and taken

	stopped bool // as soon as ctx is seen to be done; no place is better then
}

// lookEvery is the number of places tried from one look at ctx to the next, where
// pieces have no more than manyEdges: a few hundredths of a second at most. Where
// one has more, each place may take that long.
const (
	lookEvery = 64
	manyEdges = 250
)

// done reports whether ctx is, or was.
func (w *searcher) done() bool {
	w.stopped = w.stopped || w.ctx.Err() != nil
	return w.stopped
}

// uniform returns a whole number from 0 to n-1.
func (w *searcher) uniform(n int) int {
	hi, _ := bits.Mul64(w.random.Uint64(), uint64(n))
	return int(hi)
}

// between returns a whole number from lo to hi, both included.
func (w *searcher) between(lo, hi float64) float64 {
	if hi <= lo {
		return lo
	}
	return lo + float64(w.uniform(int(hi-lo)+1))
}

// room returns the largest x and y of form f inside the strip.
func (w *searcher) room(f int32) (x, y float64) {
	return w.length - w.all[f].w, w.width - w.all[f].h
}

// ends returns where piece i ends.
func (w *searcher) ends(i int) float64 { return w.x[i] + w.all[w.form[i]].w }

// used returns where the last piece ends, which may be before the length set.
func (w *searcher) used() float64 {
	end := 0.0
	for i := range w.pieces {
		end = max(end, w.ends(i))
	}
	return end
}

// fill puts every piece in its bins.
func (w *searcher) fill() {
	w.bins.clear()
	for i := range w.x {
		w.enter(i)
	}
}

// enter puts piece i in its bins.
func (w *searcher) enter(i int) {
	f, x, y := w.form[i], w.x[i], w.y[i]
	w.bins.insert(i, f, w.all[f].outline, x, y, x+w.all[f].w, y+w.all[f].h)
}

// measure computes all losses, of pieces that are in their bins.
func (w *searcher) measure() {
	n := len(w.x)
	for _, k := range w.pairs {
		i, j := int(k)/n, int(k)%n
		w.losses[i*n+j], w.losses[j*n+i] = 0, 0
	}
	for i := range w.pieces {
		w.meet(i)
	}
}

// measureRow computes the losses of piece i anew.
func (w *searcher) measureRow(i int) {
	n := len(w.x)
	for j, l := range w.losses[i*n : i*n+n] {
		if l > 0 {
			w.losses[i*n+j], w.losses[j*n+i] = 0, 0
		}
	}
	w.meet(i)
}

// meet enters the losses of piece i, which are 0, with the pieces around it.
func (w *searcher) meet(i int) {
	n, b := len(w.x), &w.bins
	s := &b.spots[i]
	a := &w.all[s.form]
	for v := s.fromY; v <= s.toY; v++ {
		for u := s.fromX; u <= s.toX; u++ {
			for _, id := range b.ids[v*b.nx+u] {
				j := int(id)
				t := &b.spots[j]
				if j == i || t.x0 >= s.x1 || t.x1 <= s.x0 || t.y0 >= s.y1 || t.y1 <= s.y0 ||
					max(s.fromX, t.fromX) != u || max(s.fromY, t.fromY) != v {
					continue
				}
				l := w.loss(a, &w.all[t.form], t.x0-s.x0, t.y0-s.y0, w.near)
				if l == 0 {
					continue
				}
				w.losses[i*n+j], w.losses[j*n+i] = l, l
				if k := max(i, j)*n + min(i, j); !w.listed[k] {
					w.listed[k] = true
					w.pairs = append(w.pairs, int32(k))
				}
			}
		}
	}
}

// total adds the losses of all pairs.
func (w *searcher) total() float64 {
	sum := 0.0
	for _, k := range w.pairs {
		sum += w.losses[k]
	}
	return sum
}

// weighted adds the weighted losses of piece i.
func (w *searcher) weighted(i int) float64 {
	n, sum := len(w.x), 0.0
	for j, l := range w.losses[i*n : i*n+n] {
		if l > 0 {
			sum += float64(l * w.weight[i*n+j])
		}
	}
	return sum
}

// evaluate returns the weighted loss of piece i as form f at x, y, or at least
// bound if that is where it ends. When ctx is done it returns bound, so that
// nothing is taken and all that search come to their end.
func (w *searcher) evaluate(i int, f int32, x, y, bound float64) float64 {
	w.work++
	if (w.work%lookEvery == 0 || w.most > manyEdges) && w.done() || w.stopped {
		return bound
	}
	a := &w.all[f]
	x1, y1 := x+a.w, y+a.h
	weight := w.weight[i*len(w.x):][:len(w.x)]
	sum := 0.0
	b := &w.bins
	fromX, toX, fromY, toY := b.column(x), b.column(x1), b.row(y), b.row(y1)
	tables := w.tablesOf(a)
	for v := fromY; v <= toY; v++ {
		for u := fromX; u <= toX; u++ {
			for _, j := range b.ids[v*b.nx+u] {
				s := &b.spots[j]
				if s.x0 >= x1 || s.x1 <= x || s.y0 >= y1 || s.y1 <= y || int(j) == i {
					continue
				}
				if max(s.fromX, fromX) != u || max(s.fromY, fromY) != v {
					continue // seen in an earlier bin
				}
				dx, dy := s.x0-x, s.y0-y
				var l float64 // as w.loss would return it: here is where the time goes
				switch t := tables.with(s.outline); {
				case t == nil:
					l = w.loss(a, &w.all[s.form], dx, dy, w.near)
				case a.outline <= s.outline:
					l = t.at(w.forms, a, &w.all[s.form], dx, dy, w.near)
				default:
					l = t.at(w.forms, &w.all[s.form], a, -dx, -dy, w.near)
				}
				sum += float64(l * weight[j])
				if sum >= bound {
					return bound
				}
			}
		}
	}
	return sum
}

// candidate is a place for a piece and its weighted loss.
type candidate struct {
	form    int32
	x, y, l float64
}

// sweep looks for a better place for every piece that overlaps another, in
// random order.
func (w *searcher) sweep() {
	n := len(w.x)
	clear(w.overlaps)
	for _, k := range w.pairs {
		if w.losses[k] > 0 {
			w.overlaps[int(k)/n], w.overlaps[int(k)%n] = true, true
		}
	}
	w.order = w.order[:0]
	for i, overlaps := range w.overlaps[:w.pieces] {
		if overlaps {
			w.order = append(w.order, int32(i))
		}
	}
	for k := len(w.order) - 1; k > 0; k-- {
		m := w.uniform(k + 1)
		w.order[k], w.order[m] = w.order[m], w.order[k]
	}
	for _, i := range w.order {
		if w.done() {
			return
		}
		now := w.weighted(int(i))
		if now == 0 {
			continue
		}
		if c := w.search(int(i), now); c.l < now {
			w.move(int(i), c)
		}
	}
}

// move puts piece i in another place.
func (w *searcher) move(i int, c candidate) {
	w.moves++
	w.bins.remove(i)
	w.form[i], w.x[i], w.y[i] = c.form, c.x, c.y
	w.enter(i)
	w.measureRow(i)
}

// search returns the best place it finds for piece i, whose loss is now.
func (w *searcher) search(i int, now float64) candidate {
	lo, hi := w.first[w.shape[i]], w.first[w.shape[i]+1]
	best := [finalists]candidate{{w.form[i], w.x[i], w.y[i], now}}
	for k := 1; k < finalists; k++ {
		best[k].l = math.Inf(1)
	}
	apart := 0.05 * w.all[w.form[i]].diameter
	for s := range samplesAcross + samplesNear {
		f := w.form[i]
		var x, y float64
		if s < samplesAcross {
			if g := int32(lo + w.uniform(hi-lo)); w.all[g].ends() <= w.length {
				f = g
			}
			roomX, roomY := w.room(f)
			x, y = w.between(0, roomX), w.between(0, roomY)
			x, y = w.all[f].onto(x, y, roomX, roomY)
		} else {
			g := &w.all[f]
			roomX, roomY := w.room(f)
			x = w.between(max(0, w.x[i]-g.w/2), min(roomX, w.x[i]+g.w/2))
			y = w.between(max(0, w.y[i]-g.h/2), min(roomY, w.y[i]+g.h/2))
			x, y = g.onto(math.Floor(x), math.Floor(y), roomX, roomY)
		}
		c := candidate{f, x, y, w.evaluate(i, f, x, y, best[finalists-1].l)}
		keep(&best, c, apart)
		if best[0].l == 0 {
			return best[0]
		}
	}
	least := w.all[w.form[i]].least
	for k := range best {
		if !math.IsInf(best[k].l, 1) {
			best[k] = w.descend(i, best[k], 0.25*least, 0.02*least)
		}
	}
	c := best[0]
	for _, b := range best[1:] {
		if b.l < c.l {
			c = b
		}
	}
	c = w.descend(i, c, 0.01*least, 0.001*least)
	if c.l > 0 {
		c = w.align(i, c)
	}
	return c
}

// keep enters c in a list ordered by loss; of two places nearer than apart it
// keeps the better.
func keep(best *[finalists]candidate, c candidate, apart float64) {
	last := finalists - 1
	if c.l >= best[last].l {
		return
	}
	for k := range best {
		b := &best[k]
		if b.form == c.form && !math.IsInf(b.l, 1) && math.Abs(b.x-c.x) < apart && math.Abs(b.y-c.y) < apart {
			if c.l >= b.l {
				return
			}
			last = k
			break
		}
	}
	for last > 0 && c.l < best[last-1].l {
		best[last] = best[last-1]
		last--
	}
	best[last] = c
}

// descend moves a candidate along an axis or a diagonal picked at random for as
// long as that lowers its loss, with steps that grow when they do and halve when
// they do not, from step down to least.
func (w *searcher) descend(i int, c candidate, step, least float64) candidate {
	roomX, roomY := w.room(c.form)
	gx, gy := &w.all[c.form].gx, &w.all[c.form].gy
	sx, sy := step, step
	least = max(least, 0.75)
	for (sx >= least || sy >= least) && c.l > 0 {
		dx, dy := 0.0, 0.0
		axis := w.uniform(4)
		switch axis {
		case 0:
			dx = sx
		case 1:
			dy = sy
		case 2:
			dx, dy = sx, sy
		default:
			dx, dy = sx, -sy
		}
		was := c
		for _, sign := range [2]float64{1, -1} {
			x := gx.step(was.x, sign*dx, roomX)
			y := gy.step(was.y, sign*dy, roomY)
			if x == was.x && y == was.y {
				continue
			}
			if l := w.evaluate(i, c.form, x, y, c.l); l < c.l {
				c.x, c.y, c.l = x, y, l
			}
		}
		by := 0.5
		if c.l < was.l {
			by = 1.1
		}
		if axis != 1 {
			sx *= by
		}
		if axis != 0 {
			sy *= by
		}
	}
	return c
}

// align moves a candidate a little along one axis so that one of its vertices
// comes level with one of a piece it overlaps, if that lowers its loss. It finds
// the fits without play that steps of any size miss.
func (w *searcher) align(i int, c candidate) candidate {
	n := len(w.x)
	roomX, roomY := w.room(c.form)
	a := &w.all[c.form]
	reach := 0.02 * a.least
	for range 2 {
		was := c
		for j := range n {
			b := &w.all[w.form[j]]
			dx, dy := w.x[j]-was.x, w.y[j]-was.y
			if j == i || dx >= a.w || dx <= -b.w || dy >= a.h || dy <= -b.h {
				continue
			}
			if w.done() {
				return c
			}
			for p := a.v0; p < a.v1; p++ {
				for q := b.v0; q < b.v1; q++ {
					sx, sy := w.vx[q]+dx-w.vx[p], w.vy[q]+dy-w.vy[p]
					if x := was.x + sx; sx != 0 && math.Abs(sx) < reach && x >= 0 && x <= roomX && a.gx.nearest(x, roomX) == x {
						if l := w.evaluate(i, c.form, x, was.y, c.l); l < c.l {
							c.x, c.y, c.l = x, was.y, l
						}
					}
					if y := was.y + sy; sy != 0 && math.Abs(sy) < reach && y >= 0 && y <= roomY && a.gy.nearest(y, roomY) == y {
						if l := w.evaluate(i, c.form, was.x, y, c.l); l < c.l {
							c.x, c.y, c.l = was.x, y, l
						}
					}
				}
			}
		}
		if c.l == 0 || c.l == was.l {
			break
		}
	}
	return c
}

// reweigh raises the weights of the pairs that overlap, of the worst the most,
// and lets the others fall back to 1.
func (w *searcher) reweigh() {
	n, worst := len(w.x), 0.0
	for _, k := range w.pairs {
		worst = max(worst, w.losses[k])
	}
	kept := w.pairs[:0]
	for _, k := range w.pairs {
		i, j := int(k)/n, int(k)%n
		l, weight := w.losses[k], w.weight[k]
		if l > 0 {
			weight *= 1.2 + float64(0.8*(l/worst))
			weight = min(weight, 1e12) // beyond, sums lose the light pairs
		} else {
			weight = max(1, 0.95*weight)
		}
		w.weight[i*n+j], w.weight[j*n+i] = weight, weight
		if l > 0 || weight > 1 {
			kept = append(kept, k)
		} else {
			w.listed[k] = false
		}
	}
	w.pairs = kept
}

// even sets all weights to 1.
func (w *searcher) even() {
	n := len(w.x)
	for _, k := range w.pairs {
		i, j := int(k)/n, int(k)%n
		w.weight[i*n+j], w.weight[j*n+i] = 1, 1
	}
}
