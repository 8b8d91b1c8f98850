package journey

import (
	"context"

	"kerfside/cmd/internal/browser"
)

// Blunt is what a gloved hand hits that aims at the middle of each control of a page.
// The model stands in page/blunt.js.
type Blunt struct {
	Draws    int      // taps at all controls
	Missed   int      // of them on nothing
	Wrong    int      // of them on another control
	Controls int      // aimed at
	Main     int      // of them main actions
	Found    []string // controls with too many wrong taps: one on a main action, one in a hundred elsewhere
}

// BluntTaps aims at every control of the page that is shown, or of the dialog over it.
func BluntTaps(ctx context.Context, page *browser.Page) (Blunt, error) {
	var told Blunt
	err := page.Evaluate(ctx, library+`bluntTaps()`+ending, &told)
	return told, err
}
