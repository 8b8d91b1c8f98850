package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/cmd/internal/browser"
)

// oddDay is an export of a session with four good entries and as many that no app
// of this version writes.
func oddDay() string {
	text := `{"kerfside":1,"count":10}` + "\n"
	for i, e := range []string{
		`"kind":"rig.set","v":1,"about":"rig-1","body":{"name":"South truck","tips":[1,{}]}`,
		`"kind":"session.opened","v":1,"about":"s-1","body":{"rig":"rig-1","title":"Gate post"}`,
		`"kind":"trap.drained","v":1,"in":"s-1","body":{}`,
		`"kind":"note.added","v":1,"in":"s-1","body":{"text":"all is well"}`,
		`"kind":"fault.seen","v":1,"in":"s-1","about":"f-1","body":{"symptom":"no-arc","signs":["no-arc"]}`,
		`"kind":"fault.seen","v":1,"in":"s-1","about":"f-1","body":{"signs":"x"}`,
		`"kind":"note.added","v":1,"in":"s-1","body":{"text":{"toString":null}}`,
		`"kind":"part.fitted","v":2,"in":"s-1","about":"p-1","body":{"slot":"tip"}`,
		`"kind":"hasOwnProperty","v":1,"in":"s-1","body":{}`,
		`"kind":"arc.run","v":1,"in":"s-1","body":{"start":1e300,"stop":"x"}`,
	} {
		stamp := event.StampOf(1760731116544 + int64(i)*60_000)
		text += fmt.Sprintf(`{"id":"odd-entry-no-%09d","t":"%s","device":"phone-b",%s}`, i, stamp, e) + "\n"
	}
	return text
}

// TestBrowserOddEntries: in a real browser too a session shows each of its entries,
// whatever stands in one of them, and the lists beside it show theirs. With -shots
// the session is left to be looked at.
func TestBrowserOddEntries(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir := place(t)
	app := openApp(t, dir)
	defer app.Close()
	phone, err := browser.Launch(ctx, browser.Options{Profile: filepath.Join(dir, "phone")})
	if err != nil {
		t.Fatal(err)
	}
	defer phone.Kill()
	page, err := phone.Page(ctx, browser.Phone)
	if err != nil {
		t.Fatal(err)
	}
	do := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	export, err := json.Marshal(oddDay())
	do(err)
	do(page.Open(ctx, app.URL()+"/book"))
	do(page.Wait(ctx, `globalThis.kerfside?.journal`))
	var in struct{ Added, Refused int }
	do(page.Evaluate(ctx, `kerfside.journal.importText(`+string(export)+`).then((done) => ({ added: done.added, refused: done.refused.length }))`, &in))
	if in.Added != 10 || in.Refused != 0 {
		t.Fatalf("of 10 entries %+v", in)
	}
	for _, c := range []struct{ path, row, list string }{{path: "/session/s-1", row: "[data-id]", list: "entries"}, {path: "/book", row: "[href='/session/s-1']", list: "days"}, {path: "/rigs", row: "[href='/rig/rig-1']", list: "rigs"}, {path: "/fix", row: "[data-id='f-1']", list: "list"}} {
		do(page.Open(ctx, app.URL()+c.path))
		do(page.Wait(ctx, `document.querySelector("main `+c.row+`")`))
		var rows []string
		do(page.Evaluate(ctx, `[...document.querySelectorAll("[data-ref=`+c.list+`] li")].map((row) => row.innerText)`, &rows))
		all := strings.Join(rows, "\n")
		for _, want := range map[string][]string{
			"/session/s-1": {"Session opened", "Trap drained", "all is well", "Seen: no arc", "Seen: x", "Note added: cannot be read here", "Part fitted: entered by a newer version", "HasOwnProperty: entered by a newer version", "Arc run: cannot be read here"},
			"/book":        {"Gate post"}, "/rigs": {"South truck"}, "/fix": {""},
		}[c.path] {
			if !slices.ContainsFunc(rows, func(row string) bool { return strings.HasPrefix(row, want) }) {
				t.Errorf("%s does not show %q:\n%s", c.path, want, all)
			}
		}
		if strings.Contains(all, "undefined") || strings.Contains(all, "[object") || strings.Contains(all, "cannot be shown") {
			t.Errorf("%s shows:\n%s", c.path, all)
		}
		if *shots == "" {
			continue
		}
		do(page.Evaluate(ctx, `document.querySelector("[data-ref=`+c.list+`]").lastElementChild.scrollIntoView({ block: "center", behavior: "instant" })`, nil))
		for look, scheme := range map[string]string{"sun": "light", "night": "dark"} {
			do(page.Media(ctx, map[string]string{"prefers-color-scheme": scheme}))
			picture, err := page.Picture(ctx)
			do(err)
			do(os.WriteFile(filepath.Join(*shots, "odd"+strings.ReplaceAll(c.path, "/", "-")+"-"+look+".png"), picture, 0o644))
		}
	}
	for _, f := range page.Faults() {
		t.Errorf("the page had a fault: %+v", f)
	}
}
