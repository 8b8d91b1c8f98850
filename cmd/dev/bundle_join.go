package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/evanw/esbuild/pkg/api"

	"kerfside/pwa"
)

// joiner joins one set of files. A bundler that splits by itself puts what two
// files share into a third, what three share into a fourth, and so on: many
// requests, one after the other. Here the first file holds it, and the others
// import it from there, where it is already.
type joiner struct {
	root  string
	files []joined

	text   map[string]string   // of each module, as it goes into a file
	in     map[string]string   // the file that each module goes into
	given  map[string][]string // what each module exports
	asked  map[string][]string // "FILE MODULE" to what the modules of a file import from a module, with repeats
	words  map[string]string   // what they look up by key
	shared []string            // "MODULE NAME" of what the first file gives the others, in the order of its list
}

func (j *joiner) join(made *pwa.Bundle) error {
	if err := j.place(); err != nil {
		return err
	}
	if err := j.readExports(); err != nil {
		return err
	}
	if err := j.readTexts(); err != nil {
		return err
	}
	if err := j.readImports(); err != nil {
		return err
	}
	maps.Copy(made.Words, j.words)
	for _, file := range j.files {
		text, sources, err := j.write(file)
		if err != nil {
			return err
		}
		made.Files[file.name] = pwa.Joined{Text: text, Map: sources}
		for _, module := range file.late {
			made.In[module] = file.name
		}
	}
	return nil
}

// place decides which file each module goes into.
func (j *joiner) place() error {
	for _, file := range j.files {
		modules, err := j.reach(file)
		if err != nil {
			return err
		}
		for _, module := range modules {
			if _, taken := j.in[module]; taken {
				j.in[module] = j.files[0].name
			} else {
				j.in[module] = file.name
			}
		}
	}
	for _, file := range j.files {
		for _, module := range file.late {
			if j.in[module] != file.name {
				return fail(fmt.Sprintf("pwa/%s is to go into %s, but %s needs it as well", module, file.name, j.in[module]), "Put it there, in cmd/dev/bundle.go.")
			}
		}
	}
	return nil
}

// reach returns a file's modules and all that these import, and those import.
// What is loaded by import() must stand in the table.
func (j *joiner) reach(file joined) ([]string, error) {
	var mu sync.Mutex           // modules are read side by side
	late := map[string]string{} // by whom
	made, err := j.run(j.options(file.name, file.starts(), func(build api.PluginBuild) {
		build.OnResolve(api.OnResolveOptions{Filter: "^\\."}, func(args api.OnResolveArgs) (api.OnResolveResult, error) {
			if args.Kind != api.ResolveJSDynamicImport {
				return api.OnResolveResult{}, nil
			}
			mu.Lock()
			defer mu.Unlock()
			late[j.nameOf(args)] = j.relative(args.Importer)
			return api.OnResolveResult{Path: args.Path, External: true}, nil
		})
	}))
	if err != nil {
		return nil, err
	}
	for _, module := range slices.Sorted(maps.Keys(late)) {
		if !slices.ContainsFunc(j.files, func(file joined) bool { return slices.Contains(file.late, module) }) {
			return nil, fail(fmt.Sprintf("pwa/%s loads pwa/%s when it needs it", late[module], module), "Say in cmd/dev/bundle.go which file that goes into.")
		}
	}
	var meta struct {
		Inputs map[string]struct{}
	}
	if err := json.Unmarshal([]byte(made.Metafile), &meta); err != nil {
		return nil, err
	}
	var modules []string
	for input := range meta.Inputs {
		if input != startName {
			modules = append(modules, input)
		}
	}
	slices.Sort(modules)
	return modules, nil
}

// starts returns the modules that make a file needed.
func (f joined) starts() string {
	var text strings.Builder
	for _, module := range append([]string{f.entry}, f.late...) {
		if module != "" {
			fmt.Fprintf(&text, "import %q;\n", "./"+module)
		}
	}
	return text.String()
}

// readExports finds what modules export that others load or share.
func (j *joiner) readExports() error {
	modules := slices.Sorted(maps.Keys(j.in))
	o := j.options("", "", nil)
	o.Stdin, o.Bundle, o.Outfile, o.Outdir, o.Outbase = nil, false, "", j.root, j.root
	for _, module := range modules {
		o.EntryPoints = append(o.EntryPoints, filepath.Join(j.root, filepath.FromSlash(module)))
	}
	made, err := j.run(o)
	if err != nil {
		return err
	}
	var meta struct {
		Outputs map[string]struct{ Exports []string }
	}
	if err := json.Unmarshal([]byte(made.Metafile), &meta); err != nil {
		return err
	}
	j.given = map[string][]string{}
	for _, module := range modules {
		j.given[module] = meta.Outputs[module].Exports
	}
	return nil
}

