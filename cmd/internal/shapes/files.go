// Package shapes writes down for the phone's JavaScript what Go alone knows: the
// types of all that passes between the two, as TypeScript reads them, and the
// version of the fold. Types are read by the type check and the editor; nothing of
// them is sent.
//
// It finds the types where they are used, not by file: from the journal's table of
// calls, from the calls and calculators of the registry, and from the server's
// list of addresses. What Go does not say is in spoken.go.
package shapes

import (
	"fmt"
	"go/constant"
	"go/types"
	"maps"
	"slices"
	"strings"
)

// Dir is where the declarations lie, from the top of the module.
const Dir = "pwa/types/"

// FoldFile is the module that tells the phone the version of the fold.
const FoldFile = "pwa/journal/fold-version.js"

// Files returns the files by path from dir, the top of the module.
func Files(dir string) (map[string]string, error) {
	s, err := readSource(dir, "./calc/...", "./guides/...", "./server/...")
	if err != nil {
		return nil, err
	}
	list, err := calculators(dir)
	if err != nil {
		return nil, err
	}
	return s.files(list)
}

// files declares all that the phone needs.
func (s *source) files(list []calculator) (map[string]string, error) {
	d := newDeclarations(s)
	if err := d.declareCalculators(list); err != nil {
		return nil, err
	}
	calls, err := s.registryCalls()
	if err != nil {
		return nil, err
	}
	d.declareCalls(calcFile, "Calls", "What goes into each call of the sums beside the calculators, and comes out.", calls)
	if calls, err = s.engineCalls(); err != nil {
		return nil, err
	}
	d.declareCalls(journalFile, "Calls", "What goes into each call of the journal, and comes out.", calls)
	views, err := s.views()
	if err != nil {
		return nil, err
	}
	rows := map[string]string{}
	for name, t := range views {
		rows[name] = d.typed(t)
	}
	d.table("Views", "The views that the phone keeps, by name.", rows)
	d.declareBodies()
	addresses, err := s.addresses()
	if err != nil {
		return nil, err
	}
	d.declareAddresses(addresses)
	if err := d.declareAssets(); err != nil {
		return nil, err
	}
	d.stale()
	files := map[string]string{}
	for file := range d.texts {
		files[Dir+file] = d.print(file)
	}
	if files[FoldFile], err = s.foldModule(); err != nil {
		return nil, err
	}
	return files, d.err()
}

const header = "Made by go run ./cmd/dev types: change the Go instead."

// print writes a file of declarations.
func (d *declarations) print(file string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "// %s\n", header)
	from := map[string][]string{}
	for name, other := range d.imports[file] {
		from[other] = append(from[other], name)
	}
	for _, other := range slices.Sorted(maps.Keys(from)) {
		slices.Sort(from[other])
		fmt.Fprintf(&b, "\nimport type { %s } from \"./%s.js\";\n", strings.Join(from[other], ", "), strings.TrimSuffix(other, ".d.ts"))
	}
	for _, name := range slices.Sorted(maps.Keys(d.texts[file])) {
		b.WriteString("\n" + d.texts[file][name])
	}
	return b.String()
}

// foldModule writes the version of the fold as a module.
func (s *source) foldModule() (string, error) {
	for _, p := range s.packages {
		if c, ok := p.types.Scope().Lookup("FoldVersion").(*types.Const); ok {
			return fmt.Sprintf("// @ts-check\n// %s\n\n/** Version of the fold and its views that these pages can draw. */\nexport const foldVersion = %s;\n", header, constant.ToInt(c.Val()).ExactString()), nil
		}
	}
	return "", fmt.Errorf("no package of calc has a FoldVersion any more")
}
