package canvas

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"example.com/forepeak/internal/strip"
	"example.com/forepeak/units"
)

// Parts of the budget for filling offcuts and for exchange between rolls.
const (
	fillingEnds  = 0.5
	exchangePart = 0.4 // of what is left
)

// expense is what a plan comes to. What costs nothing still takes cloth, and what
// is bought by the metre may be rounded down once a little more is saved.
type expense struct {
	left   float64 // area of the pieces that are not laid
	money  float64
	before float64 // rounding up
	length float64 // of what is bought
}

func (a expense) plus(b expense) expense {
	return expense{a.left + b.left, a.money + b.money, a.before + b.before, a.length + b.length}
}

// less compares one after the other; what is alike but for rounding is alike.
func (a expense) less(b expense) bool {
	const hair = 1e-7
	for _, d := range [...]float64{a.left - b.left, a.money - b.money, a.before - b.before, a.length - b.length} {
		if math.Abs(d) > hair {
			return d < 0
		}
	}
	return false
}

// expense of a length of a roll, in use.
func (s *laying) expense(roll int, used units.Length) expense {
	r := &s.lay.Rolls[roll]
	_, cost := s.lay.cost(r, used)
	out := expense{money: float64(cost), before: float64(r.Value) + float64(float64(r.Price)*float64(used))}
	if r.Length == 0 || r.Price > 0 {
		out.length = float64(used)
	}
	return out
}

func (s *laying) expenseOf(sheets []filled, left []int) (sum expense) {
	for _, t := range sheets {
		sum = sum.plus(s.expense(t.roll, s.used(t)))
	}
	for k, n := range left {
		sum.left += float64(float64(n) * float64(s.lay.area(s.kinds[k].area)))
	}
	return sum
}

// assign makes a start: offcuts are filled, those of the least cost for their area
// first, for as long as that pays, and the rest goes on one roll.
func (s *laying) assign() (*exchange, error) {
	var sheets []filled
	left := make([]int, len(s.kinds))
	for k := range s.kinds {
		left[k] = s.kinds[k].count
	}
	quick := strip.Options{Work: max(min(500, s.options.Work/4), s.options.Work/200)}
	rest, unlaid, err := s.endless(left, quick)
	if err != nil {
		return nil, err
	}
	total := s.expenseOf(rest, unlaid)
	var finite []int
	for i, r := range s.lay.Rolls {
		if r.Length > 0 {
			finite = append(finite, i)
		}
	}
	worth := func(i int) float64 {
		r := &s.lay.Rolls[i]
		_, c := s.lay.cost(r, r.Length)
		return float64(c) / (float64(r.Length) * float64(r.Width))
	}
	slices.SortStableFunc(finite, func(a, b int) int { return cmp.Compare(worth(a), worth(b)) })
	for _, i := range finite {
		t, err := s.fill(i, left, quick)
		if err != nil {
			return nil, err
		}
		if t == nil {
			continue
		}
		after := slices.Clone(left)
		for k, n := range t.counts {
			after[k] -= n
		}
		next, nextUnlaid, err := s.endless(after, quick)
		if err != nil {
			return nil, err
		}
		with := s.expenseOf(append(slices.Clone(sheets), *t), nil).plus(s.expenseOf(next, nextUnlaid))
		if !total.less(with) {
			sheets, left, rest, unlaid, total = append(sheets, *t), after, next, nextUnlaid, with
		}
	}
	x := &exchange{laying: s, on: make([]*filled, len(s.lay.Rolls)), left: unlaid, quick: quick, known: map[string]*filled{}}
	for _, t := range append(sheets, rest...) {
		x.on[t.roll] = &t
	}
	return x, nil
}

