package main

import (
	"encoding/json"
	"fmt"
	"path"
	"path/filepath"
	"strings"

	"github.com/evanw/esbuild/pkg/api"

	"kerfside/pwa"
)

const (
	sharedSpace = "shared"
	sharedList  = "$" // the list of what the first file gives the others
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
		Engines:           oldestEngines(),
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
	if name == serviceFile {
		o.Sourcemap = api.SourceMapNone // it has an address apart from the others
	}
	if plugin != nil {
		o.Plugins = []api.Plugin{{Name: "divide", Setup: plugin}}
	}
	return o
}

// run takes warnings for errors: they name what would go wrong on the phone.
func (j *joiner) run(o api.BuildOptions) (api.BuildResult, error) {
	made := api.Build(o)
	if troubles := append(made.Errors, made.Warnings...); len(troubles) > 0 {
		trouble, at := troubles[0], "pwa"
		if trouble.Location != nil {
			at = fmt.Sprintf("pwa/%s:%d", trouble.Location.File, trouble.Location.Line)
		}
		return made, fail(at+": "+trouble.Text, "Mend the module.")
	}
	return made, nil
}

// namedSources has a source map name modules as they are served for it. The list of
// what files share is the first's. What it says of places goes through move.
func namedSources(file, first string, data []byte, move func(mappings string) string) (string, error) {
	var sources map[string]any
	if err := json.Unmarshal(data, &sources); err != nil {
		return "", err
	}
	list, _ := sources["sources"].([]any)
	for i, source := range list {
		module := path.Join(path.Dir(file), fmt.Sprint(source))
		if _, shared, ok := strings.Cut(module, sharedSpace+":"); ok {
			module = strings.Replace(shared, sharedList, first, 1)
		}
		if path.Base(module) == startName { // what the build begins with is no file
			module = first
		}
		list[i] = addressFrom(file, pwa.SourceFolder+module)
	}
	sources["mappings"] = move(fmt.Sprint(sources["mappings"]))
	out, err := json.Marshal(sources)
	return string(out), err
}
