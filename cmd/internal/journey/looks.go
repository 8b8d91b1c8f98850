package journey

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"

	"kerfside/cmd/internal/browser"
)

// schemes are the two looks and what the system says for them.
var schemes = map[string]string{"sun": "light", "night": "dark"}

// dress gives a tab the look that the journey has asked for so far.
func (r *run) dress(ctx context.Context, p *browser.Page) error {
	if err := p.Resize(ctx, r.screen); err != nil {
		return err
	}
	return p.Media(ctx, map[string]string{"prefers-color-scheme": schemes[r.look], "prefers-reduced-motion": "reduce"})
}

func look(ctx context.Context, r *run, s Step) error {
	if schemes[s.Text] == "" {
		return fmt.Errorf("there is no look %q, only sun and night", s.Text)
	}
	r.look = s.Text
	return r.dress(ctx, r.page())
}

func size(ctx context.Context, r *run, s Step) error {
	var w, h int
	if n, err := fmt.Sscanf(s.Text, "%dx%d", &w, &h); n != 2 || err != nil || w < 200 || h < 200 {
		return fmt.Errorf("size takes width x height in CSS pixels like 320x568, not %q", s.Text)
	}
	r.screen.Width, r.screen.Height = w, h
	return r.dress(ctx, r.page())
}

func textSize(ctx context.Context, r *run, s Step) error {
	percent, err := strconv.Atoi(s.Text)
	if err != nil || percent < 50 || percent > 400 {
		return fmt.Errorf("text takes a percentage from 50 to 400, not %q", s.Text)
	}
	r.text = percent
	return r.letter(ctx)
}

// letter gives the document that stands the size of text that the journey has asked for
// so far. It goes with the document: what loads another one calls it again.
func (r *run) letter(ctx context.Context) error {
	return r.page().Evaluate(ctx, fmt.Sprintf(`void (document.documentElement.style.fontSize = "%d%%")`, r.text), nil)
}

func slow(ctx context.Context, r *run, s Step) error {
	times, err := strconv.ParseFloat(s.Text, 64)
	if err != nil || times < 1 {
		return fmt.Errorf("slow takes a factor of 1 or more, not %q", s.Text)
	}
	return r.page().Slow(ctx, times)
}

// shot keeps a picture under the journey's name.
func (r *run) shot(ctx context.Context, name string) error {
	data, err := r.page().Picture(ctx)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(r.shots, 0o755); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(r.shots, name+".png"), data, 0o644)
}
