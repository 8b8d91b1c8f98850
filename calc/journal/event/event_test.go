package event_test

import (
	"encoding/json"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// TestWorkedExample checks the sums of the specification, which were computed
// with Python's hashlib and base64.
func TestWorkedExample(t *testing.T) {
	e, err := event.Decode([]byte(worked))
	if err != nil {
		t.Fatal(err)
	}
	sum := event.SumOf(e.Raw)
	if text, _ := sum.MarshalText(); string(text) != "9eddaf0de18c0a80da4ec01676456b971b6b02fea7a0730c126a5935475bf9d9" {
		t.Errorf("sum = %s", text)
	}
	chain := event.Chain{}.Next(e.ID, e.T, sum)
	id, raw, err := event.Reenter(e.Raw)
	if err != nil {
		t.Fatal(err)
	}
	doc := specification(t)
	for what, want := range map[string]string{"event": worked, "chain": chain.String(), "new id": id} {
		if !strings.Contains(doc, want) {
			t.Errorf("the specification does not show the %s %s", what, want)
		}
	}
	if want := strings.Replace(worked, e.ID, id, 1); string(raw) != want {
		t.Errorf("Reenter = %s, want %s", raw, want)
	}
}

func TestDecode(t *testing.T) {
	for name, raw := range map[string]string{
		"worked example":      worked,
		"unknown kind":        `{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"d","kind":"drone.flown","v":3,"body":{}}`,
		"unknown key":         `{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"d","kind":"a","v":1,"body":{},"mood":[1,{"x":null}]}`,
		"body first":          `{"body":{"a":"}]"},"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"d","kind":"a","v":1}`,
		"escaped NUL":         `{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"d","kind":"a","v":1,"body":{"text":"\u0000"}}`,
		"lone surrogate":      `{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"d","kind":"a","v":1,"body":{"text":"\ud83d"}}`,
		"key in other letter": `{"ID":"x","id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"d","kind":"a","v":1,"body":{}}`,
		"eight deep":          `{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"d","kind":"a","v":1,"body":{"a":[[[[[[]]]]]]}}`,
		"huge number in body": `{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"d","kind":"a","v":1,"body":{"n":1e999}}`,
	} {
		e, err := event.Decode([]byte(raw))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if e.ID != "Qk3vZ0mJ8cW1xT5rLb2hYA" || string(e.Raw) != raw {
			t.Errorf("%s: read as %+v", name, e)
		}
	}
}

func TestDecodeRefuses(t *testing.T) {
	with := func(from, to string) string { return strings.Replace(worked, from, to, 1) }
	for name, c := range map[string]struct{ raw, field string }{
		"nothing":             {"", "raw"},
		"no JSON":             {"{", "raw"},
		"a list":              {"[1]", "raw"},
		"two objects":         {worked + worked, "raw"},
		"space around":        {" " + worked, "raw"},
		"newline inside":      {with(`"v":1,`, "\"v\":1,\n"), "raw"},
		"not UTF-8":           {with("tip", "t\xffp"), "raw"},
		"a key twice":         {with(`"v":1`, `"v":1,"v":2`), "raw"},
		"the id twice":        {with(`"v":1`, `"v":1,"id":"Qk3vZ0mJ8cW1xT5rLb2hYB"`), "raw"},
		"nine deep":           {with(`"tip changed"`, `[[[[[[[]]]]]]]`), "raw"},
		"no id":               {with(`"id":"Qk3vZ0mJ8cW1xT5rLb2hYA",`, ``), "id"},
		"short id":            {with(`rLb2hYA`, `rLb2hY`), "id"},
		"id with a slash":     {with(`Qk3v`, `Qk/v`), "id"},
		"id with a dot":       {with(`Qk3v`, `Qk.v`), "id"},
		"id as number":        {with(`"Qk3vZ0mJ8cW1xT5rLb2hYA"`, `12`), "id"},
		"stamp in upper case": {with(`b4000000`, `B4000000`), "t"},
		"no stamp":            {with(`"t":"0199f3c0b4000000",`, ``), "t"},
		"version as text":     {with(`"v":1`, `"v":"1"`), "v"},
		"version 0":           {with(`"v":1`, `"v":0`), "v"},
		"version 1.0":         {with(`"v":1`, `"v":1.0`), "v"},
		"kind with a space":   {with(`note.added`, `note added`), "kind"},
		"empty device":        {with(`phone-a`, ``), "device"},
		"tab in a name":       {with(`phone-a`, `phone\ta`), "device"},
		"body as list":        {with(`{"text":"tip changed"}`, `[]`), "body"},
		"no body":             {with(`,"body":{"text":"tip changed"}`, ``), "body"},
		"wall as object":      {with(`[1760731116544,60]`, `{}`), "wall"},
		"wall with fractions": {with(`[1760731116544,60]`, `[1.5,60]`), "wall"},
		"at before 1970":      {with(`"v":1`, `"v":1,"at":-1`), "at"},
		"path in about":       {with(`"v":1`, `"v":1,"about":"../../x"`), "about"},
	} {
		_, err := event.Decode([]byte(c.raw))
		if err == nil {
			t.Errorf("%s: Decode took it", name)
			continue
		}
		if p := problem.From(err); p.Kind != problem.Malformed || p.Field != c.field || p.Hint == "" {
			t.Errorf("%s: %+v, want malformed %s with a hint", name, p, c.field)
		}
	}
	long := strings.Replace(worked, "tip changed", strings.Repeat("x", event.MaxEvent), 1)
	if _, err := event.Decode([]byte(long)); problem.KindOf(err) != problem.TooLarge {
		t.Errorf("an event of %d bytes: %v, want too-large", len(long), err)
	}
}

// FuzzDecode: what is taken keeps to the limits and can be entered again under
// another id.
func FuzzDecode(f *testing.F) {
	f.Add([]byte(worked))
	f.Add([]byte(oddlyQuoted))
	f.Fuzz(func(t *testing.T, raw []byte) {
		e, err := event.Decode(raw)
		if err != nil {
			return
		}
		if len(raw) > event.MaxEvent || !json.Valid(raw) || string(e.Raw) != string(raw) {
			t.Fatalf("took %q", raw)
		}
		id, again, err := event.Reenter(raw)
		if err != nil {
			t.Fatal(err)
		}
		if fresh, err := event.Decode(again); len(again) <= event.MaxEvent && (err != nil || fresh.ID != id) {
			t.Fatalf("entered again %q is %q: %v", raw, again, err)
		}
	})
}
