package journey

import (
	"context"
	"fmt"
	"strconv"

	"kerfside/cmd/internal/browser"
)

// shift is what moves the clock of a document by some ms; again by others, if it
// was moved before.
const shift = `((ahead) => {
	if (globalThis.moveClock) return void moveClock(ahead);
	const Real = Date;
	globalThis.moveClock = (by) => void (ahead = by);
	globalThis.Date = class Date extends Real {
		constructor(...words) {
			if (words.length === 0) super(Real.now() + ahead);
			else super(...words);
		}
		static now() {
			return Real.now() + ahead;
		}
	};
})(%d)`

// clock sets the clock of the current phone so many minutes before ours, in what
// it shows now and in all that it opens from here on, also when its browser was
// killed. Its workers keep ours.
func clock(ctx context.Context, r *run, s Step) error {
	minutes, err := strconv.Atoi(s.Text)
	if err != nil {
		return fmt.Errorf("clock takes whole minutes like 65, not %q", s.Text)
	}
	r.now.clock = fmt.Sprintf(shift, minutes*60_000)
	for _, p := range r.now.tabs {
		if err := r.now.wind(ctx, p); err != nil {
			return err
		}
		if err := p.Evaluate(ctx, r.now.clock, nil); err != nil {
			return err
		}
	}
	return nil
}

// wind gives a tab the phone's clock.
func (d *device) wind(ctx context.Context, p *browser.Page) error {
	if d.clock == "" {
		return nil
	}
	return p.Preload(ctx, d.clock)
}
