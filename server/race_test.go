//go:build race

package server

// raceDetector says that these tests run ten times slower.
const raceDetector = true
