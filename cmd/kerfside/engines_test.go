package main

import (
	"os"
	"path/filepath"
	"testing"
)

func TestJourneysOfFirefoxAreThere(t *testing.T) {
	for _, name := range inFirefox {
		if _, err := os.Stat(filepath.Join(journeys, name+".txt")); err != nil {
			t.Error(err)
		}
	}
}
