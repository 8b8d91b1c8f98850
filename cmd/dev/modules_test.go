package main

import (
	"encoding/json"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/evanw/esbuild/pkg/api"
)

// jsModule is what one module of pwa asks of others, each by its name.
type jsModule struct {
	imports []string // at its start
	loads   []string // later, by import()
	types   []string // in comments and declarations
}

// pwaModules reads pwa as it is.
func pwaModules(t *testing.T) map[string]jsModule {
	t.Helper()
	all, err := readModules(filepath.FromSlash("../../pwa"))
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 100 {
		t.Fatalf("only %d modules found: this test looks in the wrong place", len(all))
	}
	return all
}

// jsFolder returns the part of pwa that a module belongs to.
func jsFolder(name string) string {
	top, _, _ := strings.Cut(name, "/")
	return top
}

// readModules reads what the modules and declarations below a folder ask of
// each other. What is built, in gen, is left out.
func readModules(dir string) (map[string]jsModule, error) {
	root, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	all := map[string]jsModule{}
	options := api.BuildOptions{
		AbsWorkingDir: root, Outdir: root, Bundle: true, Metafile: true, // nothing is written
		Format: api.FormatESModule, Target: api.ES2022, TreeShaking: api.TreeShakingFalse,
	}
	err = walkFiles(root, func(file string) error {
		name, err := filepath.Rel(root, file)
		name = filepath.ToSlash(name)
		isCode, isTypes := path.Ext(name) == ".js", strings.HasSuffix(name, ".d.ts")
		if err != nil || jsFolder(name) == "gen" || !isCode && !isTypes {
			return err
		}
		text, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		all[name] = jsModule{types: typesIn(name, string(text))}
		if isCode {
			options.EntryPoints = append(options.EntryPoints, file)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	made := api.Build(options)
	for _, trouble := range made.Errors {
		return nil, fail("pwa/"+trouble.Location.File+": "+trouble.Text, "Mend the module.")
	}
	if len(options.EntryPoints) == 0 {
		return all, nil
	}
	var meta struct {
		Inputs map[string]struct {
			Imports []struct{ Path, Kind string }
		}
	}
	if err := json.Unmarshal([]byte(made.Metafile), &meta); err != nil {
		return nil, err
	}
	for name, input := range meta.Inputs {
		module := all[name]
		for _, asked := range input.Imports {
			if asked.Kind == "dynamic-import" {
				module.loads = append(module.loads, asked.Path)
			} else {
				module.imports = append(module.imports, asked.Path)
			}
		}
		all[name] = module
	}
	return all, nil
}

var (
	comments   = regexp.MustCompile(`(?s)/\*.*?\*/`)
	namedTypes = regexp.MustCompile(`(?:import\(|from )"(\.[^"]+)"`)
)

// typesIn returns the modules whose types a module takes: those in its comments,
// or, of a declaration, all.
func typesIn(name, text string) []string {
	if path.Ext(name) == ".js" {
		text = strings.Join(comments.FindAllString(text, -1), "\n")
	}
	var all []string
	for _, m := range namedTypes.FindAllStringSubmatch(text, -1) {
		all = append(all, path.Join(path.Dir(name), m[1]))
	}
	slices.Sort(all)
	return slices.Compact(all)
}