// endless lays what is left on rolls without an end, the whole on each in turn,
// and what does not fit there on the others; it returns the cheapest, and what
// fits none.
func (s *laying) endless(left []int, quick strip.Options) (best []filled, unlaid []int, err error) {
	var all []int
	for i, r := range s.lay.Rolls {
		if r.Length == 0 {
			all = append(all, i)
		}
	}
	if len(all) == 0 {
		return nil, slices.Clone(left), nil
	}
	var least expense
	for m := range all {
		rest := slices.Clone(left)
		var sheets []filled
		for _, i := range append(slices.Clone(all[m:]), all[:m]...) {
			t := filled{roll: i, counts: make([]int, len(rest))}
			some := false
			for k, n := range rest {
				fits := false
				if n > 0 {
					if fits, err = s.roomFor(i, k); err != nil {
						return nil, nil, err
					}
				}
				if fits {
					t.counts[k], rest[k], some = n, 0, true
				}
			}
			if !some {
				continue
			}
			if ok, err := s.solve(&t, quick); err != nil || !ok {
				return nil, nil, err
			}
			sheets = append(sheets, t)
		}
		if sum := s.expenseOf(sheets, rest); unlaid == nil || sum.less(least) {
			best, unlaid, least = sheets, rest, sum
		}
	}
	return best, unlaid, nil
}

// fill lays as many pieces as it can on a roll that has an end, the largest
// first; nil if none fits. All of them are tried first; then half as many, and so on
// until it is known how many of them there is room for; then each of the others.
func (s *laying) fill(roll int, left []int, quick strip.Options) (*filled, error) {
	var order []int // a kind for each piece that may lie there
	kinds := make([]int, len(s.kinds))
	for k := range kinds {
		kinds[k] = k
	}
	slices.SortStableFunc(kinds, func(a, b int) int { return cmp.Compare(s.kinds[b].area, s.kinds[a].area) })
	for _, k := range kinds {
		fits, err := s.roomFor(roll, k)
		if err != nil {
			return nil, err
		}
		if fits {
			order = append(order, slices.Repeat([]int{k}, left[k])...)
		}
	}
	if s.lay.Rolls[roll].Price == 0 { // of an offcut, shorter is no better
		quick.Target = s.end(roll)
	}
	var best *filled
	try := func(counts []int) (bool, error) {
		t := &filled{roll: roll, counts: counts}
		if best != nil && (s.ctx.Err() != nil || s.spent(s.work) > fillingEnds) || s.over(t) {
			return false, nil
		}
		ok, err := s.solve(t, quick)
		if errors.Is(err, ErrInput) { // too many for one search, perhaps not for several rolls
			return false, nil
		}
		if ok {
			best = t
		}
		return ok, err
	}
	// There is room for the first low pieces, and none was found for the first high.
	low, high := 0, len(order)+1
	for n := len(order); n > low && n < high; n = (low + high) / 2 {
		counts := make([]int, len(s.kinds))
		for _, k := range order[:n] {
			counts[k]++
		}
		ok, err := try(counts)
		if err != nil {
			return nil, err
		}
		if ok {
			low = n
		} else {
			high = n
		}
	}
	full := -1 // a kind that has found no room
	if low < len(order) {
		full = order[low]
	}
	for _, k := range order[low:] {
		if k == full {
			continue
		}
		counts := make([]int, len(s.kinds))
		if best != nil {
			copy(counts, best.counts)
		}
		counts[k]++
		ok, err := try(counts)
		if err != nil {
			return nil, err
		}
		if !ok {
			full = k
		}
	}
	return best, nil
}

// over reports whether pieces are sure not to fit before a roll's end.
func (s *laying) over(t *filled) bool {
	r := &s.lay.Rolls[t.roll]
	return r.Length > 0 && s.bound(t.roll, t.counts) > s.lay.of(r.Length)+1e-3
}

// exchange moves pieces from roll to roll, for as long as that saves something,
// and then again with more work for each move.
type exchange struct {
	*laying
	on    []*filled // by roll, nil where nothing is laid
	left  []int
	quick strip.Options
	known map[string]*filled // what was laid before, nil where there was no room
}

// move takes pieces from a roll, or from those that are left, to another roll, and
// others back.
type move struct {
	from, to int   // from -1 is what is left
	counts   []int // negative where they go back
}

