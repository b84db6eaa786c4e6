package rects

// The skyline is the upper edge of what is laid, seen along the strip: level
// stretches from one side of the strip to the other.
type stretch struct{ x, w, y int64 } // across the strip from x, w wide, at y along it

// raise puts the part from x, w wide, of the stretch sky[i] to the height top and
// returns the skyline in dst, with stretches of one height made one.
func raise(dst, sky []stretch, i int, x, w, top int64) []stretch {
	dst = dst[:0]
	add := func(s stretch) {
		if s.w == 0 {
			return
		}
		if n := len(dst); n > 0 && dst[n-1].y == s.y {
			dst[n-1].w += s.w
			return
		}
		dst = append(dst, s)
	}
	for j, s := range sky {
		if j != i {
			add(s)
			continue
		}
		add(stretch{s.x, x - s.x, s.y})
		add(stretch{x, w, top})
		add(stretch{x + w, s.x + s.w - x - w, s.y})
	}
	return dst
}

// walls are the heights on the left and on the right of a stretch; at the sides
// of the strip, and beyond them, it is most.
func walls(sky []stretch, i int, most int64) (left, right int64) {
	left, right = most, most
	if i > 0 {
		left = sky[i-1].y
	}
	if i+1 < len(sky) {
		right = sky[i+1].y
	}
	return left, right
}

// laid is a piece of a kind in one of its ways, its corner at x across the strip
// and y along it.
type laid struct {
	kind, way int
	x, y      int64
}

// fitter lays pieces one after another by best fit: on the lowest gap the piece
// that suits it best, ties broken by rank; a gap for which there is none is given up.
type fitter struct {
	width     int64
	kinds     []kind
	left      []int
	sky, next []stretch
	out       []laid
	work      int64
}

func newFitter(width int64, kinds []kind) *fitter {
	return &fitter{width: width, kinds: kinds, left: make([]int, len(kinds))}
}

// lay lays all pieces and returns the length. rank says which kinds go first where
// several suit a gap alike, and how much better a fit must be to go before:
// with weight 0 it is the rank alone that decides.
func (f *fitter) lay(rank []int, weight int) int64 {
	const high = int64(1) << 40
	f.sky = append(f.sky[:0], stretch{0, f.width, 0})
	f.out = f.out[:0]
	n := 0
	for k := range f.kinds {
		f.left[k] = f.kinds[k].count
		n += f.left[k]
	}
	var length int64
	for n > 0 {
		low := 0
		for i := range f.sky {
			if f.sky[i].y < f.sky[low].y {
				low = i
			}
		}
		gap := f.sky[low]
		left, right := walls(f.sky, low, high)
		best, bestWay, bestScore := -1, 0, 0
		for k := range f.kinds {
			if f.left[k] == 0 {
				continue
			}
			for w, v := range f.kinds[k].ways {
				if v.w > gap.w {
					continue
				}
				score := 0
				if v.w == gap.w {
					score += 2
				}
				if gap.y+v.h == left || gap.y+v.h == right {
					score++
				}
				score = score*weight - rank[k]
				if best < 0 || score > bestScore || score == bestScore && v.w > f.kinds[best].ways[bestWay].w {
					best, bestWay, bestScore = k, w, score
				}
			}
		}
		if best < 0 {
			f.next = raise(f.next, f.sky, low, gap.x, gap.w, min(left, right))
			f.sky, f.next = f.next, f.sky
			continue
		}
		f.work++
		v := f.kinds[best].ways[bestWay]
		x := gap.x
		if right > left && right < high || left == high && low > 0 {
			x = gap.x + gap.w - v.w // beside the higher wall
		}
		f.out = append(f.out, laid{best, bestWay, x, gap.y})
		length = max(length, gap.y+v.h)
		f.left[best]--
		n--
		f.next = raise(f.next, f.sky, low, x, v.w, gap.y+v.h)
		f.sky, f.next = f.next, f.sky
	}
	return length
}
