//go:build race

package rode_test

const raceDetector = true
