package rects

import "slices"

// A dual feasible function of an integer range maps sides so that any that fit
// into the range side by side still do: sums up to whole stay sums up to of(whole).
type dual struct {
	of func(x int64) int64
}

// identity leaves sides as they are: with it on both sides the bound is the area.
func identity(x int64) int64 { return x }

// duals lists functions for a range, with parameters up to half of it taken from
// the sides themselves, where the functions jump; most bounds their number.
func duals(whole int64, kinds []kind, side func(way) int64, most int) []dual {
	var at []int64
	for _, k := range kinds {
		for _, w := range k.ways {
			for _, v := range []int64{side(w), whole - side(w)} {
				if v > 0 && 2*v <= whole+1 { // of an odd whole, more than half begins at (whole+1)/2
					at = append(at, v)
					if 2*(v+1) <= whole+1 {
						at = append(at, v+1)
					}
				}
			}
		}
	}
	slices.Sort(at)
	at = slices.Compact(at)
	for len(at) > most { // every second one
		half := at[:0]
		for i := 0; i < len(at); i += 2 {
			half = append(half, at[i])
		}
		at = half
	}
	out := []dual{{identity}}
	for _, v := range at {
		// Small sides count nothing, and what leaves room only for small ones
		// counts all (Fekete and Schepers 2001).
		out = append(out, dual{func(x int64) int64 {
			switch {
			case x > whole-v:
				return whole
			case x < v:
				return 0
			}
			return x
		}})
		// Multiples of v, more than half being what is left of the whole
		// (Carlier, Clautiaux and Moukrim 2007).
		out = append(out, dual{func(x int64) int64 {
			switch {
			case 2*x > whole:
				return 2 * (whole/v - (whole-x)/v)
			case 2*x == whole:
				return whole / v
			}
			return 2 * (x / v)
		}})
	}
	return out
}

// refuted reports whether the bounds prove that the pieces do not go into width
// by length: the area of the pieces, with their sides mapped, is more than that of the strip.
func refuted(width, length int64, kinds []kind) bool {
	most := 40
	if len(kinds) > 100 {
		most = 8
	}
	const widest = int64(1) << 62
	lengths := duals(length, kinds, along, most)
	for _, f := range duals(width, kinds, across, most) {
		for _, g := range lengths {
			room := f.of(width) * g.of(length)
			for _, k := range kinds {
				least := widest
				for _, w := range k.ways {
					if w.w <= width && w.h <= length {
						least = min(least, f.of(w.w)*g.of(w.h))
					}
				}
				if least > 0 && int64(k.count) > room/least {
					return true
				}
				room -= least * int64(k.count)
			}
		}
	}
	return false
}

// leastLength is the area divided by the width, rounded up, or the longest of the
// pieces, whichever is more.
func leastLength(width int64, kinds []kind) int64 {
	var area, longest int64
	for _, k := range kinds {
		area += k.area * int64(k.count)
		least := k.ways[0].h
		for _, w := range k.ways {
			least = min(least, w.h)
		}
		longest = max(longest, least)
	}
	return max(longest, (area+width-1)/width)
}
