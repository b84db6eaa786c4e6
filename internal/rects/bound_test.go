package rects

import (
	"math/rand/v2"
	"testing"
)

// Lengths that fit into the whole side by side are mapped to lengths that fit into
// what the whole is mapped to.
func TestDualsAreFeasible(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		whole := 2 + r.Int64N(60)
		var kinds []kind
		for range 1 + r.IntN(6) {
			w, h := 1+r.Int64N(whole), 1+r.Int64N(whole)
			kinds = append(kinds, kind{ways: []way{{w, h}, {h, w}}, area: w * h, count: 1 + r.IntN(3)})
		}
		for i, f := range duals(whole, kinds, across, 40) {
			for range 50 {
				left, sum := whole, int64(0)
				for left > 0 {
					x := 1 + r.Int64N(left)
					if r.IntN(2) == 0 {
						k := kinds[r.IntN(len(kinds))].ways[0].w
						x = min(left, k)
					}
					left -= x
					sum += f.of(x)
				}
				if sum > f.of(whole) {
					t.Fatalf("function %d of %d: parts of %d add up to %d, more than %d", i, len(kinds), whole, sum, f.of(whole))
				}
			}
		}
	}
}

func TestLeastLength(t *testing.T) {
	of := func(count int, ways ...way) kind { return kind{ways: ways, area: ways[0].w * ways[0].h, count: count} }
	for _, c := range []struct {
		name  string
		width int64
		kinds []kind
		want  int64
	}{
		{"area, rounded up", 8, []kind{of(3, way{4, 5})}, 8},
		{"area of two kinds", 10, []kind{of(3, way{4, 5}), of(2, way{5, 4})}, 10},
		{"the longest", 20, []kind{of(1, way{2, 9}), of(3, way{1, 1})}, 9},
		{"the longest, turned", 20, []kind{of(1, way{2, 9}, way{9, 2}), of(1, way{3, 3})}, 3},
	} {
		if got := leastLength(c.width, c.kinds); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
}

// Squares of more than half the width lie one after the other, of one kind or of
// two; two of just half lie side by side.
func TestRefuted(t *testing.T) {
	square := func(count int, a int64) kind { return kind{ways: []way{{a, a}}, area: a * a, count: count} }
	many := make([]kind, 0, 101)
	for range 101 {
		many = append(many, square(1, 6))
	}
	for _, c := range []struct {
		name          string
		width, length int64
		kinds         []kind
		want          bool
	}{
		{"four, too short", 11, 23, []kind{square(4, 6)}, true},
		{"four", 11, 24, []kind{square(4, 6)}, false},
		{"two and two, too short", 11, 23, []kind{square(2, 6), square(2, 6)}, true},
		{"two and two", 11, 24, []kind{square(2, 6), square(2, 6)}, false},
		{"six and seven, too short", 12, 25, []kind{square(2, 6), square(2, 7)}, false},
		{"half and half", 12, 12, []kind{square(4, 6)}, false},
		{"half and half, too short", 12, 11, []kind{square(4, 6)}, true},
		{"a hundred kinds, too short", 11, 605, many, true},
		{"a hundred kinds", 11, 606, many, false},
	} {
		if got := refuted(c.width, c.length, c.kinds); got != c.want {
			t.Errorf("%s: refuted %v, want %v", c.name, got, c.want)
		}
	}
}

// A piece that fits only one way counts as it must lie.
func TestRefutedWhereOnePlacingIsLeft(t *testing.T) {
	k := kind{ways: []way{{6, 9}, {9, 6}}, area: 54, count: 3}
	if !refuted(8, 26, []kind{k}) || refuted(8, 27, []kind{k}) {
		t.Error("three pieces of 6 by 9 go into a width of 8 only one after the other, 27 long")
	}
}
