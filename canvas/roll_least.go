package canvas

import (
	"cmp"
	"math"
	"math/bits"
	"slices"

	"example.com/forepeak/units"
)

// subsets is the number of rolls up to which each choice of them is looked at.
const subsets = 6

// leastCost is a sum below which the pieces cannot be cut from the rolls, however
// they are laid and divided among the rolls.
//
// What the pieces take of each roll, by the portions and by area, is at least the
// sum of their footprints there. So a linear programme bounds the cost: footprints
// may be divided among rolls, an offcut takes no more than its length, and a length
// costs its price. Any prices put on the offcuts' lengths give a bound to that
// (Lagrange); they are found one after the other. What an offcut costs as a whole is
// counted for each choice of rolls by itself, the least of which holds, or, where
// there are many rolls, by the part that is taken of it.
func (s *laying) leastCost() units.Money {
	n := len(s.lay.Rolls)
	if n > subsets {
		return units.Money(s.leastOn(s.allRolls(), true))
	}
	least := math.Inf(1)
	for choice := 1; choice < 1<<n; choice++ {
		rolls := make([]int, 0, bits.OnesCount(uint(choice)))
		for i := range n {
			if choice>>i&1 == 1 {
				rolls = append(rolls, i)
			}
		}
		least = min(least, s.leastOn(rolls, false))
	}
	if math.IsInf(least, 1) {
		return 0 // there is not cloth enough
	}
	return units.Money(least)
}

func (s *laying) allRolls() []int {
	all := make([]int, len(s.lay.Rolls))
	for i := range all {
		all[i] = i
	}
	return all
}

// tooShort reports whether all rolls together are sure to have no room for the pieces.
func (s *laying) tooShort() bool { return math.IsInf(s.leastOn(s.allRolls(), true), 1) }

// leastOn is the bound for a choice of rolls, infinite where the pieces have no
// room on them. The values of offcuts are spread over their lengths or taken whole.
func (s *laying) leastOn(rolls []int, spread bool) float64 {
	gap := s.lay.of(s.lay.Gap)
	fixed, finite := 0.0, true
	price, room := make([]float64, len(rolls)), make([]float64, len(rolls)) // for a unit of length; units, 0 is no end
	step, steps := 0.0, true                                                // what the cost is a multiple of
	gaps := 0.0
	for i, roll := range rolls {
		r := &s.lay.Rolls[roll]
		price[i] = float64(r.Price) * float64(s.lay.length(1))
		gaps += float64(price[i] * gap)
		if r.Length > 0 {
			room[i] = s.lay.of(r.Length) + gap
		} else {
			finite = false
		}
		if q := float64(r.Price) * float64(r.Increment); r.Price > 0 {
			steps = steps && r.Length == 0 && q > 0 && (step == 0 || step == q)
			step = q
		}
		switch {
		case r.Value == 0:
		case !spread:
			fixed += float64(r.Value)
		default:
			steps = false
			if room[i] > 0 {
				price[i] += float64(r.Value) / room[i]
			}
		}
	}
	best := 0.0
	for k := range s.kinds {
		one := math.Inf(1) // that piece alone
		for _, roll := range rolls {
			if f := s.footprint(roll, k); f.fits {
				one = min(one, float64(s.lay.Rolls[roll].Price)*float64(s.lay.length(1))*f.long)
			}
		}
		if math.IsInf(one, 1) {
			return one
		}
		best = max(best, one)
	}
	for m := range measures + 1 {
		if finite && s.tooMuch(rolls, room, m) {
			return math.Inf(1)
		}
		best = max(best, float64(s.dual(rolls, price, room, m)*(1-1e-9))-gaps)
	}
	if steps && step > 0 {
		best = math.Ceil(best/step-1e-6) * step
	}
	return fixed + best
}

// tooMuch reports whether offcuts alone have no room for all pieces: footprints
// add up to more, as lengths or as areas.
func (s *laying) tooMuch(rolls []int, room []float64, m int) bool {
	for _, wide := range []bool{false, true} {
		need, have := 0.0, 0.0
		weight := func(i int) float64 {
			if wide {
				return float64(s.lay.Rolls[rolls[i]].Width)
			}
			return 1
		}
		for i := range rolls {
			have += float64(room[i] * weight(i))
		}
		for k := range s.kinds {
			least := math.Inf(1)
			for i, roll := range rolls {
				if f := s.footprint(roll, k); f.fits {
					least = min(least, f.takes[m]*weight(i))
				}
			}
			need += float64(least * float64(s.kinds[k].count))
		}
		if need > have*(1+1e-9) {
			return true
		}
	}
	return false
}

// dual is the bound of one measure. Each offcut's price is set to where its length
// would be sold out, the others' prices being what they are.
func (s *laying) dual(rolls []int, price, room []float64, m int) float64 {
	extra := make([]float64, len(rolls))
	takes := make([][]float64, len(s.kinds)) // infinite where a kind does not fit
	for k := range s.kinds {
		takes[k] = make([]float64, len(rolls))
		for i, roll := range rolls {
			takes[k][i] = math.Inf(1)
			if f := s.footprint(roll, k); f.fits {
				takes[k][i] = f.takes[m]
			}
		}
	}
	cost := func(k, i int) float64 {
		switch t := takes[k][i]; {
		case math.IsInf(t, 1):
			return t
		default:
			return float64((price[i] + extra[i]) * t)
		}
	}
	value := func() float64 {
		sum := 0.0
		for k := range s.kinds {
			least := math.Inf(1)
			for i := range rolls {
				least = min(least, cost(k, i))
			}
			sum += float64(least * float64(s.kinds[k].count))
		}
		for i := range rolls {
			sum -= float64(extra[i] * room[i])
		}
		return sum
	}
	best := value()
	type buyer struct{ most, takes float64 } // how much more it would pay for a unit
	for range 4 {
		for i := range rolls {
			if room[i] == 0 {
				continue
			}
			var buyers []buyer
			for k := range s.kinds {
				t := takes[k][i]
				if math.IsInf(t, 1) || t == 0 {
					continue
				}
				other := math.Inf(1)
				for j := range rolls {
					if j != i {
						other = min(other, cost(k, j))
					}
				}
				if most := other/t - price[i]; most > 0 {
					buyers = append(buyers, buyer{most, t * float64(s.kinds[k].count)})
				}
			}
			slices.SortStableFunc(buyers, func(a, b buyer) int { return cmp.Compare(b.most, a.most) })
			extra[i] = 0
			sum := 0.0
			for _, b := range buyers {
				if sum += b.takes; sum > room[i] && !math.IsInf(b.most, 1) {
					extra[i] = b.most
					break
				}
			}
		}
		best = max(best, value())
	}
	return best
}
