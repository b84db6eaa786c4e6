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

// There are at most so many bins, and so many more for each piece. Ordinary
// problems have far fewer, the published ones no more than 1,414 in all, and 1,000
// pieces on a square strip 30 each. Since losses are summed up bin by bin, other
// limits change layouts of problems that reach them, and only of those.
const (
	mostBins         = 1 << 14
	mostBinsForPiece = 64
	binSize          = 16 // pieces, seldom more
	binBytes         = 24 + 4*binSize
)

// newBins returns bins about as large as the boxes of pieces of a mean width and
// height, or larger if they are too many: small pieces, and a flaw far away.
func newBins(n int, width, height, length, strip float64) bins {
	most := mostBins + mostBinsForPiece*float64(n)
	for (length/width+2)*(strip/height+1) > most {
		if length/width > strip/height {
			width *= 2
		} else {
			height *= 2
		}
	}
	b := bins{perX: 1 / width, perY: 1 / height, nx: int32(length/width) + 2, ny: int32(strip/height) + 1, spots: make([]spot, n)}
	b.ids = make([][]int32, b.nx*b.ny)
	all := make([]int32, binSize*len(b.ids))
	for k := range b.ids {
		b.ids[k] = all[binSize*k : binSize*k : binSize*(k+1)]
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
