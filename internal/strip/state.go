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

// slabs lists, for each slab across the strip, the pieces whose boxes reach into
// it.
type slabs struct {
	width   float64
	ids     [][]int32
	from    []int32 // first and last slab of each piece
	to      []int32
	present []bool
}

func newSlabs(n int, width, length float64) slabs {
	return slabs{
		width: width, ids: make([][]int32, int(length/width)+2),
		from: make([]int32, n), to: make([]int32, n), present: make([]bool, n),
	}
}

func (b *slabs) at(x float64) int32 {
	return min(max(int32(x/b.width), 0), int32(len(b.ids)-1))
}

func (b *slabs) clear() {
	for k := range b.ids {
		b.ids[k] = b.ids[k][:0]
	}
	clear(b.present)
}

func (b *slabs) insert(i int, x0, x1 float64) {
	b.from[i], b.to[i], b.present[i] = b.at(x0), b.at(x1), true
	for k := b.from[i]; k <= b.to[i]; k++ {
		b.ids[k] = append(b.ids[k], int32(i))
	}
}

func (b *slabs) remove(i int) {
	if !b.present[i] {
		return
	}
	b.present[i] = false
	for k := b.from[i]; k <= b.to[i]; k++ {
		ids := b.ids[k]
		for m, j := range ids {
			if int(j) == i {
				ids[m] = ids[len(ids)-1]
				b.ids[k] = ids[:len(ids)-1]
				break
			}
		}
	}
}
