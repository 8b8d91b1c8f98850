package main

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// changing finds what a module exports and gives other values later.
var changing = regexp.MustCompile(`(?m)^export (?:let|var) (\w+)`)

// listShared finds what files ask of the first. It gives all of it in one list: a
// name for each would stand in both files, and none packs well.
func (j *joiner) listShared() error {
	for _, module := range slices.Sorted(maps.Keys(j.in)) {
		for _, name := range j.given[module] {
			if !slices.ContainsFunc(j.files, func(file joined) bool { return j.asks(file, module, name) }) {
				continue
			}
			j.shared = append(j.shared, module+" "+name)
			for _, m := range changing.FindAllStringSubmatch(j.text[module], -1) {
				if m[1] == name {
					return fail(fmt.Sprintf("pwa/%s exports %s, which changes, to another file", module, name), "Export a function that tells it.")
				}
			}
		}
	}
	return nil
}

// asks reports whether a file uses what a module of another exports.
func (j *joiner) asks(file joined, module, name string) bool {
	return file.name != j.in[module] && slices.Contains(j.asked[file.name+" "+module], name)
}

// places names the places of the list of what files share, those that are wanted.
func (j *joiner) places(wanted func(module, name string) bool) string {
	var list []string
	for i, shared := range j.shared {
		place := ""
		if module, name, _ := strings.Cut(shared, " "); wanted(module, name) {
			place = "$" + strconv.Itoa(i)
		}
		list = append(list, place)
	}
	return strings.Join(list, ",")
}

// giveShared is how the first file gives the list.
func (j *joiner) giveShared() string {
	if len(j.shared) == 0 {
		return ""
	}
	var text strings.Builder
	for i, shared := range j.shared {
		module, name, _ := strings.Cut(shared, " ")
		fmt.Fprintf(&text, "import {%s as $%d} from %q;\n", name, i, "./"+module)
	}
	fmt.Fprintf(&text, "export const %s = [%s];\n", sharedList, j.places(func(string, string) bool { return true }))
	return text.String()
}

// takeShared is what stands in a file for a module of the first, or for the list.
func (j *joiner) takeShared(file joined, module string) string {
	if module == sharedList {
		return fmt.Sprintf("import {%s} from %q;\nexport const [%s] = %s;\n", sharedList, addressFrom(file.name, j.files[0].name),
			j.places(func(module, name string) bool { return j.asks(file, module, name) }), sharedList)
	}
	var names []string
	for i, shared := range j.shared {
		if of, name, _ := strings.Cut(shared, " "); of == module && j.asks(file, module, name) {
			names = append(names, fmt.Sprintf("$%d as %s", i, name))
		}
	}
	return fmt.Sprintf("export {%s} from %q;\n", strings.Join(names, ","), sharedList)
}
