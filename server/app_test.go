package server

import (
	"testing"
	"testing/fstest"

	"kerfside/pwa"
)

// TestPackedModules: a packed module goes out in the place of the source that it
// was made of, and of no other; while developing none does.
func TestPackedModules(t *testing.T) {
	source := []byte("export const a = 1; // one\n")
	made := `{"a.js":{"of":"` + pwa.HashOf(source) + `","text":"export const a=1;"}}`
	for _, c := range []struct {
		name, source string
		packed       string
		want         string
	}{
		{"packed", string(source), made, "export const a=1;"},
		{"changed since", "export const a = 2;\n", made, "export const a = 2;\n"},
		{"never packed", string(source), "", string(source)},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := fstest.MapFS{}
			if c.packed != "" {
				files[pwa.PackedFile] = &fstest.MapFile{Data: []byte(c.packed)}
			}
			raw := map[string][]byte{"a.js": []byte(c.source)}
			if err := packModules(raw, files); err != nil {
				t.Fatal(err)
			}
			if got := string(raw["a.js"]); got != c.want {
				t.Errorf("a.js goes out as %q, want %q", got, c.want)
			}
		})
	}
	if err := packModules(nil, fstest.MapFS{pwa.PackedFile: &fstest.MapFile{Data: []byte("{")}}); err == nil {
		t.Error("a broken file of packed modules was taken")
	}
}
