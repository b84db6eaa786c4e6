//go:build race

package hostile

const raced = true
