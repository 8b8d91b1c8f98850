package move

import (
	"archive/tar"
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// entry is one of a package's.
type entry struct {
	name string
	data []byte
	kind byte
}

// entriesOf reads a package with nothing but the library.
func entriesOf(t *testing.T, file []byte) (list []entry) {
	t.Helper()
	r := tar.NewReader(bytes.NewReader(file))
	for {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return list
		}
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, entry{name: h.Name, data: data, kind: tar.TypeReg})
	}
}

// packed writes entries as a package; with sums that fit, as somebody would who knows
// the format.
func packed(t *testing.T, list []entry) []byte {
	t.Helper()
	var out, sums bytes.Buffer
	w := tar.NewWriter(&out)
	for _, e := range list {
		if e.name == sumsName {
			e.data = sums.Bytes()
		}
		h := &tar.Header{Name: e.name, Mode: 0o600, Size: int64(len(e.data)), Typeflag: e.kind}
		if e.kind == tar.TypeSymlink {
			h.Size, h.Linkname = 0, "/etc/passwd"
		}
		if err := w.WriteHeader(h); err != nil {
			t.Fatal(err)
		}
		if h.Size > 0 {
			if _, err := w.Write(e.data); err != nil {
				t.Fatal(err)
			}
		}
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(e.data), e.name)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// changed edits the value of an entry.
func changed(t *testing.T, list []entry, name string, edit func(map[string]any)) []entry {
	t.Helper()
	list = slices.Clone(list)
	for i, e := range list {
		if e.name != name {
			continue
		}
		var v map[string]any
		d := json.NewDecoder(bytes.NewReader(e.data))
		d.UseNumber()
		if err := d.Decode(&v); err != nil {
			t.Fatal(err)
		}
		edit(v)
		list[i].data, _ = json.Marshal(v)
		list[i].data = append(list[i].data, '\n')
		return list
	}
	t.Fatalf("no entry %s", name)
	return nil
}

// A file that was cut, changed or made up is refused with nothing changed, and what the
// server has of other crews stays as it is.
func TestHostilePackages(t *testing.T) {
	old, fresh := newHost(t, "old", crew), newHost(t, "fresh", "")
	live(t, old, 2)
	dir := t.TempDir()
	file := filepath.Join(dir, "good.kerfside")
	if _, err := Pack(t.Context(), old.beside(), crew, file, storetest.Now); err != nil {
		t.Fatal(err)
	}
	good, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	list := entriesOf(t, good)
	if got := packed(t, list); !bytes.Equal(got, good) {
		t.Fatal("the test does not write packages as they are")
	}
	manifest := func(edit func(map[string]any)) []byte { return packed(t, changed(t, list, "crew.json", edit)) }
	access := func(edit func(map[string]any)) []byte { return packed(t, changed(t, list, "access.json", edit)) }
	set := func(key string, value any) func(map[string]any) { return func(v map[string]any) { v[key] = value } }
	device := func(key string, value any) []byte {
		return access(func(v map[string]any) { v["devices"].([]any)[0].(map[string]any)[key] = value })
	}
	events := func(edit func([]byte) []byte) []byte {
		l := slices.Clone(list)
		i := slices.IndexFunc(l, func(e entry) bool { return strings.HasPrefix(e.name, "events/") })
		l[i].data = edit(bytes.Clone(l[i].data))
		return packed(t, l)
	}
	without := func(name string) []byte {
		return packed(t, slices.DeleteFunc(slices.Clone(list), func(e entry) bool { return strings.HasPrefix(e.name, name) }))
	}
	with := func(at int, e entry) []byte { return packed(t, slices.Insert(slices.Clone(list), at, e)) }
	var theirs []byte // a token of a crew that is on the new server
	if err := storetest.Raw(t, fresh.path).QueryRow(`SELECT token FROM device`).Scan(&theirs); err != nil {
		t.Fatal(err)
	}
	cases := map[string][]byte{
		"nothing":                      {},
		"no archive":                   []byte("SQLite format 3\x00" + strings.Repeat("x", 2000)),
		"an archive of something else": packed(t, []entry{{name: "a", data: []byte("b"), kind: tar.TypeReg}}),
		"another crew":                 manifest(set("crew", "Wr5Xb8kLz1TfQe3nGh7jVc")), // the list of erasures is not its own
		"a way out of the folder":      manifest(set("crew", "../../../../../etc/cro")),
		"a crew with a line break":     manifest(set("crew", "N0sD1w2aRtY7uIo9PqLm3\n")),
		"a later form":                 manifest(set("form", 2)),
		"a move of no number":          manifest(set("move", 0)),
		"another key length":           manifest(set("key", "AAAA")),
		"fewer events":                 manifest(set("events", 3)),
		"more pictures":                manifest(set("pictures", 7)),
		"damage that is not told":      manifest(set("damaged", 0)),
		"another head":                 manifest(set("head", strings.Repeat("0a", 16))),
		"a head of another length":     manifest(set("head", "0a")),
		"a phone too many":             manifest(set("devices", 9)),
		"a role that is none":          device("role", "king"),
		"a phone with a path":          device("id", "../x"),
		"a short token":                device("token", "AAAA"),
		"a token of another crew":      device("token", theirs),
		"two phones of one name": access(func(v map[string]any) {
			l := v["devices"].([]any)
			l[1] = l[0]
		}),
		"an event more":                   events(func(b []byte) []byte { return append(b, b[:bytes.IndexByte(b, '\n')+1]...) }),
		"an event less":                   events(func(b []byte) []byte { return b[bytes.IndexByte(b, '\n')+1:] }),
		"an event with another id":        events(func(b []byte) []byte { return bytes.Replace(b, []byte(`"opener0`), []byte(`"openes0`), 1) }),
		"an event with other bytes":       events(func(b []byte) []byte { return bytes.Replace(b, []byte(`"raw":"eyJ`), []byte(`"raw":"eyA`), 1) }),
		"an event that has another place": events(func(b []byte) []byte { return bytes.Replace(b, []byte(`"n":2,`), []byte(`"n":9,`), 1) }),
		"no line":                         events(func([]byte) []byte { return []byte("x\n") }),
		"no events":                       without("events/"),
		"no pictures":                     without("photos/"),
		"no list of erasures":             without("erased"),
		"no sums":                         without(sumsName),
		"a picture with another name":     with(len(list)-1, entry{name: "photos/" + strings.Repeat("ab", 32), data: []byte("x"), kind: tar.TypeReg}),
		"a picture with a path":           with(len(list)-1, entry{name: "photos/../../x", data: []byte("x"), kind: tar.TypeReg}),
		"a link":                          with(len(list)-1, entry{name: "photos/link", kind: tar.TypeSymlink}),
		"an entry that does not belong":   with(3, entry{name: "extra", data: []byte("x"), kind: tar.TypeReg}),
		"erasures of another crew": func() []byte {
			l := slices.Clone(list)
			l[2].data = bytes.ReplaceAll(l[2].data, []byte(crew), []byte(fresh.staying))
			return packed(t, l)
		}(),
	}
	chance := rand.New(rand.NewPCG(5, 5))
	for range 40 {
		cut := chance.IntN(len(good) - 1024) // an archive ends in two empty blocks
		cases[fmt.Sprintf("cut at %d", cut)] = good[:cut]
		at := chance.IntN(len(good))
		flipped := bytes.Clone(good)
		flipped[at] ^= 1 << chance.IntN(8)
		cases[fmt.Sprintf("a bit flipped at %d", at)] = flipped
	}
	before := fresh.dump(fresh.staying)
	bad := filepath.Join(dir, "bad.kerfside")
	a := fresh.beside()
	for name, text := range cases {
		if err := os.WriteFile(bad, text, 0o600); err != nil {
			t.Fatal(err)
		}
		_, c, err := Unpack(t.Context(), a, bad)
		p := problem.From(err)
		if err == nil && strings.HasPrefix(name, "a bit flipped") && c.Sum == sha256.Sum256(list[len(list)-1].data) {
			if err := a.Drop(t.Context(), crew); err != nil { // in what pads an entry, or in the name of its owner
				t.Fatal(err)
			}
			continue
		}
		if err == nil || p.Kind == problem.Internal || p.Hint == "" {
			t.Errorf("%s: %v", name, err)
		}
		if crews, err := a.Crews(t.Context()); err != nil || slices.ContainsFunc(crews, func(c store.Crew) bool { return c.State == store.CrewHeld }) {
			t.Errorf("%s: it may be taken up: %v, %v", name, crews, err)
		}
	}
	compare(t, "the new server's own crew", fresh.dump(fresh.staying), before)
	if receipt, _, err := Unpack(t.Context(), a, file); err != nil || receipt.Crew != crew {
		t.Errorf("the good one after all these: %v, %v", receipt, err)
	}
	if _, _, err := Unpack(t.Context(), a, filepath.Join(dir, "none")); problem.KindOf(err) != problem.NotFound {
		t.Errorf("no file: %v", err)
	}
}
