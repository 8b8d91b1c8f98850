package browser

import (
	"errors"
	"fmt"
	"os/exec"
)

// names are the programs that are Chromium, best first.
var names = []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable"}

// Find returns the path of a Chromium that runs. Some systems have a program
// of that name that only tells how to get one, so it is asked for its version.
func Find() (string, error) {
	var tried []error
	for _, name := range names {
		path, err := exec.LookPath(name)
		if err == nil {
			err = exec.Command(path, "--version").Run()
		}
		if err == nil {
			return path, nil
		}
		tried = append(tried, fmt.Errorf("%s: %w", name, err))
	}
	return "", fmt.Errorf("no Chromium runs here (go run ./cmd/dev test installs it on Debian): %w", errors.Join(tried...))
}
