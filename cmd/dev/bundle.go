package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/andybalholm/brotli"
	"github.com/evanw/esbuild/pkg/api"

	"kerfside/pwa"
)

// joined is a file that modules are joined to.
type joined struct {
	name  string   // of the file, as the app's addresses have it
	entry string   // the module that it takes the place of; "" if it is loaded when it is first needed
	late  []string // modules in it that others load by import()
}

// pageFiles are what the page runs. The first holds the two screens that a
// start is made for, and whatever more than one of the others need: so each of
// them is one request, and asks for nothing further.
var pageFiles = []joined{
	{"app.js", "app.js", []string{"pages/cut.js", "parts/entries.js", "journal/crew/home.js", "journal/carry/rescue.js"}},
	{"fix.js", "", []string{"pages/fix.js"}},
	{"book.js", "", []string{
		"pages/book.js", "pages/session.js", "pages/rigs.js", "pages/thing.js", "pages/settings.js", "pages/glove-test.js",
		"pages/join.js", "pages/devices.js", "journal/crew/join.js",
		"pages/photo-gauge.js", "parts/photos.js", "journal/photo/photos.js",
	}},
	{"sums.js", "", []string{"pages/gate.js", "pages/sum.js", "pages/sums.js", "pages/rig-card.js", "pages/pace.js", "pages/search.js"}},
	{"guides.js", "", []string{"pages/guides.js", "pages/guide-screen.js", "draw/beside.js"}},
}

// workerFiles are what the worker runs.
var workerFiles = []joined{{"calc/worker.js", "calc/worker.js", nil}, {"gen/wasm_exec.js", "gen/wasm_exec.js", nil}}

// bundle joins the modules of the phone and writes pwa.BundleFile.
func bundle() error {
	made, err := joinModules("pwa", pageFiles, workerFiles)
	if err != nil {
		return err
	}
	to := filepath.Join("pwa", filepath.FromSlash(pwa.BundleFile))
	old, _ := os.ReadFile(to) // if it cannot be read it is written anew
	packFiles(made, old)
	data, err := json.Marshal(made) // in the order of names
	if err != nil || bytes.Equal(data, old) {
		return err // a new time would make the Go command build everything again
	}
	return os.WriteFile(to, data, 0o644)
}

// packFiles packs each file as well as brotli can, unless the old bundle has it
// packed: that takes ten times as long as all else.
func packFiles(made *pwa.Bundle, old []byte) {
	var before pwa.Bundle
	if json.Unmarshal(old, &before) != nil {
		before = pwa.Bundle{}
	}
	for name, file := range made.Files {
		if was := before.Files[name]; was.Text == file.Text && len(was.Brotli) > 0 {
			file.Brotli = was.Brotli
		} else {
			var packed bytes.Buffer
			w := brotli.NewWriterLevel(&packed, brotli.BestCompression)
			w.Write([]byte(file.Text)) // into memory: cannot fail
			w.Close()
			file.Brotli = packed.Bytes()
		}
		made.Files[name] = file
	}
}

// joinModules joins the modules of a folder. Sets of files run apart from each
// other, like the page and its worker, and share nothing.
func joinModules(dir string, sets ...[]joined) (*pwa.Bundle, error) {
	root, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	made := &pwa.Bundle{Files: map[string]pwa.Joined{}, In: map[string]string{}}
	for _, files := range sets {
		j := joiner{root: root, files: files, in: map[string]string{}}
		if err := j.join(made); err != nil {
			return nil, err
		}
	}
	contents, err := modulesIn(root)
	if err != nil {
		return nil, err
	}
	made.Modules = slices.Sorted(maps.Keys(contents))
	made.Of = pwa.HashOf(made.Modules, contents)
	return made, nil
}

// modulesIn returns all modules of a folder; also those that nothing imports, which
// hold types.
func modulesIn(root string) (map[string][]byte, error) {
	contents := map[string][]byte{}
	err := walkFiles(root, func(path string) error {
		name, err := filepath.Rel(root, path)
		name = filepath.ToSlash(name)
		if err != nil || filepath.Ext(name) != ".js" || name == "sw.js" { // the server fills in the service worker
			return err
		}
		contents[name], err = os.ReadFile(path)
		return err
	})
	return contents, err
}

// joiner joins one set of files. A bundler that splits by itself puts what two
// files share into a third, what three share into a fourth, and so on: many
// requests, one after the other. Here the first file holds it, and the others
// import it from there, where it is already.
type joiner struct {
	root  string
	files []joined

	in    map[string]string   // the file that each module goes into
	given map[string][]string // what each module exports
	alias map[string]string   // "MODULE NAME" to the name by which the first file gives it to the others
}

