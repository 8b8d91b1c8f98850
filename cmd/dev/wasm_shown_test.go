package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"kerfside/calc/registry"
)

const shownSource = `package air

import (
	"fmt"
	"strings"

	"kerfside/calc/form"
)

type other struct{ Help string }

var c = form.Calculator{
	Title: "Tank",
	About: fmt.Sprint("Help: ", strings.Join([]string{"a", "b"}, "")), // what it tells
	Fields: []form.Field{
		{Key: "volume", Label: "Volume", Help: "On the plate.", Chips: []string{"24", "50"}, Optional: true},
		form.Field{Key: "cut", Known: "plan.cut"},
	},
	Sources: strings.Fields("a"),
}

var o = other{Help: "stays"}
`

const withoutShownSource = `package air

import (
	_ "fmt"
	"strings"

	"kerfside/calc/form"
)

type other struct{ Help string }

var c = form.Calculator{
	Fields: []form.Field{
		{Key: "volume", Label: "Volume", Optional: true},
		form.Field{Key: "cut"},
	},
	Sources: strings.Fields("a"),
}

var o = other{Help: "stays"}
`

func TestWithoutShown(t *testing.T) {
	got, err := withoutShown("air.go", []byte(shownSource))
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Count(got, []byte("\n")) != bytes.Count([]byte(shownSource), []byte("\n")) {
		t.Error("lines were lost")
	}
	words := func(text []byte) string {
		return string(bytes.ReplaceAll(bytes.Join(bytes.Fields(text), []byte(" ")), []byte(", }"), []byte("}")))
	}
	if words(got) != words([]byte(withoutShownSource)) {
		t.Errorf("got\n%s\nwant\n%s", got, withoutShownSource)
	}
	elsewhere := []byte("package fold\n\nvar f = Field{Help: \"stays\"}\n")
	if got, err := withoutShown("fold.go", elsewhere); err != nil || !bytes.Equal(got, elsewhere) {
		t.Errorf("got %s (%v)", got, err)
	}
}

// The program holds what sums read of a declaration, and not what forms alone show.
func TestWasmIsWithoutShown(t *testing.T) {
	path := filepath.Join(t.TempDir(), "calc.wasm")
	if err := linkWasm(path); err != nil {
		t.Fatal(err)
	}
	linked, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if pieces := len(registry.All()); pieces < 20 {
		t.Fatalf("there are %d calculators", pieces)
	}
	for _, c := range registry.All() {
		if bytes.Contains(linked, []byte(c.About)) {
			t.Errorf("%s: calc.wasm says what it is about", c.Name)
		}
	}
	if label := "Planned speed"; !bytes.Contains(linked, []byte(label)) {
		t.Errorf("calc.wasm lacks the label %q", label)
	}
}