// readTexts reads the modules, and puts words where they are said.
func (j *joiner) readTexts() error {
	j.text = map[string]string{}
	for module := range j.in {
		text, err := os.ReadFile(filepath.Join(j.root, filepath.FromSlash(module)))
		if err != nil {
			return err
		}
		j.text[module] = string(text)
		if module == execFile {
			if j.text[module], err = slimExec(string(text)); err != nil {
				return err
			}
		}
	}
	words, err := wordsOf(j.text)
	if err != nil {
		return err
	}
	for module, text := range j.text {
		j.text[module] = words.placed(module, text)
	}
	j.words, err = words.kept()
	return err
}

// importFrom is how our modules import; the check for types knows no other way.
var importFrom = regexp.MustCompile(`(?m)^import (?:\{([^}]*)\}|(\S.*)) from "(\.[^"]*)"`)

// readImports finds what the modules of each file import from others, so that a
// file asks the first for that alone. The bundler would ask for all that a shared
// module exports, and the first would have to keep it.
func (j *joiner) readImports() error {
	j.asked = map[string][]string{}
	for module, file := range j.in {
		for _, m := range importFrom.FindAllStringSubmatch(j.text[module], -1) {
			from := path.Join(path.Dir(module), m[3])
			if m[2] != "" {
				return fail(fmt.Sprintf("pwa/%s imports %q from pwa/%s", module, m[2], from), "Import by name: import { NAME } from …")
			}
			for name := range strings.SplitSeq(m[1], ",") {
				name, _, _ = strings.Cut(strings.TrimSpace(name), " as ")
				j.asked[file+" "+from] = append(j.asked[file+" "+from], name)
			}
		}
	}
	return j.listShared()
}

// write makes one file and its source map.
func (j *joiner) write(file joined) (text, sources string, err error) {
	var start strings.Builder
	start.WriteString(file.starts())
	for _, module := range append([]string{file.entry}, file.late...) {
		if names := j.given[module]; len(names) > 0 {
			fmt.Fprintf(&start, "export {%s} from %q;\n", strings.Join(names, ","), "./"+module)
		}
	}
	if file.name == j.files[0].name {
		start.WriteString(j.giveShared())
	}
	made, err := j.run(j.options(file.name, start.String(), func(build api.PluginBuild) { j.divide(build, file) }))
	if err != nil {
		return "", "", err
	}
	var places []byte
	for _, out := range made.OutputFiles {
		if strings.HasSuffix(out.Path, ".map") {
			places = out.Contents
		} else {
			text = string(out.Contents)
		}
	}
	changes, err := shortNames(text)
	if err != nil {
		return "", "", fmt.Errorf("%s: %w", file.name, err)
	}
	if places != nil {
		sources, err = namedSources(file.name, j.files[0].name, places, func(mappings string) string { return moved(mappings, text, changes) })
	}
	return changed(text, changes), sources, err
}

// divide has a file get modules of others from those files: what it imports, out of
// the list of the first, and what it loads, by name.
func (j *joiner) divide(build api.PluginBuild, file joined) {
	first := addressFrom(file.name, j.files[0].name)
	build.OnResolve(api.OnResolveOptions{Filter: "."}, func(args api.OnResolveArgs) (api.OnResolveResult, error) {
		if args.Namespace == sharedSpace {
			return api.OnResolveResult{Path: args.Path, Namespace: sharedSpace, External: args.Path == first}, nil
		}
		if args.Kind == api.ResolveEntryPoint {
			return api.OnResolveResult{}, nil
		}
		module := j.nameOf(args)
		switch {
		case args.Kind == api.ResolveJSDynamicImport:
			at := slices.IndexFunc(j.files, func(file joined) bool { return slices.Contains(file.late, module) })
			return api.OnResolveResult{Path: addressFrom(file.name, j.files[at].name), External: true}, nil
		case j.in[module] != file.name:
			return api.OnResolveResult{Path: module, Namespace: sharedSpace}, nil
		}
		return api.OnResolveResult{}, nil
	})
	build.OnLoad(api.OnLoadOptions{Filter: `\.js$`, Namespace: "file"}, func(args api.OnLoadArgs) (api.OnLoadResult, error) {
		text := j.text[j.relative(args.Path)]
		return api.OnLoadResult{Contents: &text, Loader: api.LoaderJS}, nil
	})
	build.OnLoad(api.OnLoadOptions{Filter: ".", Namespace: sharedSpace}, func(args api.OnLoadArgs) (api.OnLoadResult, error) {
		text := j.takeShared(file, args.Path)
		return api.OnLoadResult{Contents: &text}, nil
	})
}