func (j *joiner) join(made *pwa.Bundle) error {
	if err := j.place(); err != nil {
		return err
	}
	if err := j.readExports(); err != nil {
		return err
	}
	used := map[string]bool{}                // aliases
	for i := len(j.files) - 1; i >= 0; i-- { // the first file comes last: it gives what the others use
		file := j.files[i]
		text, sources, err := j.write(file, used)
		if err != nil {
			return err
		}
		if i > 0 && file.entry == "" {
			findUsed(text, used)
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
	late := map[string]string{} // by whom
	made, err := j.run(j.options(file.name, file.starts(), func(build api.PluginBuild) {
		build.OnResolve(api.OnResolveOptions{Filter: "^\\."}, func(args api.OnResolveArgs) (api.OnResolveResult, error) {
			if args.Kind != api.ResolveJSDynamicImport {
				return api.OnResolveResult{}, nil
			}
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
	j.given, j.alias = map[string][]string{}, map[string]string{}
	for _, module := range modules {
		j.given[module] = meta.Outputs[module].Exports
		for _, name := range j.given[module] {
			j.alias[module+" "+name] = "$" + strconv.FormatInt(int64(len(j.alias)), 36)
		}
	}
	return nil
}

// write makes one file and its source map.
func (j *joiner) write(file joined, used map[string]bool) (text, sources string, err error) {
	var start strings.Builder
	start.WriteString(file.starts())
	for _, module := range append([]string{file.entry}, file.late...) {
		if names := j.given[module]; len(names) > 0 {
			fmt.Fprintf(&start, "export {%s} from %q;\n", strings.Join(names, ","), "./"+module)
		}
	}
	if file.name == j.files[0].name {
		for _, module := range slices.Sorted(maps.Keys(j.in)) {
			for _, name := range j.given[module] {
				if alias := j.alias[module+" "+name]; used[alias] {
					fmt.Fprintf(&start, "export {%s as %s} from %q;\n", name, alias, "./"+module)
				}
			}
		}
	}
	made, err := j.run(j.options(file.name, start.String(), func(build api.PluginBuild) { j.divide(build, file) }))
	if err != nil {
		return "", "", err
	}
	for _, out := range made.OutputFiles {
		if strings.HasSuffix(out.Path, ".map") {
			sources, err = namedSources(file.name, out.Contents)
		} else {
			text = string(out.Contents)
		}
	}
	return text, sources, err
}

// divide has a file get modules of others from those files: what it imports, by
// alias from the first, and what it loads, by name.
func (j *joiner) divide(build api.PluginBuild, file joined) {
	build.OnResolve(api.OnResolveOptions{Filter: "^\\."}, func(args api.OnResolveArgs) (api.OnResolveResult, error) {
		if args.Namespace == sharedSpace {
			return api.OnResolveResult{Path: args.Path, External: true}, nil
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
	build.OnLoad(api.OnLoadOptions{Filter: ".", Namespace: sharedSpace}, func(args api.OnLoadArgs) (api.OnLoadResult, error) {
		var names []string
		for _, name := range j.given[args.Path] {
			names = append(names, j.alias[args.Path+" "+name]+" as "+name)
		}
		text := fmt.Sprintf("export {%s} from %q;\n", strings.Join(names, ","), addressFrom(file.name, j.files[0].name))
		return api.OnLoadResult{Contents: &text}, nil
	})
}

const (
	sharedSpace = "shared"
	startName   = "<stdin>"
)

// addressFrom returns how a file asks for another.
func addressFrom(file, other string) string {
	relative, err := filepath.Rel(path.Dir(file), other)
	if err != nil {
		panic(err) // both are names of files of the app
	}
	return "./" + filepath.ToSlash(relative)
}

// nameOf returns the module that is asked for. All of ours are asked for by
// their place seen from the one that asks.
func (j *joiner) nameOf(args api.OnResolveArgs) string {
	return j.relative(filepath.Join(args.ResolveDir, filepath.FromSlash(args.Path)))
}

// relative returns the name of a module from its path.
func (j *joiner) relative(file string) string {
	name, err := filepath.Rel(j.root, file)
	if err != nil {
		return file
	}
	return filepath.ToSlash(name)
}

// options are how a file is made of a start that imports all else. A module
// that waits at its top would wait for ever: files import from each other.
func (j *joiner) options(name, start string, plugin func(api.PluginBuild)) api.BuildOptions {
	o := api.BuildOptions{
		AbsWorkingDir:     j.root,
		Stdin:             &api.StdinOptions{Contents: start, ResolveDir: j.root},
		Outfile:           filepath.Join(j.root, filepath.FromSlash(name)),
		AllowOverwrite:    true, // nothing is written
		Bundle:            true,
		Format:            api.FormatESModule,
		Target:            api.ES2022,
		Supported:         map[string]bool{"top-level-await": false, "import-meta": false},
		MinifyWhitespace:  true,
		MinifySyntax:      true,
		MinifyIdentifiers: true,
		Charset:           api.CharsetUTF8,
		LegalComments:     api.LegalCommentsNone,
		Sourcemap:         api.SourceMapLinked,
		SourcesContent:    api.SourcesContentExclude,
		Metafile:          true,
	}
	if plugin != nil {
		o.Plugins = []api.Plugin{{Name: "divide", Setup: plugin}}
	}
	return o
}

// run takes warnings for errors: they name what would go wrong on the phone.
func (j *joiner) run(o api.BuildOptions) (api.BuildResult, error) {
	made := api.Build(o)
	for _, trouble := range append(made.Errors, made.Warnings...) {
		at := "pwa"
		if trouble.Location != nil {
			at = fmt.Sprintf("pwa/%s:%d", trouble.Location.File, trouble.Location.Line)
		}
		return made, fail(at+": "+trouble.Text, "Mend the module.")
	}
	return made, nil
}

// namedSources has a source map name modules as they are served for it.
func namedSources(file string, data []byte) (string, error) {
	var sources map[string]any
	if err := json.Unmarshal(data, &sources); err != nil {
		return "", err
	}
	list, _ := sources["sources"].([]any)
	for i, source := range list {
		module := path.Join(path.Dir(file), fmt.Sprint(source))
		if _, shared, ok := strings.Cut(module, sharedSpace+":"); ok {
			module = shared
		}
		list[i] = addressFrom(file, pwa.SourceFolder+module)
	}
	out, err := json.Marshal(sources)
	return string(out), err
}

var importing = regexp.MustCompile(`import\{([^}]*)\}from"`)

// findUsed adds the aliases that a file imports.
func findUsed(text string, used map[string]bool) {
	for _, m := range importing.FindAllStringSubmatch(text, -1) {
		for _, name := range strings.Split(m[1], ",") {
			name, _, _ = strings.Cut(name, " as ")
			used[name] = true
		}
	}
}
