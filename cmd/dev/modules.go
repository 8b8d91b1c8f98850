package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/evanw/esbuild/pkg/api"

	"kerfside/pwa"
)

// pack makes all that goes over the air small.
func pack() error { return errors.Join(packWasm(), packModules()) }

// packModules takes comments, white space and long local names out of each
// module of the phone and writes the results into pwa.PackedFile, by name and
// with the hash of the module they were made of. Modules stay what they are,
// one file each with the same exports, so nothing else has to know.
func packModules() error {
	packed := pwa.Packed{}
	err := walkFiles("pwa", func(path string) error {
		name := filepath.ToSlash(strings.TrimPrefix(path, "pwa"+string(filepath.Separator)))
		if filepath.Ext(name) != ".js" || strings.HasPrefix(name, "gen/") || name == "sw.js" { // sw.js is filled in by the server
			return nil
		}
		source, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		text, err := packModule(name, string(source))
		if err != nil {
			return err
		}
		packed[name] = pwa.PackedModule{Of: pwa.HashOf(source), Text: text}
		return nil
	})
	if err != nil {
		return err
	}
	data, err := json.Marshal(packed) // in the order of names
	if err != nil {
		return err
	}
	to := filepath.Join("pwa", filepath.FromSlash(pwa.PackedFile))
	if old, err := os.ReadFile(to); err == nil && string(old) == string(data) {
		return nil // a new time would make the Go command build everything again
	}
	return os.WriteFile(to, data, 0o644)
}

// packModule returns one module without what only readers need.
func packModule(name, source string) (string, error) {
	made := api.Transform(source, api.TransformOptions{
		Sourcefile:        name,
		Loader:            api.LoaderJS,
		Format:            api.FormatESModule,
		Target:            api.ES2022,
		MinifyWhitespace:  true,
		MinifySyntax:      true,
		MinifyIdentifiers: true,
		Charset:           api.CharsetUTF8,
		LegalComments:     api.LegalCommentsNone,
	})
	if len(made.Errors) > 0 {
		e := made.Errors[0]
		line := 0
		if e.Location != nil {
			line = e.Location.Line
		}
		return "", fail(fmt.Sprintf("pwa/%s:%d: %s", name, line, e.Text), "Mend the module.")
	}
	return string(made.Code), nil
}
