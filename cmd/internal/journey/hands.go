package journey

import (
	"context"
	"fmt"
	"regexp"
	"time"
)

// spot is where a control can be touched, in CSS pixels of the visible part.
type spot struct{ X, Y float64 }

// feelLimit is how long a touch may take to arrive at a page that answers.
const feelLimit = 2 * time.Second

// touch touches the spot that the expression finds, once it stands still and
// nothing covers it. Now and then, on a busy machine, the browser drops a touch
// before any page feels it, right after a page or a tab came to the front, or the
// page has moved on before the finger is down; it then comes down again.
func (r *run) touch(ctx context.Context, expression string, hold time.Duration) error {
	r.touches++
	for made := 0; ; made++ {
		felt, err := r.touchOnce(ctx, expression, hold)
		if err != nil && made > 0 {
			err = fmt.Errorf("%w (touches before that it did not feel: %d)", err, made)
		}
		if err != nil || felt {
			return err
		}
	}
}

// touchOnce touches the spot, and says whether what was aimed at felt it.
func (r *run) touchOnce(ctx context.Context, expression string, hold time.Duration) (bool, error) {
	var at spot
	if err := r.ask(ctx, expression, &at); err != nil {
		return false, err
	}
	if err := r.page().Press(ctx, at.X, at.Y, hold); err != nil {
		return false, err
	}
	return r.felt(ctx)
}

// felt says whether what was aimed at felt the touch and its click: on a busy
// machine the click comes long after the finger is up, and every touch makes one,
// however long it is held.
func (r *run) felt(ctx context.Context) (bool, error) {
	limit := time.Now().Add(feelLimit)
	last := "no"
	for {
		var felt string
		if err := r.ask(ctx, `felt()`, &felt); err != nil {
			if ctx.Err() != nil && last != "no" {
				err = noClick(last) // it answered every time before
			}
			return false, err
		}
		last = felt
		switch {
		case felt == "yes":
			return true, nil
		case felt == "missed", felt == "no" && time.Now().After(limit):
			return false, nil
		}
		select {
		case <-time.After(15 * time.Millisecond):
		case <-ctx.Done():
			return false, noClick(felt)
		}
	}
}

// noClick is the error of a touch that got no further than that.
func noClick(felt string) error {
	return fmt.Errorf("the page felt a touch that made no click: it has %s", felt)
}

// tap touches the named control.
func (r *run) tap(ctx context.Context, name string, hold time.Duration) error {
	return r.touch(ctx, `spot(`+quote(name)+`)`, hold)
}

func hold(ctx context.Context, r *run, s Step) error {
	name, long := s.sides()
	d, err := time.ParseDuration(long)
	if err != nil || d <= 0 || d > 10*time.Second {
		return fmt.Errorf("hold takes a time like 800ms or 2s, up to 10s, not %q", long)
	}
	return r.tap(ctx, name, d)
}

// mostTabs is how many controls a keyboard may have to pass on a page.
const mostTabs = 80

// reach goes to a control by the keyboard alone.
func reach(ctx context.Context, r *run, s Step) error {
	if err := r.until(ctx, `spot(`+quote(s.Text)+`)`); err != nil {
		return err
	}
	for range mostTabs {
		if err := r.page().Key(ctx, "Tab"); err != nil {
			return err
		}
		var there bool
		if err := r.page().Evaluate(ctx, library+`hasFocus(`+quote(s.Text)+`)`+ending, &there); err != nil || there {
			return err
		}
	}
	return fmt.Errorf("%d times Tab do not lead there", mostTabs)
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
	for _, key := range padKeys.FindAllString(value, -1) {
		if err := r.touch(ctx, `padKey(`+quote(key)+`)`, 0); err != nil {
			return err
		}
	}
	return r.touch(ctx, `padDone()`, 0)
}

// typeText puts a text into a field in place of what was there.
func typeText(ctx context.Context, r *run, s Step) error {
	field, value := s.sides()
	if err := r.touch(ctx, `textSpot(`+quote(field)+`)`, 0); err != nil {
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
		return r.touch(ctx, `spotIn(`+quote(field)+`, `+quote(option)+`)`, 0)
	}
	if err := r.tap(ctx, field, 0); err != nil {
		return err
	}
	return r.tap(ctx, option, 0)
}
