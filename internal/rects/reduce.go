package rects

// task is a problem made smaller without changing its answer.
type task struct {
	width       int64
	unit        way // what a unit of the task is across and along the strip
	base        int64
	first       []laid // pieces that no other can lie beside, from 0 to base
	kinds, rest []kind // all kinds, and those without the pieces of first
	of          []int  // rest[i] is kinds[of[i]]
}

// reduce divides the sides by what is common to them, takes off the width what
// no sum of sides fills, and lays first what nothing can lie beside, until
// that no longer helps.
func reduce(p Problem) *task {
	t := &task{width: p.Width, kinds: kindsOf(p)}
	var g way
	for _, k := range t.kinds {
		for _, w := range k.ways {
			g.w, g.h = common(g.w, w.w), common(g.h, w.h)
		}
	}
	t.unit = g
	t.width /= g.w
	for i := range t.kinds {
		k := &t.kinds[i]
		for j := range k.ways {
			k.ways[j].w /= g.w
			k.ways[j].h /= g.h
		}
		k.area = k.ways[0].w * k.ways[0].h
	}
	for i, k := range t.kinds {
		t.rest, t.of = append(t.rest, k), append(t.of, i)
	}
	for t.narrow() || t.stack() {
		continue
	}
	return t
}

func common(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// narrow reports whether it made the width less.
func (t *task) narrow() bool {
	if t.width > mostPlaces || len(t.rest) == 0 {
		return false
	}
	s := newSums(t.width)
	for _, k := range t.rest {
		for range k.count {
			s.add(k.ways, across)
		}
	}
	was := t.width
	t.width = s.below(was)
	return t.width < was
}

// stack reports whether it laid a kind that nothing can lie beside.
func (t *task) stack() bool {
	for i, k := range t.rest {
		beside := k.narrowest() // of the others
		if k.count == 1 {
			beside = t.width + 1
		}
		for j, o := range t.rest {
			if j != i {
				beside = min(beside, o.narrowest())
			}
		}
		if k.narrowest()+beside <= t.width {
			continue
		}
		best := 0
		for j, w := range k.ways {
			if w.h < k.ways[best].h {
				best = j
			}
		}
		for range k.count {
			t.first = append(t.first, laid{t.of[i], best, 0, t.base})
			t.base += k.ways[best].h
		}
		t.rest = append(t.rest[:i:i], t.rest[i+1:]...)
		t.of = append(t.of[:i:i], t.of[i+1:]...)
		return true
	}
	return false
}

func (k kind) lowest() int64 {
	h := k.ways[0].h
	for _, v := range k.ways {
		h = min(h, v.h)
	}
	return h
}

func (k kind) narrowest() int64 {
	w := k.ways[0].w
	for _, v := range k.ways {
		w = min(w, v.w)
	}
	return w
}

// layout is that of the problem.
func (t *task) layout(rest []laid) Layout {
	var l Layout
	at := make([]int, len(t.kinds)) // pieces used up, by kind
	place := func(kind int, a laid, base int64) {
		k := t.kinds[kind]
		m, n := 0, at[kind]
		for n >= k.of[m].count {
			n -= k.of[m].count
			m++
		}
		at[kind]++
		of := k.of[m]
		l.Places = append(l.Places, Place{
			Piece: of.piece, Turned: of.swapped != (a.way == 1),
			X: (a.y + base) * t.unit.h, Y: a.x * t.unit.w,
		})
		l.Length = max(l.Length, (a.y+base+k.ways[a.way].h)*t.unit.h)
	}
	for _, a := range t.first {
		place(a.kind, a, 0)
	}
	for _, a := range rest {
		place(t.of[a.kind], a, t.base)
	}
	return l
}
