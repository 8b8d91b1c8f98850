package journey

import (
	"context"
	"fmt"
	"regexp"
	"time"
)

// spot is where a control can be touched, in CSS pixels of the visible part.
type spot struct{ X, Y float64 }

// tap touches the named control where it stands still and uncovered.
func (r *run) tap(ctx context.Context, name string, hold time.Duration) error {
	var at spot
	if err := r.ask(ctx, `spot(`+quote(name)+`)`, &at); err != nil {
		return err
	}
	return r.page().Press(ctx, at.X, at.Y, hold)
}

// tapIn is tap among the controls that another control has opened or groups.
func (r *run) tapIn(ctx context.Context, group, name string) error {
	var at spot
	if err := r.ask(ctx, `spotIn(`+quote(group)+`, `+quote(name)+`)`, &at); err != nil {
		return err
	}
	return r.page().Tap(ctx, at.X, at.Y)
}

func hold(ctx context.Context, r *run, s Step) error {
	name, long := s.sides()
	d, err := time.ParseDuration(long)
	if err != nil || d <= 0 || d > 10*time.Second {
		return fmt.Errorf("hold takes a time like 800ms or 2s, up to 10s, not %q", long)
	}
	return r.tap(ctx, name, d)
}

// padKeys splits a value into what the pad has keys for: figures, the point
// and the stroke one by one, a unit as a whole.
var padKeys = regexp.MustCompile(`[0-9./-]|[^\s0-9./-][^\s]*`)

// enter taps a field, which opens the pad, presses the keys and closes it.
func enter(ctx context.Context, r *run, s Step) error {
	field, value := s.sides()
	if err := r.tap(ctx, field, 0); err != nil {
		return err
	}
	if err := r.until(ctx, `padOpen()`); err != nil {
		return err
	}
	for _, key := range padKeys.FindAllString(value, -1) {
		if err := r.tapIn(ctx, "@pad", key); err != nil {
			return fmt.Errorf("key %q of the pad: %w", key, err)
		}
	}
	return r.tapIn(ctx, "@pad", "@pad-done")
}

// typeText puts a text into a field in place of what was there.
func typeText(ctx context.Context, r *run, s Step) error {
	field, value := s.sides()
	if err := r.tap(ctx, field, 0); err != nil {
		return err
	}
	if err := r.until(ctx, `selected(`+quote(field)+`)`); err != nil {
		return err
	}
	return r.page().Type(ctx, value)
}

// choose takes an option. A list of the system cannot be touched in a headless
// browser, so there the option is set as the list would set it; everything
// else is touched.
func choose(ctx context.Context, r *run, s Step) error {
	field, option := s.sides()
	var how string
	if err := r.ask(ctx, `choosing(`+quote(field)+`, `+quote(option)+`)`, &how); err != nil {
		return err
	}
	switch how {
	case "done":
		return nil
	case "group":
		return r.tapIn(ctx, field, option)
	}
	if err := r.tap(ctx, field, 0); err != nil {
		return err
	}
	return r.tap(ctx, option, 0)
}
