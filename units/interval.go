package units

// Interval is a range of one quantity, its ends included. Where a result is a
// range, the result's comment says what lies in it: what rounding allows, 95 cases
// in 100, the bounds of a law.
type Interval[Q ~float64] struct{ Low, High Q }
