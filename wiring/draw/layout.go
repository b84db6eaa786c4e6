package draw

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"example.com/forepeak/internal/svg"
	"example.com/forepeak/wiring"
)

// plan is a circuit laid out, or one band of it.
type plan struct {
	columns []column // by rising x
	rows    []row
	levels  int
	gaps    []float64 // width of the gap on the right of each column
	heights []height
	// What stands in the gaps, for drawing and to check that nothing overlaps.
	boxes []box
}

// column is a node where wires meet: a vertical line.
type column struct {
	node        string
	edge        bool // no node, but the end of a band, where wires go on in another
	x           float64
	top, bottom int // levels that it joins
	ends        int // wires that end at it
	label       []labelLine
}

// row is a chain of elements between two columns, on a level.
type row struct {
	from, to int // columns, from < to
	level    int
	items    []item
	gap      int // where the symbols stand
	// Labels of the columns at its ends that it carries, -1: none.
	left, right int
	negative    bool // all of it is joined to a negative post
	mark        int  // at the edges of bands, to find it again
}

// height of a level over and under its wire.
type height struct{ over, under float64 }

// item is an element in a row, from left to right.
type item struct {
	element int
	turned  bool // its From is on the right
	above   []string
	below   []string
	x       float64 // of its middle
}

// box is the place of a symbol with its texts, or of a label.
type box struct{ x0, x1, y0, y1 float64 }

// Sizes of the drawing in millimetres.
const (
	half      = 5.5 // of the tallest symbol
	clearance = 2.5 // between symbols, and from a column
	widest    = 260.0
	longest   = 150.0 // row of symbols; a longer one is cut at a node
	labelRoom = 30.0  // for the name of a node
	markRoom  = 9.0   // for a mark at the edge of a band
	between   = 6.0   // bands
)

// lay lays out a circuit in bands, one below the other, none wider than the page. Nodes that are
// joints get a name; partly are nodes that are joints whatever the circuit says.
func lay(c wiring.Circuit, partly map[string]bool, texts func(i int) (above, below []string), label func(node string) []labelLine) []*plan {
	items := make([]item, len(c.Elements))
	for i := range items {
		items[i].element = i
		items[i].above, items[i].below = texts(i)
	}
	chains := chainsOf(c, partly, func(i int) float64 { return items[i].width(c) + clearance })
	whole := &plan{}
	whole.place(c, chains, items, label)
	for i := range whole.rows {
		whole.rows[i].mark = i + 1
	}
	whole.assignLevels()
	whole.assignLabels()
	whole.assignGaps(c)
	const page = widest - 2*margin
	for room := page; ; room -= 10 {
		bands := whole.cut(room)
		fits := true
		for _, p := range bands {
			p.assignLevels()
			p.assignLabels()
			p.assignGaps(c)
			fits = fits && (p.width() <= page || len(p.columns) <= 3)
		}
		if fits || room < 40 {
			renumber(bands)
			return bands
		}
	}
}

func (p *plan) width() float64 { return p.columns[len(p.columns)-1].x }

// cut parts the columns, each with the gap on its right, into bands. A row that goes on in
// another band ends at an edge.
func (p *plan) cut(room float64) []*plan {
	var bands []*plan
	for from := 0; from < len(p.columns); {
		to, x := from, 0.0
		for to < len(p.columns) && (to == from || x+p.gaps[to] <= room-edges(from > 0)-edges(to+1 < len(p.columns))) {
			x += p.gaps[to]
			to++
		}
		bands = append(bands, p.band(from, to))
		from = to
	}
	return bands
}

// edges is the room for the marks of an edge.
func edges(there bool) float64 {
	if there {
		return markRoom
	}
	return 0
}

// band is that of the columns from one up to another.
func (p *plan) band(from, to int) *plan {
	b := &plan{}
	left, right := false, false
	for _, r := range p.rows {
		left = left || r.from < from && r.to >= from
		right = right || r.from < to && r.to >= to
	}
	edge := column{edge: true, top: math.MaxInt, bottom: -1}
	shift := -from
	if left {
		b.columns = append(b.columns, edge)
		shift++
	}
	for _, k := range p.columns[from:to] {
		k.top, k.bottom = math.MaxInt, -1
		b.columns = append(b.columns, k)
	}
	if right {
		b.columns = append(b.columns, edge)
	}
	for _, r := range p.rows {
		if r.to < from || r.from >= to || r.from == r.to {
			continue
		}
		if r.gap < from || r.gap >= to {
			r.items = nil
		}
		r.items = slices.Clone(r.items)
		r.from = max(r.from+shift, 0)
		r.to = min(r.to+shift, len(b.columns)-1)
		r.left, r.right = -1, -1
		b.rows = append(b.rows, r)
	}
	return b
}

