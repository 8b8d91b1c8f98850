package journey

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"
)

// axe runs axe-core over the page: the rules of WCAG 2.2 A and AA, and of AAA
// the one for contrast.
func axe(ctx context.Context, r *run, _ Step) error {
	source, err := os.ReadFile(r.axe)
	if err != nil {
		return fmt.Errorf("axe-core is not installed (go run ./cmd/dev test does it): %w", err)
	}
	if err := r.page().Evaluate(ctx, "typeof axe === 'object' || (()=>{"+string(source)+"})(), true", nil); err != nil {
		return err
	}
	return r.judge(ctx, `axeFindings()`)
}

// targets checks sizes, overlaps and what is cut off.
func targets(ctx context.Context, r *run, _ Step) error { return r.judge(ctx, `targetFindings()`) }

// contrast computes the contrast of all text.
func contrast(ctx context.Context, r *run, _ Step) error { return r.judge(ctx, `contrastFindings()`) }

// judge asks for a list of findings, which has to be empty. It looks at what has
// been drawn: what comes between two frames finds its place before the next.
func (r *run) judge(ctx context.Context, expression string) error {
	var findings []string
	if err := r.page().Evaluate(ctx, library+`frame().then(frame).then(() => `+expression+`)`+ending, &findings); err != nil {
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
