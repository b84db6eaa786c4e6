package strip

// state is where every piece lies.
type state struct {
	form []int32 // index into forms
	x, y []float64
}

func newState(n int) state {
	return state{form: make([]int32, n), x: make([]float64, n), y: make([]float64, n)}
}

func (s *state) copy(t *state) {
	copy(s.form, t.form)
	copy(s.x, t.x)
	copy(s.y, t.y)
}

// bins lists, for each rectangle of a grid over the strip, the pieces whose boxes
// reach into it.
type bins struct {
	perX, perY float64 // bins in a unit
	nx, ny     int32
	ids        [][]int32
	spots      []spot // of the pieces
}

// spot is the box of a piece and the bins it reaches into, from the lower left
// to the upper right.
type spot struct {
	x0, y0, x1, y1 float64
	fromX, fromY   int32
	toX, toY       int32
	form           int32
	outline        int // of form
	present        bool
}

// newBins returns bins about as large as the boxes of pieces of a mean width and
// height.
func newBins(n int, width, height, length, strip float64) bins {
	b := bins{perX: 1 / width, perY: 1 / height, nx: int32(length/width) + 2, ny: int32(strip/height) + 1, spots: make([]spot, n)}
	b.ids = make([][]int32, b.nx*b.ny)
	const most = 16 // seldom more pieces in a bin
	all := make([]int32, most*len(b.ids))
	for k := range b.ids {
		b.ids[k] = all[most*k : most*k : most*(k+1)]
	}
	return b
}

func (b *bins) column(x float64) int32 { return min(max(int32(float64(x*b.perX)), 0), b.nx-1) }
func (b *bins) row(y float64) int32    { return min(max(int32(float64(y*b.perY)), 0), b.ny-1) }

func (b *bins) clear() {
	for k := range b.ids {
		b.ids[k] = b.ids[k][:0]
	}
	clear(b.spots)
}

func (b *bins) insert(i int, form int32, outline int, x0, y0, x1, y1 float64) {
	s := spot{x0, y0, x1, y1, b.column(x0), b.row(y0), b.column(x1), b.row(y1), form, outline, true}
	b.spots[i] = s
	for y := s.fromY; y <= s.toY; y++ {
		for x := s.fromX; x <= s.toX; x++ {
			b.ids[y*b.nx+x] = append(b.ids[y*b.nx+x], int32(i))
		}
	}
}

func (b *bins) remove(i int) {
	s := &b.spots[i]
	if !s.present {
		return
	}
	s.present = false
	for y := s.fromY; y <= s.toY; y++ {
		for x := s.fromX; x <= s.toX; x++ {
			ids := b.ids[y*b.nx+x]
			for m, j := range ids {
				if int(j) == i {
					ids[m] = ids[len(ids)-1]
					b.ids[y*b.nx+x] = ids[:len(ids)-1]
					break
				}
			}
		}
	}
}