// renumber counts the marks in the order in which they are met.
func renumber(bands []*plan) {
	marks := map[int]int{}
	for _, p := range bands {
		for i := range p.rows {
			r := &p.rows[i]
			if !p.columns[r.from].edge && !p.columns[r.to].edge {
				continue
			}
			if marks[r.mark] == 0 {
				marks[r.mark] = len(marks) + 1
			}
			r.mark = marks[r.mark]
		}
	}
}

// chain is a path of elements between two joints.
type chain struct {
	from, to string
	elements []int
}

// chainsOf parts a circuit into chains. Joints are nodes with other than two ends, posts of
// sources, nodes at which something ends that is not shown, and one in the middle of what would
// be too long for a row.
func chainsOf(c wiring.Circuit, partly map[string]bool, width func(i int) float64) []chain {
	at := map[string][]int{}
	joint := maps.Clone(partly)
	if joint == nil {
		joint = map[string]bool{}
	}
	for i, e := range c.Elements {
		at[e.From] = append(at[e.From], i)
		at[e.To] = append(at[e.To], i)
		if e.Battery != nil || e.Alternator != nil {
			joint[e.From], joint[e.To] = true, true
		}
	}
	for n, list := range at {
		if len(list) != 2 {
			joint[n] = true
		}
	}
	for {
		chains, loop := follow(c, at, joint)
		if loop == "" {
			loop = tooLong(c, chains, width)
		}
		if loop == "" {
			return chains
		}
		joint[loop] = true
	}
}

// tooLong is a node at which to cut a chain that is too long for a row.
func tooLong(c wiring.Circuit, chains []chain, width func(i int) float64) string {
	for _, k := range chains {
		sum, node := 0.0, k.from
		for n, i := range k.elements {
			if sum += width(i); sum > longest && n > 0 {
				return node
			}
			node = other(c.Elements[i], node)
		}
	}
	return ""
}

// follow walks from joint to joint. loop is a node to make a joint of first: on a ring
// without joints, or on a chain that returns to where it began.
func follow(c wiring.Circuit, at map[string][]int, joint map[string]bool) (chains []chain, loop string) {
	done := make([]bool, len(c.Elements))
	for i, e := range c.Elements {
		for _, start := range []string{e.From, e.To} {
			if done[i] || !joint[start] {
				continue
			}
			k := chain{from: start}
			node, next := start, i
			for {
				done[next] = true
				k.elements = append(k.elements, next)
				node = other(c.Elements[next], node)
				if joint[node] {
					break
				}
				// A node that is no joint has two ends: go on by the other.
				if at[node][0] == next {
					next = at[node][1]
				} else {
					next = at[node][0]
				}
			}
			k.to = node
			if k.to == k.from {
				return nil, other(c.Elements[i], start)
			}
			chains = append(chains, k)
		}
	}
	for i, d := range done {
		if !d {
			return nil, c.Elements[i].From
		}
	}
	return chains, ""
}

func other(e wiring.Element, node string) string {
	if node == e.From {
		return e.To
	}
	return e.From
}

