//go:build race

package hostile

// The race detector makes everything some ten times slower.
const slowdown = 10
