package rects

import "math/bits"

// sums is the set of numbers from 0 to a limit that some of a list of sides add
// up to, one bit each.
type sums struct {
	word []uint64
	most int64
}

func newSums(most int64) sums {
	s := sums{make([]uint64, most/64+1), most}
	s.word[0] = 1
	return s
}

func (s *sums) reset() {
	clear(s.word)
	s.word[0] = 1
}

// add lets one more piece take part, with one of its sides.
func (s *sums) add(ways []way, side func(way) int64) {
	if len(ways) == 1 {
		s.shift(side(ways[0]), 0)
		return
	}
	s.shift(side(ways[0]), side(ways[1]))
}

// shift unites s with s moved by a and, unless it is 0, by b.
func (s *sums) shift(a, b int64) {
	wa, ba := int(a/64), uint(a%64)
	wb, bb := int(b/64), uint(b%64)
	for i := len(s.word) - 1; i >= 0; i-- {
		v := s.word[i]
		if j := i - wa; j >= 0 {
			v |= s.word[j] << ba
			if ba > 0 && j > 0 {
				v |= s.word[j-1] >> (64 - ba)
			}
		}
		if b > 0 {
			if j := i - wb; j >= 0 {
				v |= s.word[j] << bb
				if bb > 0 && j > 0 {
					v |= s.word[j-1] >> (64 - bb)
				}
			}
		}
		s.word[i] = v
	}
}

func (s *sums) has(v int64) bool { return s.word[v/64]>>(uint(v)%64)&1 == 1 }

// below is the largest of the sums that is not above v.
func (s *sums) below(v int64) int64 {
	v = min(v, s.most)
	i := int(v / 64)
	w := s.word[i] & (^uint64(0) >> (63 - uint(v)%64))
	for w == 0 {
		i--
		w = s.word[i]
	}
	return int64(i*64 + bits.Len64(w) - 1)
}

// above is the least of the sums that is not below v, or -1.
func (s *sums) above(v int64) int64 {
	if v > s.most {
		return -1
	}
	i := int(v / 64)
	w := s.word[i] >> (uint(v) % 64) << (uint(v) % 64)
	for w == 0 {
		i++
		if i == len(s.word) {
			return -1
		}
		w = s.word[i]
	}
	if v = int64(i*64 + bits.TrailingZeros64(w)); v > s.most {
		return -1
	}
	return v
}

func across(w way) int64 { return w.w }
func along(w way) int64  { return w.h }