// place orders the columns: the negative post of the first source, its positive post,
// then what hangs on it by the number of chains, then what hangs on the negative
// post, then the rest.
func (p *plan) place(c wiring.Circuit, chains []chain, items []item, label func(string) []labelLine) {
	plus, minus := "", ""
	for _, e := range c.Elements {
		if e.Battery != nil || e.Alternator != nil {
			minus, plus = e.From, e.To
			break
		}
	}
	if plus == "" {
		plus, minus = c.Elements[0].From, c.Elements[len(c.Elements)-1].To
	}
	fromMinus := joined(c, minus)
	hops := map[string]int{}
	var order []string
	visit := func(n string) {
		if _, ok := hops[n]; !ok {
			hops[n] = len(order)
			order = append(order, n)
		}
	}
	visit(plus)
	for i := 0; i < len(order); i++ {
		for _, k := range chains {
			switch {
			case fromMinus[k.from] || fromMinus[k.to]:
			case k.from == order[i]:
				visit(k.to)
			case k.to == order[i]:
				visit(k.from)
			}
		}
	}
	for _, k := range chains {
		for _, n := range []string{k.from, k.to} {
			if !fromMinus[n] {
				visit(n)
			}
		}
	}
	// The negative side from its far end to the post, so that the returns of the loads are short.
	var negative []string
	for _, k := range chains {
		for _, n := range []string{k.from, k.to} {
			if fromMinus[n] && n != minus && !slices.Contains(negative, n) {
				negative = append(negative, n)
			}
		}
	}
	order = slices.Concat([]string{minus}, order, negative)
	index := map[string]int{}
	for i, n := range order {
		if _, twice := index[n]; twice {
			continue
		}
		index[n] = len(p.columns)
		p.columns = append(p.columns, column{node: order[i], top: math.MaxInt, bottom: -1, label: label(n)})
	}
	for _, k := range chains {
		r := row{from: index[k.from], to: index[k.to], left: -1, right: -1, negative: fromMinus[k.from] && fromMinus[k.to]}
		node := k.from
		for _, i := range k.elements {
			it := items[i]
			it.turned = c.Elements[i].From != node
			r.items = append(r.items, it)
			node = other(c.Elements[i], node)
		}
		if r.from > r.to {
			r.from, r.to = r.to, r.from
			slices.Reverse(r.items)
			for j := range r.items {
				r.items[j].turned = !r.items[j].turned
			}
		}
		p.rows = append(p.rows, r)
		p.columns[r.from].ends++
		p.columns[r.to].ends++
	}
}

// joined is what is joined to a node by cables, devices and contacts, as they would be
// if closed; leakage and faults join nothing.
func joined(c wiring.Circuit, node string) map[string]bool {
	seen := map[string]bool{node: true}
	for changed := true; changed; {
		changed = false
		for _, e := range c.Elements {
			conducts := e.Cable != nil || e.Device != nil ||
				e.Contact != nil && !e.Contact.Open && e.Contact.Role != wiring.Leakage && e.Contact.Role != wiring.Fault && e.Contact.Role != wiring.Solenoid
			if conducts && seen[e.From] != seen[e.To] {
				seen[e.From], seen[e.To] = true, true
				changed = true
			}
		}
	}
	return seen
}

// assignLevels gives each row the highest level on which no other row lies in its
// way. Rows on the negative side come last, below all others.
func (p *plan) assignLevels() {
	order := make([]int, len(p.rows))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := &p.rows[a], &p.rows[b]
		return cmp.Or(cmp.Compare(btoi(x.negative), btoi(y.negative)), cmp.Compare(x.from, y.from), cmp.Compare(x.to, y.to))
	})
	var taken [][]row
	first := 0
	for n, i := range order {
		r := &p.rows[i]
		if r.negative && (n == 0 || !p.rows[order[n-1]].negative) {
			first = len(taken)
		}
		r.level = first
		for r.level < len(taken) && slices.ContainsFunc(taken[r.level], func(o row) bool { return o.from < r.to && r.from < o.to }) {
			r.level++
		}
		if r.level == len(taken) {
			taken = append(taken, nil)
		}
		taken[r.level] = append(taken[r.level], *r)
		for _, k := range []int{r.from, r.to} {
			p.columns[k].top = min(p.columns[k].top, r.level)
			p.columns[k].bottom = max(p.columns[k].bottom, r.level)
		}
	}
	p.levels = len(taken)
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// assignLabels writes the name of each column over the uppermost wire that leaves it to the
// right, or else reaches it from the left.
func (p *plan) assignLabels() {
	for k := range p.columns {
		if p.columns[k].edge {
			continue
		}
		best, right := -1, false
		for i, r := range p.rows {
			if r.from != k && r.to != k {
				continue
			}
			better := best < 0 || r.from == k && right || r.from == k == !right && r.level < p.rows[best].level
			if better {
				best, right = i, r.to == k
			}
		}
		switch {
		case best < 0:
		case right:
			p.rows[best].right = k
		default:
			p.rows[best].left = k
		}
	}
}