func (x *exchange) run(until float64) error {
	random := rand.New(rand.NewPCG(x.options.Seed, 7))
	for {
		moves := x.moves()
		random.Shuffle(len(moves), func(i, j int) { moves[i], moves[j] = moves[j], moves[i] })
		for range 1000 {
			if m, ok := x.some(random); ok {
				moves = append(moves, m)
			}
		}
		better := false
		for _, m := range moves {
			if x.ctx.Err() != nil || x.spent(x.work) > until {
				return nil
			}
			var err error
			if better, err = x.try(m); err != nil {
				return err
			} else if better {
				break
			}
		}
		if better {
			continue
		}
		// Look harder, but not when there is nothing to look at, or one look would
		// take it all.
		x.quick.Work *= 4
		if len(x.known) == 0 || x.quick.Work > x.options.Work/2 {
			return nil
		}
		clear(x.known)
	}
}

// some is a move of a few pieces to and fro, whichever.
func (x *exchange) some(random *rand.Rand) (move, bool) {
	m := move{from: random.IntN(len(x.on)), to: random.IntN(len(x.on)), counts: make([]int, len(x.kinds))}
	if m.from == m.to {
		return m, false
	}
	pick := func(roll, pieces, sign int) {
		have := x.at(roll)
		for range pieces {
			k := random.IntN(len(have))
			if have[k] > sign*m.counts[k] && m.counts[k]*sign >= 0 {
				m.counts[k] += sign
			}
		}
	}
	pick(m.from, 2+random.IntN(4), 1)
	pick(m.to, random.IntN(4), -1)
	return m, true
}

func (x *exchange) at(roll int) []int {
	switch {
	case roll < 0:
		return x.left
	case x.on[roll] == nil:
		return make([]int, len(x.kinds))
	}
	return x.on[roll].counts
}

// moves lists those of one piece, of all of a kind, of all there is, and one piece
// against another.
func (x *exchange) moves() (out []move) {
	const most = 4000
	for from := -1; from < len(x.on); from++ {
		have := x.at(from)
		for to := range x.on {
			if to == from {
				continue
			}
			kinds, pieces := 0, 0
			for k, n := range have {
				if n == 0 || len(out) > most {
					continue
				}
				kinds, pieces = kinds+1, pieces+n
				one := make([]int, len(have))
				one[k] = 1
				out = append(out, move{from, to, one})
				if n > 1 {
					all := make([]int, len(have))
					all[k] = n
					out = append(out, move{from, to, all})
				}
				for m, back := range x.at(to) {
					if back > 0 && m != k {
						swap := slices.Clone(one)
						swap[m] = -1
						out = append(out, move{from, to, swap})
					}
				}
			}
			if kinds > 1 {
				out = append(out, move{from, to, slices.Clone(have)})
			}
		}
	}
	return out
}

// try makes a move if it saves something.
func (x *exchange) try(m move) (bool, error) {
	after := [2][]int{slices.Clone(x.at(m.from)), slices.Clone(x.at(m.to))}
	for k, n := range m.counts {
		after[0][k] -= n
		after[1][k] += n
	}
	rolls := [2]int{m.from, m.to}
	var was, least expense
	for i, roll := range rolls {
		if roll < 0 {
			was, least = was.plus(x.expenseOf(nil, x.left)), least.plus(x.expenseOf(nil, after[i]))
			continue
		}
		if x.on[roll] != nil {
			was = was.plus(x.expense(roll, x.used(*x.on[roll])))
		}
		for k, n := range after[i] {
			if fits, err := x.roomFor(roll, k); n > 0 && (err != nil || !fits) {
				return false, err
			}
		}
		if slices.Max(after[i]) > 0 {
			t := filled{roll: roll, counts: after[i]}
			if x.over(&t) {
				return false, nil
			}
			least = least.plus(x.expense(roll, x.lay.length(x.bound(roll, after[i]))))
		}
	}
	if !least.less(was) {
		return false, nil // however they are laid
	}
	var now expense
	var laid [2]*filled
	for _, i := range []int{1, 0} { // first where more may be laid than before
		roll := rolls[i]
		if roll < 0 {
			now = now.plus(x.expenseOf(nil, after[i]))
			continue
		}
		if slices.Max(after[i]) == 0 {
			continue
		}
		var err error
		if laid[i], err = x.laidOn(roll, after[i]); err != nil || laid[i] == nil {
			return false, err
		}
		now = now.plus(x.expense(roll, x.used(*laid[i])))
	}
	if !now.less(was) {
		return false, nil
	}
	for i, roll := range rolls {
		if roll < 0 {
			x.left = after[i]
		} else {
			x.on[roll] = laid[i]
		}
	}
	return true, nil
}

