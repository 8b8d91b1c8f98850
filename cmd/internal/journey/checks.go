package journey

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"

	"kerfside/cmd/internal/browser"
)

// axe runs axe-core over the page: the rules of WCAG 2.2 A and AA, and of AAA
// the one for contrast.
func axe(ctx context.Context, r *run, _ Step) error { return Axe(ctx, r.page(), r.axe) }

// Axe is the same for a page that no journey is on; path is that of axe.min.js.
func Axe(ctx context.Context, page *browser.Page, path string) error {
	source, err := os.ReadFile(path)
	if err != nil {
		return fmt.Errorf("axe-core is not installed (go run ./cmd/dev test does it): %w", err)
	}
	if err := page.Evaluate(ctx, "typeof axe === 'object' || (()=>{"+string(source)+"})(), true", nil); err != nil {
		return err
	}
	return judge(ctx, page, `axeFindings()`)
}

// targets checks sizes, overlaps and what is cut off.
func targets(ctx context.Context, r *run, _ Step) error {
	return judge(ctx, r.page(), `targetFindings()`)
}

// contrast computes the contrast of all text.
func contrast(ctx context.Context, r *run, _ Step) error {
	return judge(ctx, r.page(), `contrastFindings()`)
}

// judge asks for a list of findings, which has to be empty. It looks at what has
// been drawn: what comes between two frames finds its place before the next.
func judge(ctx context.Context, page *browser.Page, expression string) error {
	var findings []string
	if err := page.Evaluate(ctx, library+`frame().then(frame).then(() => `+expression+`)`+ending, &findings); err != nil {
		return err
	}
	if len(findings) > 0 {
		return errors.New(strings.Join(findings, "\n"))
	}
	return nil
}

// screen keeps a picture and makes every check of the page, each even if the
// one before finds something. A page without words yet would pass them all.
func screen(ctx context.Context, r *run, s Step) error {
	if err := r.until(ctx, `painted()`); err != nil {
		return err
	}
	return errors.Join(r.shot(ctx, s.Text), axe(ctx, r, s), targets(ctx, r, s), contrast(ctx, r, s))
}