// assignGaps chooses for every row the gap in which its symbols stand, so that the
// drawing grows least, and places everything.
func (p *plan) assignGaps(c wiring.Circuit) {
	p.measure()
	p.gaps = make([]float64, len(p.columns))
	need := make([]map[int]float64, len(p.rows)) // by gap
	for i := range p.rows {
		r := &p.rows[i]
		need[i] = map[int]float64{}
		if r.left >= 0 {
			need[i][r.from] += labelWidth(p.columns[r.left].label) + clearance
		}
		if r.right >= 0 {
			need[i][r.to-1] += labelWidth(p.columns[r.right].label) + clearance
		}
		if p.columns[r.from].edge {
			need[i][r.from] += markRoom
		}
		if p.columns[r.to].edge {
			need[i][r.to-1] += markRoom
		}
		for g, w := range need[i] {
			p.gaps[g] = math.Max(p.gaps[g], w+2*clearance)
		}
	}
	order := make([]int, len(p.rows))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(p.rows[a].to-p.rows[a].from, p.rows[b].to-p.rows[b].from)
	})
	for _, i := range order {
		r := &p.rows[i]
		if len(r.items) == 0 { // only on its way through
			r.gap = r.from
			continue
		}
		width := clearance
		for _, it := range r.items {
			width += it.width(c) + clearance
		}
		best := math.Inf(1)
		for g := r.from; g < r.to; g++ {
			grow := math.Max(0, width+need[i][g]+clearance-p.gaps[g])
			if grow < best {
				best, r.gap = grow, g
			}
		}
		p.gaps[r.gap] += best
	}
	x := 0.0
	for k := range p.columns {
		p.columns[k].x = x
		x += p.gaps[k]
	}
	for i := range p.rows {
		p.placeItems(c, &p.rows[i])
	}
}

// measure finds how tall every level has to be.
func (p *plan) measure() {
	p.heights = make([]height, p.levels)
	for i := range p.heights {
		p.heights[i] = height{line + 1, 1}
	}
	for _, r := range p.rows {
		h := &p.heights[r.level]
		for _, k := range []int{r.left, r.right} {
			if k >= 0 {
				h.over = math.Max(h.over, 2.5+line*float64(len(p.columns[k].label)))
			}
		}
		for _, it := range r.items {
			h.over = math.Max(h.over, half+1+line*float64(len(it.above)))
			h.under = math.Max(h.under, half+1+line*float64(len(it.below)))
		}
	}
}

// placeItems spreads a row's symbols over its gap.
func (p *plan) placeItems(c wiring.Circuit, r *row) {
	y := p.y(r.level)
	lo, hi := p.columns[r.gap].x+clearance, p.columns[r.gap+1].x-clearance
	if p.columns[r.gap].edge {
		lo += markRoom
	}
	if p.columns[r.gap+1].edge {
		hi -= markRoom
	}
	for _, e := range []struct {
		column int
		x      float64
	}{{r.from, 0}, {r.to, -markRoom}} {
		if k := p.columns[e.column]; k.edge {
			p.boxes = append(p.boxes, box{k.x + e.x, k.x + e.x + markRoom, y - line, y - 0.5})
		}
	}
	if r.left >= 0 {
		w := labelWidth(p.columns[r.left].label)
		x := p.columns[r.from].x + clearance
		p.boxes = append(p.boxes, box{x, x + w, y - p.heights[r.level].over, y - 0.5})
		if r.gap == r.from {
			lo += w + clearance
		}
	}
	if r.right >= 0 {
		w := labelWidth(p.columns[r.right].label)
		x := p.columns[r.to].x - clearance
		p.boxes = append(p.boxes, box{x - w, x, y - p.heights[r.level].over, y - 0.5})
		if r.gap == r.to-1 {
			hi -= w + clearance
		}
	}
	total := 0.0
	for _, it := range r.items {
		total += it.width(c)
	}
	space := (hi - lo - total) / float64(len(r.items)+1)
	for j := range r.items {
		it := &r.items[j]
		w := it.width(c)
		lo += space
		it.x = lo + w/2
		p.boxes = append(p.boxes, box{lo, lo + w, y - p.heights[r.level].over, y + p.heights[r.level].under})
		lo += w
	}
}

// y is where the wire of a level runs.
func (p *plan) y(level int) float64 {
	y := 0.0
	for _, h := range p.heights[:level] {
		y += h.over + h.under + 2
	}
	return y + p.heights[level].over
}

func (p *plan) height() float64 { return p.y(p.levels-1) + p.heights[p.levels-1].under }

// width of a symbol with its texts.
func (it *item) width(c wiring.Circuit) float64 {
	w := symbolWidth(c.Elements[it.element])
	for _, s := range it.above {
		w = math.Max(w, svg.TextWidth(s, body)*bold)
	}
	for _, s := range it.below {
		w = math.Max(w, svg.TextWidth(s, body))
	}
	return w
}

func labelWidth(lines []labelLine) float64 {
	w := 0.0
	for _, l := range lines {
		w = math.Max(w, svg.TextWidth(l.text, body)*bold)
	}
	return w
}
