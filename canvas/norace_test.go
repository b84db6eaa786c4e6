//go:build !race

package canvas

const raceDetector = false
