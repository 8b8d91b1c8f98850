package fold

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/order"
)

// The alphabets that FuzzDrawnOrder draws events from, a byte for each choice. Stamps
// stand at both ends of time and around each other; names are few, so that events
// of every kind speak of each other, before and after what they speak of.
var (
	drawnTimes  = []event.Stamp{1, 2, event.StampOf(1), event.StampOf(5), event.StampOf(5) + 1, event.StampOf(5) + 65535, event.StampOf(1000), event.StampOf(t0), event.StampOf(t0) + 1, event.StampOf(t0 + minute), event.StampOf(t0 + 13*60*minute), event.StampOf(1 << 47), event.StampOf(event.MaxMillis), event.LastStampOf(event.MaxMillis)}
	drawnAts    = []string{"", "", "", `,"at":1`, `,"at":5`, fmt.Sprintf(`,"at":%d`, t0), fmt.Sprintf(`,"at":%d`, int64(event.MaxMillis))}
	drawnNames  = []string{"", "s-1", "s-2", "r", "q", "@a", "@b", "@c"}
	drawnValues = []string{`"x"`, `"r"`, `"q"`, `"s-1"`, `"@a"`, `"@b"`, `"@c"`, `"@d"`, `"fail"`, `"ok"`, `"may-i-cut"`, `true`, `false`, `null`, `{}`, `[]`, `["x",1]`,
		`0`, `1`, `-1`, `5`, `60000`, `1500000`, `9007199254740992`, `-9007199254740993`, `9223372036854775807`, `9223372036854775808`, `1e3`, `1.5`, fmt.Sprint(t0), `{"at":5}`, `{"of":"@a"}`, `{"of":"@d","n":2}`, `{"rig":"q","title":null}`, `{"text":"x","at":null}`}
	drawnKeys  = []string{"of", "rig", "title", "as", "set", "on", "start", "stop", "starts", "guide", "step", "result", "ms", "n", "line", "slot", "drainEvery", "signs", "cause", "at", "name", "sha256"}
	drawnWalls = []string{"", "", fmt.Sprintf(`,"wall":[%d,60]`, t0), fmt.Sprintf(`,"wall":[%d,-60]`, t0+minute), `,"wall":[0,0]`, `,"wall":[-1,0]`}
)

// draw takes bytes from what the fuzzer gives; when there are none left, zeros.
type draw struct{ rest []byte }

func (d *draw) n(most int) int {
	if len(d.rest) == 0 {
		return 0
	}
	b := d.rest[0]
	d.rest = d.rest[1:]
	return int(b) % most
}

func (d *draw) of(list []string) string { return list[d.n(len(list))] }

// event draws the event of that name. What its kind needs is in its body more
// often than not, else most would be odd.
func (d *draw) event(name string) (event.Event, *event.Stamp, error) {
	kind := d.of(append(event.Kinds(), "from.tomorrow", event.ErasedKind))
	set := map[string]string{}
	k := event.KindOf(kind)
	if k == nil {
		k = &event.Kind{}
	}
	for _, f := range k.Body {
		if f.Need == event.Must && f.Type != event.Int {
			set[f.Key] = drawnValues[d.n(11)]
		}
	}
	for _, f := range k.Body {
		if f.Need == event.Must && f.Type == event.Int {
			set[f.Key] = drawnValues[17+d.n(13)]
		}
	}
	for range d.n(4) {
		set[d.of(drawnKeys)] = d.of(drawnValues)
	}
	var fields []string
	for _, key := range order.Keys(set) {
		fields = append(fields, fmt.Sprintf("%q:%s", key, set[key]))
	}
	in, about := d.of(drawnNames), d.of(drawnNames)
	if k.Always && about == "" {
		about = "s-1"
	}
	named := ""
	if in != "" {
		named += fmt.Sprintf(`,"in":%q`, in)
	}
	if about != "" {
		named += fmt.Sprintf(`,"about":%q`, about)
	}
	text := fmt.Sprintf(`{"id":%q,"t":%q,"device":"phone-%d","kind":%q,"v":%d%s%s%s,"body":{%s}}`, id(name), drawnTimes[d.n(len(drawnTimes))], d.n(2), kind,
		1+max(0, d.n(8)-6), named, d.of(drawnAts), d.of(drawnWalls), strings.Join(fields, ","))
	for _, other := range []string{"a", "b", "c", "d"} {
		text = strings.ReplaceAll(text, "@"+other, id(other))
	}
	e, err := event.Decode([]byte(text))
	var o *event.Stamp
	if d.n(2) == 1 {
		clamped := min(e.T, drawnTimes[d.n(len(drawnTimes))])
		o = &clamped
	}
	return e, o, err
}

// FuzzDrawnOrder folds up to seven drawn events in ten drawn orders, with some of
// them twice, some looked at in between, and what the server said of them at once
// or later: each gives the same bytes.
func FuzzDrawnOrder(f *testing.F) {
	f.Add([]byte("an amend of an amend, before it"))
	f.Add(bytes.Repeat([]byte{7, 31, 2, 250, 19}, 40))
	f.Fuzz(func(t *testing.T, drawn []byte) {
		d := &draw{drawn}
		type one struct {
			event.Event
			o *event.Stamp
			n int64
		}
		var list []one
		for i := range 2 + d.n(6) {
			e, o, err := d.event(string(rune('a' + i)))
			if err != nil {
				t.Fatal(err)
			}
			x := one{Event: e, o: o, n: 0}
			if o != nil {
				x.n = int64(i + 1)
			}
			list = append(list, x)
		}
		whole := NewFold()
		for _, x := range list {
			whole.Add(x.Event, x.o, x.n)
		}
		want, err := whole.State()
		if err != nil {
			t.Fatal(err)
		}
		for range 10 {
			order := slices.Clone(list)
			for i := range order {
				j := i + d.n(len(order)-i)
				order[i], order[j] = order[j], order[i]
			}
			order = append(order, order[:d.n(len(order)+1)]...)
			how := d.n(4)
			g := NewFold()
			for i, x := range order {
				if how&1 != 0 && i < len(list) {
					g.Add(x.Event, nil, 0) // the server has not said anything yet
				}
				if how&2 != 0 {
					g.Now()
					g.Parts()
					g.Book("", 0)
				}
				if how&1 == 0 {
					g.Add(x.Event, x.o, x.n)
				}
			}
			for _, x := range list {
				if how&1 != 0 {
					g.Add(x.Event, x.o, x.n)
				}
			}
			if got, err := g.State(); err != nil || !bytes.Equal(got, want) {
				var text strings.Builder
				for _, x := range order {
					fmt.Fprintf(&text, "%s o %v\n", x.Raw, x.o)
				}
				t.Fatalf("in the order\n%s(%d) it is\n%s\nat first:\n%s\n%v", text.String(), how, got, want, err)
			}
		}
	})
}
