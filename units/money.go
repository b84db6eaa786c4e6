package units

// Money is a sum in any one currency. It has no unit and no conversions: all prices
// of one job are in the same currency, and JSON holds the bare number.
type Money float64
