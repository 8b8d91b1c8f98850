package journey

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// verb is one thing that a step can do.
type verb struct {
	name    string
	form    form
	example string
	run     func(context.Context, *run, Step) error
	judges  bool // looks at a page and changes nothing: the journey goes on after it
}

// verbs is filled in init because parsing looks at it and some verbs are made
// of others.
var verbs []verb

func init() {
	verbs = []verb{
		{name: "device", form: text, example: "device B", run: func(ctx context.Context, r *run, s Step) error { return r.device(ctx, s.Text) }},
		{name: "tab", form: text, example: "tab 2", run: func(ctx context.Context, r *run, s Step) error { return r.tab(ctx, s.Text) }},
		{name: "start browser", form: nothing, run: func(ctx context.Context, r *run, _ Step) error { return r.now.start(ctx) }},
		{name: "kill browser", form: nothing, run: func(ctx context.Context, r *run, _ Step) error { return r.kill(ctx) }},
		{name: "offline", form: nothing, run: func(_ context.Context, r *run, _ Step) error { return r.closeApp() }},
		{name: "online", form: nothing, run: func(ctx context.Context, r *run, _ Step) error { return r.openApp(ctx) }},

		{name: "full", form: nothing, run: func(ctx context.Context, r *run, _ Step) error { return r.until(ctx, `full()`) }},
		{name: "let through", form: nothing, run: letThrough},

		{name: "open", form: text, example: "open /cut", run: func(ctx context.Context, r *run, s Step) error {
			return r.load(ctx, r.page().Open(ctx, r.app.URL()+s.Text))
		}},
		{name: "join", form: text, example: "join member", run: join},
		{name: "at", form: text, example: "at /cut", run: at},
		{name: "lit", form: text, example: "lit Cut", run: func(ctx context.Context, r *run, s Step) error {
			return r.until(ctx, `lit(`+quote(s.Text)+`)`)
		}},
		{name: "back", form: nothing, run: func(ctx context.Context, r *run, _ Step) error { return r.page().Back(ctx) }},
		{name: "reload", form: nothing, run: func(ctx context.Context, r *run, _ Step) error { return r.load(ctx, r.page().Reload(ctx)) }},

		{name: "see", form: text, example: "see Set 45 A", run: see},
		{name: "gone", form: text, example: "gone Undo", run: gone},
		{name: "picture", form: text, example: "picture The kerf is 1.24 mm wide", run: pictured},
		{name: "lands", form: text, example: "lands Bleed the air", run: lands},
		{name: "burns", form: text, example: "burns 2", run: burns},
		{name: "holds", form: pair, example: "holds Thickness = 1/4 in", run: holds},
		{name: "unpicked", form: nothing, run: func(ctx context.Context, r *run, _ Step) error { return r.until(ctx, `unpicked()`) }},
		{name: "unkept", form: text, example: "unkept 54.97 N", run: func(ctx context.Context, r *run, s Step) error {
			return r.until(ctx, `unkept(`+quote(s.Text)+`)`)
		}},
		{name: "upfront", form: text, example: "upfront Set 45 A", run: func(ctx context.Context, r *run, s Step) error {
			return r.until(ctx, `upfront(`+quote(s.Text)+`)`)
		}},
		{name: "in view", form: text, example: "in view Enter the thickness", run: func(ctx context.Context, r *run, s Step) error {
			return r.until(ctx, `inView(`+quote(s.Text)+`)`)
		}},
		{name: "count taps", form: nothing, run: func(_ context.Context, r *run, _ Step) error { r.touches = 0; return nil }},
		{name: "at most", form: text, example: "at most 5 taps", run: atMost},
		{name: "take", form: pair, example: "take CODE = @invite", run: take},
		{name: "wait offline", form: nothing, run: worksOffline},
		{name: "wait synced", form: nothing, run: synced},
		{name: "equal", form: text, example: "equal A B", run: equal},
		{name: "expect", form: text, example: "expect quota exceeded", run: func(_ context.Context, r *run, s Step) error { r.expected = append(r.expected, s.Text); return nil }},

		{name: "tap", form: text, example: "tap Start the arc", run: func(ctx context.Context, r *run, s Step) error { return r.tap(ctx, s.Text, 0) }},
		{name: "hold", form: pair, example: "hold More = 1s", run: hold},
		{name: "touch", form: pair, example: "touch @canvas = -37.5 0", run: touchAt},
		{name: "photo", form: pair, example: "photo Take the photo = bore 116 x 106 turned 30", run: photo},
		{name: "key", form: text, example: "key Enter", run: func(ctx context.Context, r *run, s Step) error { return r.page().Key(ctx, s.Text) }},
		{name: "reach", form: text, example: "reach Start arc", run: reach},
		{name: "enter", form: pair, example: "enter Thickness = 1/4 in", run: enter},
		{name: "type", form: pair, example: "type Note = gate post", run: typeText},
		{name: "choose", form: pair, example: "choose Metal = Stainless steel", run: choose},

		{name: "clock", form: text, example: "clock 65", run: clock},
		{name: "look", form: text, example: "look night", run: look},
		{name: "size", form: text, example: "size 320x568", run: size},
		{name: "text", form: text, example: "text 200", run: textSize},
		{name: "slow", form: text, example: "slow 4", run: slow},
		{name: "shot", form: text, example: "shot plan", run: func(ctx context.Context, r *run, s Step) error { return r.shot(ctx, s.Text) }},
		{name: "screen", form: text, example: "screen plan", run: screen, judges: true},
		{name: "axe", form: nothing, run: axe, judges: true},
		{name: "targets", form: nothing, run: targets, judges: true},
		{name: "contrast", form: nothing, run: contrast, judges: true},
		{name: "tree", form: nothing, run: tree, judges: true},
	}
}

