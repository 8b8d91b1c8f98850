package guides

import (
	"encoding/json"
	"flag"
	"go/doc/comment"
	"go/parser"
	"go/token"
	"os"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

// The example in the package comment is a guide.
func TestPackageExample(t *testing.T) {
	f, err := parser.ParseFile(token.NewFileSet(), "doc.go", nil, parser.ParseComments|parser.PackageClauseOnly)
	if err != nil {
		t.Fatal(err)
	}
	var example string
	var p comment.Parser
	blocks := p.Parse(f.Doc.Text()).Content
	for i, b := range blocks {
		if h, ok := b.(*comment.Heading); ok && h.Text[0] == comment.Plain("Example") {
			example = blocks[i+1].(*comment.Code).Text
		}
	}
	g, err := Parse("cup.md", []byte(example))
	if err != nil {
		t.Fatalf("the package comment's example has faults:\n%v", err)
	}
	if g.Title != "Look at the cup" || len(g.Steps) != 1 || g.Steps[0].Slot != "cup" {
		t.Errorf("the example was read as %+v", g)
	}
}

func TestGolden(t *testing.T) {
	src := read(t, "../testdata/guides/example.md")
	g, err := Parse("example.md", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "example.json", g)
	golden(t, "example-search.json", newSearchIndex([]*Guide{g}))
}

func golden(t *testing.T, name string, v any) {
	t.Helper()
	got, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	file := "../testdata/guides/" + name
	if *update {
		if err := os.WriteFile(file, append(got, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want := strings.TrimSpace(read(t, file)); string(got) != want {
		t.Errorf("%s differs; if that was meant, run go test ./guides -update. Got:\n%s", name, got)
	}
}

// Each case of faults.txt is a guide with something wrong: all faults it names
// are found, at their lines, and no others.
func TestFaults(t *testing.T) {
	cases := strings.Split("\n"+read(t, "../testdata/guides/faults.txt"), "\n-- ")[1:]
	for _, c := range cases {
		name, body, _ := strings.Cut(c, "\n")
		src, wants, ok := strings.Cut(body, "\nwant\n")
		if !ok {
			t.Fatalf("case %q has no want", name)
		}
		t.Run(name, func(t *testing.T) {
			_, err := Parse("cup.md", []byte(src))
			var got []string
			if err != nil {
				got = strings.Split(err.Error(), "\n")
			}
			want := strings.Split(strings.TrimSpace(wants), "\n")
			matches := func(got, want string) bool { return strings.HasPrefix(got, "cup.md:"+want) }
			if !slices.EqualFunc(got, want, matches) {
				t.Errorf("Parse = \n  %s\nwant\n  %s", strings.Join(got, "\n  "), strings.Join(want, "\n  "))
			}
		})
	}
}

func TestReadableScales(t *testing.T) {
	for _, c := range []struct {
		quantity, unit string
		want           float64
	}{
		{quantity: "length", unit: "mm", want: 1000},              // µm
		{quantity: "length", unit: "in", want: 25400},             // in = 25.4 mm exactly, NIST SP 811 App. B
		{quantity: "pressure", unit: "psi", want: 6894.757293168}, // NIST SP 811 App. B.8
		{quantity: "pressure", unit: "bar", want: 100000},         // NIST SP 811 App. B.8
		{quantity: "time", unit: "min", want: 60000},              // ms
		{quantity: "current", unit: "A", want: 1000},              // mA
		{quantity: "voltage", unit: "V", want: 1000},              // mV
		{quantity: "count", unit: "pcs", want: 1},                 //
	} {
		got := readable[c.quantity][c.unit]
		if diff := got - c.want; diff > 1e-6 || diff < -1e-6 {
			t.Errorf("scale of %s in %s = %v, want %v", c.quantity, c.unit, got, c.want)
		}
	}
}
