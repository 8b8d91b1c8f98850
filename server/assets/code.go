package assets

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"slices"

	"kerfside/pwa"
)

// code is how the app's modules go out: joined to a few files, or as they lie
// where that was not done for just these modules.
type code struct {
	start  []string                     // what every screen needs beside app.js
	beside func(module string) []string // what the module of a screen needs beside that
	packed map[string][]byte            // forms that were packed beforehand
	aids   map[string]*file             // what browsers show to developers; no phone keeps it
}

// asTheyLie has the modules go out as they were written.
func asTheyLie(raw map[string][]byte) code {
	start := imports(raw, "app.js")
	return code{start: start, beside: func(module string) []string {
		if raw[module] == nil {
			return nil
		}
		return slices.DeleteFunc(imports(raw, module), func(name string) bool { return slices.Contains(start, name) })
	}}
}

// takeBundle puts the joined files in the place of the modules, if there are any
// that were made of just these.
func takeBundle(files fs.FS, raw map[string][]byte) (code, error) {
	bundle, err := pwa.ReadBundle(files, raw)
	if err != nil {
		return code{}, fmt.Errorf("%s: %w", pwa.BundleFile, err)
	}
	if bundle == nil {
		return asTheyLie(raw), nil
	}
	c := code{packed: map[string][]byte{}, aids: map[string]*file{}}
	c.beside = func(module string) []string {
		if in := bundle.In[module]; in != "" && in != "app.js" {
			return []string{in}
		}
		return nil
	}
	for _, name := range bundle.Modules {
		c.aids[pwa.SourceFolder+name] = newFile(name, raw[name], immutable)
		delete(raw, name)
	}
	words, err := json.Marshal(bundle.Words) // as it stands in a page: with no < in it
	if err != nil {
		return code{}, err
	}
	const templates = "<!-- templates -->"
	raw[shellFile] = bytes.Replace(raw[shellFile], []byte(templates), fmt.Appendf(nil, "%s\n<script type=\"application/json\" id=%q>%s</script>", templates, pwa.WordsID, words), 1)
	for name, joined := range bundle.Files {
		raw[name] = []byte(joined.Text)
		c.packed[name] = joined.Brotli
		if joined.Map != "" {
			c.aids[name+".map"] = newFile(name+".json", []byte(joined.Map), immutable)
		}
	}
	return c, nil
}

// staticImport finds what a module imports before it runs.
var staticImport = regexp.MustCompile(`(?m)^(?:import|export)\b[^;"]*"(\.[^"]+)";`)

// imports lists a module and all that it imports, and what those import: so that
// they are fetched side by side and not one after the other.
func imports(raw map[string][]byte, module string) []string {
	list := []string{module}
	for i := 0; i < len(list); i++ {
		for _, m := range staticImport.FindAllSubmatch(raw[list[i]], -1) {
			name := path.Join(path.Dir(list[i]), string(m[1]))
			if raw[name] != nil && !slices.Contains(list, name) {
				list = append(list, name)
			}
		}
	}
	return list
}
