package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"kerfside/calc/vector"
	"kerfside/cmd/internal/browser"
)

// TestBrowserVectors runs every vector of testdata/calc through the module
// that the app's own pages call: worker, WebAssembly and all. The server is
// closed first, so that no sum can come from there.
func TestBrowserVectors(t *testing.T) {
	cases := vectors(t)
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir := place(t)
	app := openApp(t, dir)
	b, err := browser.Launch(ctx, browser.Options{Profile: filepath.Join(dir, "phone-A")})
	if err != nil {
		app.Close()
		t.Fatal(err)
	}
	defer b.Kill()
	page, err := b.Page(ctx, browser.Phone)
	if err == nil {
		err = page.Open(ctx, app.URL()+"/")
	}
	if err == nil {
		err = page.Wait(ctx, `globalThis.kerfside?.journal.bridge.ready`)
	}
	if closed := app.Close(); err == nil {
		err = closed
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cases {
		t.Run(c.Call+"/"+c.Name, func(t *testing.T) {
			reply, err := calculateOnPage(ctx, page, c.Case)
			if err != nil {
				t.Fatal(err)
			}
			for _, line := range c.Check(reply) {
				t.Errorf("%s:%d: %s", c.file, c.Line, line)
			}
		})
	}
}

// calculateOnPage returns what the page's call answers, in the shape of the
// HTTP API.
func calculateOnPage(ctx context.Context, page *browser.Page, c vector.Case) (json.RawMessage, error) {
	name, err := json.Marshal(c.Call)
	if err != nil {
		return nil, err
	}
	var reply json.RawMessage
	err = page.Evaluate(ctx, fmt.Sprintf(`kerfside.call(%s, %s).catch((error) => ({ error }))`, name, c.Input), &reply)
	return reply, err
}

// filedCase is a case and the file that it stands in.
type filedCase struct {
	file string
	vector.Case
}

// vectors returns the cases of all files of testdata/calc.
func vectors(t *testing.T) []filedCase {
	t.Helper()
	files, err := filepath.Glob("../../testdata/calc/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no vectors: %v", err)
	}
	var all []filedCase
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		cases, err := vector.Parse(string(text))
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for _, c := range cases {
			all = append(all, filedCase{filepath.Base(file), c})
		}
	}
	return all
}
