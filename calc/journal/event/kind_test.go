package event_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/journaltest"
	"kerfside/calc/order"

	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "write anew what follows from the declarations of the kinds")

// TestKindsAreDeclared holds the declarations to what all that follows from them needs:
// an example of the field's type, a kind for each link, a sort of thing that has a name.
func TestKindsAreDeclared(t *testing.T) {
	family := regexp.MustCompile(`^[a-z]+(\.[a-z]+)?$`)
	for kind, e := range journaltest.Good() {
		k := event.KindOf(kind)
		if !family.MatchString(kind) {
			t.Errorf("%q is no name of a kind", kind)
		}
		if k.About != "" && e.About == "" {
			t.Errorf("%s is about a %q, of which journaltest has no example", kind, k.About)
		}
		text, err := json.Marshal(e.Body)
		if err != nil {
			t.Fatalf("%s: %v", kind, err)
		}
		if lack := event.Missing(kind, e.About, event.ReadBody(text)); lack != "" {
			t.Errorf("%s: %s", kind, lack)
		}
		for _, f := range k.Body {
			if !isOf(f.Type, f.Example) {
				t.Errorf("%s: %s is no %s: %s", kind, f.Key, typeNames[f.Type], f.Example)
			}
			if f.Type == event.Link && f.Of != "" && event.KindOf(f.Of) == nil {
				t.Errorf("%s: %s names a %s, which is no kind", kind, f.Key, f.Of)
			}
		}
	}
}

var typeNames = map[event.Type]string{event.Text: "text", event.Int: "integer", event.Number: "number", event.Flag: "true or false",
	event.Texts: "list of texts", event.Map: "object", event.Link: "id of an event", event.Name: "id of a thing"}

// isOf reports whether JSON is a value of a type.
func isOf(of event.Type, text string) bool {
	var v any
	if json.Unmarshal([]byte(text), &v) != nil {
		return false
	}
	switch v := v.(type) {
	case string:
		return of == event.Text || of == event.Name || of == event.Link && len(v) == 22
	case float64:
		return of == event.Number || of == event.Int && v == float64(int64(v))
	case bool:
		return of == event.Flag
	case []any:
		return of == event.Texts && !slices.ContainsFunc(v, func(x any) bool { _, ok := x.(string); return !ok })
	case map[string]any:
		return of == event.Map
	}
	return false
}

// TestWhatFollowsFromTheKinds: the table of the specification and the good bodies for
// the tests of the phone are those of the declarations.
func TestWhatFollowsFromTheKinds(t *testing.T) {
	holds(t, "../kinds.md", func(page string) string {
		head, rest, found := strings.Cut(page, "<!-- kinds -->\n")
		_, tail, ended := strings.Cut(rest, "<!-- /kinds -->")
		if !found || !ended {
			t.Fatal("kinds.md has no place for the table")
		}
		return head + "<!-- kinds -->\n" + table() + "<!-- /kinds -->" + tail
	})
	holds(t, kindsFile, func(string) string {
		var lines []string
		all := journaltest.Good()
		for _, kind := range order.Keys(all) {
			text, err := json.Marshal(all[kind])
			if err != nil {
				t.Fatal(err)
			}
			lines = append(lines, fmt.Sprintf("  %q: %s", kind, text))
		}
		return "{\n" + strings.Join(lines, ",\n") + "\n}\n"
	})
}

// holds compares a file with what it ought to be, or writes that with -update.
func holds(t *testing.T, path string, want func(is string) string) {
	t.Helper()
	is, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	wanted := want(string(is))
	if *update {
		if err := os.WriteFile(path, []byte(wanted), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if wanted != string(is) {
		t.Errorf("%s is not what the declarations say: run go test ./calc/journal/event -run %s -update", path, t.Name())
	}
}

// table is the table of the specification.
func table() string {
	var b strings.Builder
	b.WriteString("| kind | about | key | holds | needed |\n|---|---|---|---|---|\n")
	for _, k := range event.All() {
		about := k.About
		if about != "" && !k.Always {
			about += ", if it says so"
		}
		kind := "`" + k.Name + "`"
		row := func(key, holds, needed string) {
			fmt.Fprintf(&b, "| %s | %s | %s | %s | %s |\n", kind, about, key, holds, needed)
			kind, about = "", ""
		}
		for _, f := range k.Body {
			holds := typeNames[f.Type]
			if f.Of != "" {
				holds = "id of the `" + f.Of + "`"
			}
			if f.Note != "" {
				holds += ": " + f.Note
			}
			row("`"+f.Key+"`", holds, [...]string{"", "its type", "yes"}[f.Need])
		}
		if k.Fields {
			row("…", "fields of the thing; null removes one", "")
		}
	}
	return b.String()
}

// TestDrawnEventsCount: the generator of the property tests makes events that the fold
// counts, of every kind.
func TestDrawnEventsCount(t *testing.T) {
	drawn := map[string]int{}
	laws(t, func(t *rapid.T) {
		for _, e := range journaltest.PlainJournal(t) {
			if lack := event.Missing(e.Kind, e.About, event.ReadBody(e.Body)); lack != "" {
				t.Fatalf("%s: %s: %s", e.Kind, lack, e.Raw)
			}
			drawn[e.Kind]++
		}
	})
	for _, kind := range event.Kinds() {
		if drawn[kind] == 0 && !testing.Short() { // which draws too few for all kinds
			t.Errorf("no %s was drawn", kind)
		}
	}
}
