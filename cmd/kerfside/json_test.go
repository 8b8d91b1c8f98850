package main

import (
	"encoding/json"
	"io"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"kerfside/cmd/internal/command"
)

// toldKeys is a line of the table of keys on the page of the command line.
var toldKeys = regexp.MustCompile("(?m)^\\| `([a-z ]+)` \\| (object|array) \\| (.*) \\|$")

// readOne reads text as one JSON value.
func readOne(t *testing.T, text string) any {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(text))
	var v any
	if err := d.Decode(&v); err != nil {
		t.Fatalf("%v: %q", err, text)
	}
	if _, err := d.Token(); err != io.EOF {
		t.Fatalf("more than one value: %q", text)
	}
	return v
}

// TestJSON runs the built command with -json: each prints one value with the keys
// that the page of the command line tells, no more and no fewer.
func TestJSON(t *testing.T) {
	app := openApp(t, t.TempDir())
	closed := false
	defer func() {
		if !closed {
			app.Close()
		}
	}()
	if got := runBuilt(t, t.TempDir(), "crew", "devices", "-json", "-db", app.DB); got.out != "[]\n" {
		t.Errorf("a crew without phones is %q", got.out)
	}
	link, err := app.Invite("owner")
	if err != nil {
		t.Fatal(err)
	}
	enrolAt(t, app, link)
	page, err := os.ReadFile("../../server/help/command.md")
	if err != nil {
		t.Fatal(err)
	}
	values := map[string]map[string]any{}
	for _, m := range toldKeys.FindAllStringSubmatch(string(page), -1) {
		line := append(strings.Fields(m[1]), "-json")
		switch m[1] {
		case "version":
		case "crew new":
			line = append(line, "-db", app.DB, "Weir Lane")
		case "restore":
			if err := app.Close(); err != nil {
				t.Fatal(err)
			}
			closed = true
			line = append(line, "-db", app.DB, values["backup"]["file"].(string))
		default:
			line = append(line, "-db", app.DB)
		}
		got := runBuilt(t, t.TempDir(), line...)
		if got.status != command.Done || got.err != "" {
			t.Errorf("%v: %+v", line, got)
			continue
		}
		v := readOne(t, got.out)
		if all, is := v.([]any); is != (m[2] == "array") || is && len(all) == 0 {
			t.Errorf("%s prints %s, no %s", m[1], got.out, m[2])
			continue
		} else if is {
			v = all[0]
		}
		one := v.(map[string]any)
		values[m[1]] = one
		var keys []string
		for key := range one {
			keys = append(keys, key)
		}
		want := strings.Fields(strings.ReplaceAll(m[3], "`", ""))
		if m[1] == "version" && thisBuild().Revision == "" { // built without its repository
			want = slices.DeleteFunc(want, func(key string) bool { return slices.Contains([]string{"revision", "committed", "changed"}, key) })
		}
		slices.Sort(keys)
		if slices.Sort(want); !slices.Equal(keys, want) {
			t.Errorf("%s has the keys %q, the page tells %q", m[1], keys, want)
		}
	}
	if len(values) < 9 || values["crew devices"]["name"] != "Truck 1" || values["crew devices"]["revoked"] != nil || values["restore"]["access"] != "former" {
		t.Errorf("they say %v", values)
	}
	if at, err := time.Parse(time.RFC3339, values["crew invite"]["expires"].(string)); err != nil || time.Until(at) < 0 {
		t.Errorf("the invitation ends at %v, %v", at, err)
	}
}

// TestJSONFails: what goes wrong with -json is text on standard error.
func TestJSONFails(t *testing.T) {
	for _, line := range []string{"backup -json -db none.db", "crew devices -json -crew nobody", "restore -json none.db", "crew revoke -json x"} {
		got := runBuilt(t, t.TempDir(), strings.Fields(line)...)
		if got.status == command.Done || got.out != "" || !strings.HasPrefix(got.err, "kerfside: ") {
			t.Errorf("%s: %+v", line, got)
		}
	}
}