// find returns the verb of a step that Parse has read.
func find(name string) verb {
	return verbs[slices.IndexFunc(verbs, func(v verb) bool { return v.name == name })]
}

// load gives a document that was loaded, or could not be, what the journey has asked for.
func (r *run) load(ctx context.Context, err error) error {
	if err != nil || r.text == 100 {
		return err
	}
	return r.letter(ctx)
}

// letThrough lets through what the server of this journey holds back.
func letThrough(_ context.Context, r *run, _ Step) error {
	app, ok := r.app.(interface{ LetThrough() })
	if !ok {
		return errors.New("this journey's server holds nothing back")
	}
	app.LetThrough()
	return nil
}

// join makes an invitation and opens its link, names the phone and joins. It
// ends when the phone works offline too, so that what follows meets no worker
// that is just taking over. Each part may take as long as a step.
func join(ctx context.Context, r *run, s Step) error {
	link, err := r.app.Invite(s.Text)
	if err != nil {
		return err
	}
	for _, part := range []func(context.Context) error{
		func(ctx context.Context) error { return r.page().Open(ctx, link) },
		func(ctx context.Context) error {
			return typeText(ctx, r, Step{Text: "@name = Phone " + r.now.name})
		},
		func(ctx context.Context) error { return r.tap(ctx, "@join", 0) },
		func(ctx context.Context) error { return r.until(ctx, `member()`) },
		func(ctx context.Context) error { return worksOffline(ctx, r, s) },
	} {
		if err := r.within(ctx, part); err != nil {
			return err
		}
	}
	return nil
}

func at(ctx context.Context, r *run, s Step) error {
	return r.until(ctx, `at(`+quote(s.Text)+`)`)
}

func see(ctx context.Context, r *run, s Step) error {
	return r.until(ctx, `see(`+quote(s.Text)+`)`)
}

func gone(ctx context.Context, r *run, s Step) error {
	return r.until(ctx, `gone(`+quote(s.Text)+`)`)
}

func pictured(ctx context.Context, r *run, s Step) error {
	return r.until(ctx, `pictured(`+quote(s.Text)+`)`)
}

func lands(ctx context.Context, r *run, s Step) error {
	return r.until(ctx, `lands(`+quote(s.Text)+`)`)
}

func burns(ctx context.Context, r *run, s Step) error {
	seconds, err := strconv.Atoi(s.Text)
	if err != nil || seconds < 1 {
		return fmt.Errorf("burns takes whole seconds like 2, not %q", s.Text)
	}
	return r.until(ctx, fmt.Sprintf(`burns(%d)`, seconds))
}

func holds(ctx context.Context, r *run, s Step) error {
	field, want := s.sides()
	return r.until(ctx, `holds(`+quote(field)+`, `+quote(want)+`)`)
}

// atMost holds how often the page was touched since taps were last counted from nothing.
func atMost(_ context.Context, r *run, s Step) error {
	var most int
	if n, err := fmt.Sscanf(s.Text, "%d taps", &most); n != 1 || err != nil || most < 1 || s.Text != fmt.Sprintf("%d taps", most) {
		return fmt.Errorf("at most takes how many taps there may be, as in: at most 5 taps, not %q", s.Text)
	}
	if r.touches > most {
		return fmt.Errorf("it took %d", r.touches)
	}
	return nil
}

func take(ctx context.Context, r *run, s Step) error {
	name, where := s.sides()
	var got string
	if err := r.ask(ctx, `read(`+quote(where)+`)`, &got); err != nil {
		return err
	}
	r.taken[name] = got
	return nil
}

// worksOffline waits until the app would start without a network.
func worksOffline(ctx context.Context, r *run, _ Step) error {
	return r.until(ctx, `worksOffline()`)
}

// synced waits until nothing waits for the server.
func synced(ctx context.Context, r *run, _ Step) error {
	return r.until(ctx, `synced()`)
}

// equal has all named phones sync until they hold the same.
func equal(ctx context.Context, r *run, s Step) error {
	names := strings.Fields(s.Text)
	if len(names) < 2 {
		return fmt.Errorf("equal needs two phones or more, as in: equal A B")
	}
	tick := time.NewTicker(300 * time.Millisecond)
	defer tick.Stop()
	for {
		states := map[string]bool{}
		var said []string
		for _, name := range names {
			d := r.devices[name]
			if d == nil || d.page() == nil {
				return fmt.Errorf("the browser of phone %s does not run", name)
			}
			var hash string
			if err := d.page().Evaluate(ctx, library+`stateHash()`+ending, &hash); err != nil {
				hash = "no answer: " + err.Error()
				states[name] = true // nothing is equal to no answer
			}
			states[hash] = true
			said = append(said, name+" has "+hash)
		}
		if len(states) == 1 && ctx.Err() == nil {
			return nil
		}
		select {
		case <-tick.C:
		case <-ctx.Done():
			return fmt.Errorf("the states stay different: %s", strings.Join(said, ", "))
		}
	}
}
