package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"kerfside/pwa"
)

// A key stands in a table and again wherever it is said, and the start carries the
// table. So what is only ever said by name is put where it is said, and leaves the
// table: wordPlaces finds those keys.
type wordPlaces struct {
	texts map[string]string // of every key, as it stands in JavaScript
	stay  map[string]bool   // keys that the phone may look up
}

var (
	quoted    = regexp.MustCompile(`"((?:[^"\\]|\\.)*)"`)
	isFilled  = regexp.MustCompile(`\bfilled *[,}]`)
	fromWords = regexp.MustCompile(`(?m)^import \{[^}]*\} from "(?:\.|[./]+/words)/words\.js"`)
)

// wordsOf reads what modules say. Templates have their words already (pwa/words.go).
func wordsOf(sources map[string]string) (*wordPlaces, error) {
	w := &wordPlaces{texts: map[string]string{}, stay: map[string]bool{}}
	for _, table := range pwa.WordTables {
		for _, m := range pwa.WordEntry.FindAllStringSubmatch(sources[table], -1) {
			w.texts[m[1]] = m[2]
		}
	}
	var calls [][]string // the keys of each that says them all by name
	for _, name := range slices.Sorted(maps.Keys(sources)) {
		rest := sources[name]
		if slices.Contains(pwa.WordTables, name) {
			rest = pwa.WordEntry.ReplaceAllString(rest, "")
		}
		for _, s := range sayings(rest) {
			keys, err := w.asked(s)
			if err != nil {
				return nil, fail(fmt.Sprintf("pwa/%s: %s(%s)", name, s.by, s.key), err.Error())
			}
			if keys == nil {
				continue
			}
			rest = rest[:s.at] + strings.Repeat(" ", s.end-s.at) + rest[s.end:]
			calls = append(calls, keys)
		}
		for key := range w.texts {
			w.stay[key] = w.stay[key] || strings.Contains(rest, `"`+key+`"`) // whoever is handed it may look it up
		}
	}
	for changed := true; changed; { // one call looks up all of its keys or none
		changed = false
		for _, keys := range calls {
			if !slices.ContainsFunc(keys, func(key string) bool { return w.stay[key] }) {
				continue
			}
			for _, key := range keys {
				changed = changed || !w.stay[key]
				w.stay[key] = true
			}
		}
	}
	return w, nil
}

// leaves reports whether a key's text goes where it is said.
func (w *wordPlaces) leaves(key string) bool { return w.texts[key] != "" && !w.stay[key] }

// asked returns the keys that a call says by name, if it says nothing else; of what
// it puts together, it notes the keys that this could be.
func (w *wordPlaces) asked(s saying) ([]string, error) {
	var keys []string
	for _, value := range values(s.key) {
		m := quoted.FindStringSubmatch(value)
		if m == nil || m[0] != value {
			return nil, w.note(s.key)
		}
		if _, known := w.texts[m[1]]; !known {
			return nil, fmt.Errorf("there are no words for %s", m[1])
		}
		keys = append(keys, m[1])
	}
	if s.by != "say" {
		return nil, nil
	}
	return keys, nil
}

var (
	chosen = regexp.MustCompile(`((?:^|[?:])\s*)"([^"]*)"`)
	madeOf = regexp.MustCompile("`([^`]*)`")
	hole   = regexp.MustCompile(`\$\{[^}]*\}`)
	listed = regexp.MustCompile(`^/\* ([\w.-]+(?: \| [\w.-]+)*) \*/ [\w.]+$`)
	tables = regexp.MustCompile(`/\* ([\w |-]+) \*/ $`)
)

// note keeps the keys that templates in an expression could make. A comment before
// one may say with what its first hole is filled, and must where it begins with one.
func (w *wordPlaces) note(expression string) error {
	if m := listed.FindStringSubmatch(expression); m != nil {
		for key := range strings.SplitSeq(m[1], " | ") {
			w.stay[key] = true
		}
		return nil
	}
	found := madeOf.FindAllStringSubmatchIndex(expression, -1)
	if found == nil && !quoted.MatchString(expression) {
		return fmt.Errorf("name the key here, or begin it: `title.${screen}`")
	}
	for _, at := range found {
		parts := hole.Split(expression[at[2]:at[3]], -1)
		for i, part := range parts {
			parts[i] = regexp.QuoteMeta(part)
		}
		firsts := []string{".*"}
		if m := tables.FindStringSubmatch(expression[:at[0]]); m != nil {
			firsts = strings.Split(m[1], " | ")
		} else if parts[0] == "" {
			return fmt.Errorf("say in a comment with what it begins: /* rig | site */ `${sort}.save`")
		}
		for _, first := range firsts {
			if known := w.keep(regexp.MustCompile("^" + parts[0] + first + strings.Join(parts[1:], ".*") + "$")); !known && first != ".*" {
				return fmt.Errorf("there are no words for it with %s", first)
			}
		}
	}
	return nil
}

// keep has the keys of a pattern stay, and reports whether there are any.
func (w *wordPlaces) keep(pattern *regexp.Regexp) bool {
	any := false
	for key := range w.texts {
		if pattern.MatchString(key) {
			w.stay[key], any = true, true
		}
	}
	return any
}

// kept returns the words of keys that stay. The page has them, which a browser reads
// sooner than code.
func (w *wordPlaces) kept() (map[string]string, error) {
	words := map[string]string{}
	for key, text := range w.texts {
		if w.leaves(key) {
			continue
		}
		var said string
		if err := json.Unmarshal([]byte(text), &said); err != nil {
			return nil, fmt.Errorf("the words for %s: %w", key, err)
		}
		words[key] = said
	}
	return words, nil
}

// placed returns a module with the words of keys that leave. Of the tables the first
// reads from the page what stays of all.
func (w *wordPlaces) placed(name, source string) string {
	switch slices.Index(pwa.WordTables, name) {
	case 0:
		return fmt.Sprintf("export const en = JSON.parse(document.getElementById(%q).textContent);\n", pwa.WordsID)
	case -1:
	default:
		return pwa.WordEntry.ReplaceAllString(source, "")
	}
	fills := false
	calls := sayings(source)
	for _, s := range slices.Backward(calls) {
		text := chosen.ReplaceAllStringFunc(s.key, func(choice string) string {
			m := chosen.FindStringSubmatch(choice)
			if w.leaves(m[2]) {
				return m[1] + w.texts[m[2]]
			}
			return choice
		})
		if s.by != "say" || text == s.key {
			continue
		}
		call := "("
		if s.more || strings.Contains(text, "{") {
			call, fills = "filled(", true
		}
		source = source[:s.at] + call + text + source[s.end:]
	}
	if fills {
		source = fromWords.ReplaceAllStringFunc(source, func(line string) string {
			if isFilled.MatchString(line) {
				return line
			}
			return strings.Replace(line, "{", "{ filled,", 1)
		})
	}
	return source
}