// laidOn lays pieces on one roll, nil if it finds no room.
func (x *exchange) laidOn(roll int, counts []int) (*filled, error) {
	key := fmt.Sprint(roll, counts)
	if t, ok := x.known[key]; ok {
		return t, nil
	}
	t := &filled{roll: roll, counts: counts}
	o := x.quick
	if r := &x.lay.Rolls[roll]; r.Length > 0 && r.Price == 0 {
		o.Target = x.end(roll)
	}
	if x.on[roll] != nil {
		o.Start = x.without(x.on[roll], counts)
	}
	ok, err := x.solve(t, o)
	if !ok {
		t = nil
	}
	x.known[key] = t
	return t, err
}

// without is the layout of a roll with fewer pieces, nil if some are more.
func (x *exchange) without(t *filled, counts []int) *strip.Layout {
	_, before := x.problem(t.roll, t.counts)
	_, after := x.problem(t.roll, counts)
	rest := slices.Clone(counts)
	out := &strip.Layout{Length: t.layout.Length}
	for _, at := range t.layout.Places {
		k := before[at.Shape]
		if rest[k] == 0 {
			continue
		}
		rest[k]--
		at.Shape = slices.Index(after, k)
		out.Places = append(out.Places, at)
	}
	if slices.Max(rest) > 0 {
		return nil
	}
	return out
}

// sheets are the rolls in use.
func (x *exchange) sheets() (out []*filled) {
	for _, t := range x.on {
		if t != nil {
			out = append(out, t)
		}
	}
	return out
}

// spend spends the budget: pieces are exchanged, layouts shortened, and again if
// that has come to an end before.
func (x *exchange) spend() error {
	for range 5 {
		began := x.spent(x.work)
		if len(x.on) > 1 {
			if err := x.run(began + (1-began)*exchangePart); err != nil {
				return err
			}
		}
		if err := x.improve(); err != nil {
			return err
		}
		if now := x.spent(x.work); len(x.on) == 1 || now == began || now > 0.9 || x.ctx.Err() != nil {
			break
		}
	}
	return nil
}

// improve spends what is left of the budget on shorter layouts, on each roll in
// proportion to its pieces, on those that are paid for before offcuts.
func (x *exchange) improve() error {
	sheets := x.sheets()
	weights := make([]float64, len(sheets))
	sum := 0.0
	for i, t := range sheets {
		for _, n := range t.counts {
			weights[i] += float64(n)
		}
		if r := &x.lay.Rolls[t.roll]; r.Length > 0 && r.Price == 0 {
			weights[i] /= 10
		}
		sum += weights[i]
	}
	for i := range sheets {
		t := sheets[i]
		before, from := x.work, x.spent(x.work)
		to := from + (1-from)*weights[i]/sum
		sum -= weights[i]
		if to <= from {
			return nil
		}
		o := strip.Options{Start: &t.layout, Work: max(1, int64((to-from)*float64(x.options.Work)))}
		if x.options.Left != nil {
			x.until = to
			o.Spent = func() float64 { return (x.spent(0) - from) / (to - from) }
		}
		if f := x.options.Progress; f != nil {
			o.Progress = func(length, work int64) { f(LayProgress{t.roll, x.lay.used(length), before + work}) }
		}
		if _, err := x.solve(t, o); err != nil {
			return err
		}
	}
	return nil
}
