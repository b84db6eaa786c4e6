//go:build !race

package hostile

const slowdown = 1
