package journaltest

import (
	"fmt"
	"strings"

	"kerfside/calc/journal/event"

	"pgregory.net/rapid"
)

// genAbouts are the invented things that generated events are about, by their sort:
// few, so that they meet.
var genAbouts = map[string][]string{
	"rig":     {"rig-1", "rig-2", "rig-3"},
	"site":    {"rig-1", "rig-2", "site-1"}, // ids of things of two sorts may be one
	"job":     {"rig-1", "rig-2", "job-1"},
	"session": {"s-1", "s-2"},
	"part":    {"part-1", "part-2", "part-3"},
	"line":    {"line-1", "line-2"},
	"fault":   {"fault-1", "fault-2"},
	"thing":   {"rig-1", "rig-2", "rig-3", "part-1", "part-2", "part-3", "line-1", "line-2", "s-1", "s-2"},
}

var genDevices = []string{"phone-a", "phone-b", "phone-c"}

// genTexts are the texts that some key usually holds: words that a fold tells apart.
var genTexts = map[string][]string{
	"slot":   {"tip", "electrode"},
	"guide":  {"bring-up", "may-i-cut"},
	"step":   {"clamp", "hose"},
	"result": {"good", "fail", "change"},
	"units":  {"us", "metric"},
	"cut":    {"k1", "k2"},
	"why":    {"air", "worn", "other"},
	"task":   {"drain", "oil", "own"},
	"upkeep": {"drain", "oil", "own"},
	"number": {"7", "7", "2026-08", "x"},
	"cause":  {"tip-worn", "wet air"},
	"metal":  {"mild-steel", "stainless"},
}

// genInts are the whole numbers that some key usually holds, about the time of its
// event: so that arcs meet, watches end, stock runs out.
var genInts = map[string]func(t *rapid.T, ms int64) int64{
	"start": func(t *rapid.T, ms int64) int64 {
		return max(0, ms-rapid.Int64Range(0, 20).Draw(t, "from")*3000)
	},
	"stop": func(t *rapid.T, ms int64) int64 {
		return ms + rapid.Int64Range(-20, 12).Draw(t, "to")*3000
	},
	"ms":         func(t *rapid.T, _ int64) int64 { return 60_000 * small(t, "minutes") },
	"next":       func(t *rapid.T, ms int64) int64 { return ms + 60_000*small(t, "later") },
	"drainEvery": func(t *rapid.T, _ int64) int64 { return 1_200_000 + 100_000*small(t, "every") },
}

func small(t *rapid.T, what string) int64 { return rapid.Int64Range(-3, 12).Draw(t, what) }

// bodyGen draws the body of an event by the declaration of its kind. What a new kind
// must say is drawn by its type, so that the fold counts it from the first day.
type bodyGen struct {
	t      *rapid.T
	ms     int64               // when the event was written
	target string              // id of any event
	ids    map[string][]string // of all events of the journal, by kind
}

func (g bodyGen) body(k *event.Kind) map[string]any {
	body := map[string]any{}
	for _, f := range k.Body {
		if f.Need != event.Must && rapid.IntRange(0, 3).Draw(g.t, "without "+f.Key) == 0 {
			continue
		}
		key := f.Key
		if named, ok := f.Named(); ok {
			key = named + g.of("key", genTexts[strings.TrimSuffix(named, ".")])
		}
		body[key] = g.value(f)
	}
	if k.Fields {
		body[g.of("field", []string{"a", "b"})] = nil
	}
	return body
}

func (g bodyGen) of(what string, list []string) string {
	return rapid.SampledFrom(list).Draw(g.t, what)
}

func (g bodyGen) value(f event.Field) any {
	switch f.Type {
	case event.Int:
		if draw := genInts[f.Key]; draw != nil {
			return draw(g.t, g.ms)
		}
		return small(g.t, f.Key)
	case event.Number:
		return float64(small(g.t, f.Key)) / 4
	case event.Flag:
		return rapid.Bool().Draw(g.t, f.Key)
	case event.Texts:
		return []string{g.of(f.Key, []string{"no arc", "hiss"})}
	case event.Map:
		switch {
		case f.Key == "set":
			return g.set()
		case strings.HasPrefix(f.Key, event.UpkeepField):
			return g.limits()
		case f.Key == event.QuoteField:
			return map[string]any{"number": g.of("number", genTexts["number"]), "at": g.ms, "price": small(g.t, "price")}
		}
		return g.row()
	case event.Link:
		if aim := g.ids[f.Of]; f.Of != "" && len(aim) > 0 && rapid.IntRange(0, 3).Draw(g.t, "astray") > 0 {
			return g.of("aim", aim)
		}
		return g.target
	case event.Name:
		names := genAbouts[f.Key]
		if names == nil {
			names = genAbouts["thing"]
		}
		return g.of(f.Key, names)
	}
	if texts := genTexts[f.Key]; texts != nil {
		return g.of(f.Key, texts)
	}
	return fmt.Sprint(small(g.t, f.Key))
}

// row draws a cut of a list.
func (g bodyGen) row() any {
	if rapid.IntRange(0, 5).Draw(g.t, "off") == 0 {
		return nil
	}
	return map[string]any{"count": g.of("count", []string{"1", "2", "7", "many"}), "at": small(g.t, "place"), "metal": g.of("metal", []string{"mild-steel", "stainless"})}
}

// limits draws how often a task is due.
func (g bodyGen) limits() any {
	if rapid.IntRange(0, 5).Draw(g.t, "unset") == 0 {
		return nil
	}
	return map[string]any{"days": small(g.t, "days"), "arc": 60_000 * small(g.t, "arc"), "hours": 60_000 * small(g.t, "hours"), "off": rapid.Bool().Draw(g.t, "off")}
}

// set draws what an amendment lays over: often nothing, and often what does not fit.
func (g bodyGen) set() map[string]any {
	set := map[string]any{}
	for range rapid.IntRange(0, 2).Draw(g.t, "fields") {
		set[g.of("field", []string{"at", "of", "as", "n", "rig", "start", "slot", "result", "title", "cut", "cut.k1", "job", "task", "line", "upkeep.oil"})] =
			rapid.SampledFrom([]any{1, 5, nil, "rig-2", "tip", "good", "k2", "job-1", "line-2", "oil", map[string]any{"count": "3"}, T0 + 9000}).Draw(g.t, "value")
	}
	return set
}
