package shapes

import (
	"cmp"
	"errors"
	"fmt"
	"go/constant"
	"go/types"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// Files of declarations in pwa/types, by the Go that they are made from.
const (
	journalFile = "journal.d.ts"
	calcFile    = "calc.d.ts"
	guidesFile  = "guides.d.ts"
	serverFile  = "server.d.ts"
)

// fileOf returns the file that declares the types of a package.
func fileOf(path string) string {
	path = strings.TrimPrefix(path, module)
	for _, place := range []struct{ root, file string }{
		{"calc/journal", journalFile}, {"calc", calcFile}, {"guides", guidesFile}, {"server", serverFile},
	} {
		if path == place.root || strings.HasPrefix(path, place.root+"/") {
			return place.file
		}
	}
	return ""
}

// declarations collects the types that the phone needs, file by file.
type declarations struct {
	source   *source
	names    map[*types.TypeName]string
	owner    map[string]*types.TypeName // by file and name
	texts    map[string]map[string]string
	imports  map[string]map[string]string // file → name → file that declares it
	file     string                       // the one that is being written
	spoken   map[string]bool              // keys of spoken.go that were met
	troubles []error
}

func newDeclarations(s *source) *declarations {
	return &declarations{source: s, names: map[*types.TypeName]string{}, owner: map[string]*types.TypeName{},
		texts: map[string]map[string]string{}, imports: map[string]map[string]string{}, spoken: map[string]bool{}}
}

func (d *declarations) trouble(format string, args ...any) string {
	d.troubles = append(d.troubles, fmt.Errorf(format, args...))
	return "never"
}

func (d *declarations) err() error { return errors.Join(d.troubles...) }

// typed writes a Go type as its JSON reads in TypeScript.
func (d *declarations) typed(t types.Type) string {
	switch t := types.Unalias(t).(type) {
	case *types.Named:
		return d.named(t)
	case *types.Basic:
		switch {
		case t.Info()&types.IsString != 0:
			return "string"
		case t.Info()&types.IsBoolean != 0:
			return "boolean"
		case t.Info()&types.IsNumeric != 0:
			return "number"
		}
	case *types.Pointer:
		return d.typed(t.Elem())
	case *types.Slice:
		if basic, ok := t.Elem().(*types.Basic); ok && basic.Kind() == types.Byte {
			return "string" // base64
		}
		return listOf(d.typed(t.Elem()))
	case *types.Array:
		return "[" + strings.Repeat(d.typed(t.Elem())+", ", int(t.Len())-1) + d.typed(t.Elem()) + "]"
	case *types.Map:
		return "Record<" + d.typed(t.Key()) + ", " + d.typed(t.Elem()) + ">"
	case *types.Interface:
		return "unknown"
	case *types.Struct:
		return d.members(t, "anonymous", true)
	}
	return d.trouble("cmd/internal/shapes does not know how the JSON of %s reads", t)
}

// listOf is the type of a list of them.
func listOf(one string) string {
	if strings.ContainsAny(one, "|&") && !strings.HasPrefix(one, "{") {
		one = "(" + one + ")"
	}
	return one + "[]"
}

// named writes a named type: by its name, which is declared along with it.
func (d *declarations) named(t *types.Named) string {
	of := t.Obj()
	key := of.Name()
	if of.Pkg() != nil {
		key = strings.TrimPrefix(of.Pkg().Path(), module) + "." + key
	}
	if key == "encoding/json.RawMessage" {
		return "unknown"
	}
	file := ""
	if of.Pkg() != nil {
		file = fileOf(of.Pkg().Path())
	}
	if file == "" || t.TypeArgs().Len() > 0 {
		return d.trouble("cmd/internal/shapes does not know how the JSON of %s reads", t)
	}
	name, met := d.names[of]
	if !met {
		name = cmp.Or(renamed[lastOf(key)], renamed[of.Name()], upper(of.Name()))
		d.spoken[lastOf(key)], d.spoken[of.Name()] = true, true
		d.claim(file, name, of)
		d.names[of] = name
		was := d.file
		d.file = file
		d.declare(name, d.text(name, t, custom[of.Name()]))
		d.file = was
	}
	d.use(file, name)
	return name
}

// lastOf is "form.Answer" for "calc/form.Answer", wherever the package lies.
func lastOf(key string) string { return key[strings.LastIndex(key, "/")+1:] }

func upper(name string) string { return strings.ToUpper(name[:1]) + name[1:] }

// claim keeps two types of one file from having the same name.
func (d *declarations) claim(file, name string, of *types.TypeName) {
	if other := d.owner[file+name]; other != nil && other != of {
		d.trouble("%s and %s are both %s in %s: give one another name there, in renamed of cmd/internal/shapes", other.Pkg().Path(), of.Pkg().Path(), name, file)
	}
	d.owner[file+name] = of
}

// declare puts a declaration into the file that is being written.
func (d *declarations) declare(name, text string) {
	if d.texts[d.file] == nil {
		d.texts[d.file] = map[string]string{}
	}
	d.texts[d.file][name] = text
}

// use notes that the file that is being written takes a name from another.
func (d *declarations) use(file, name string) {
	if file == d.file {
		return
	}
	if d.imports[d.file] == nil {
		d.imports[d.file] = map[string]string{}
	}
	d.imports[d.file][name] = file
}

// text writes the declaration of a named type; as is how its JSON reads where a
// method of its own writes that.
func (d *declarations) text(name string, t *types.Named, as string) string {
	said := comment(d.source.said[t.Obj()], "")
	if as == "" && (hasMethod(t, "MarshalJSON") || hasMethod(t, "MarshalText")) {
		as = d.trouble("%s writes its own JSON: say how that reads, in custom of cmd/internal/shapes", t)
	}
	if as != "" {
		return said + "export type " + name + " = " + as + ";\n"
	}
	switch under := t.Underlying().(type) {
	case *types.Struct:
		return said + "export interface " + name + " " + d.members(under, name, false) + "\n"
	case *types.Basic:
		if words := constants(t); closed[lastOf(t.Obj().Pkg().Path()+"."+t.Obj().Name())] && len(words) > 0 {
			return said + "export type " + name + " = " + strings.Join(words, " | ") + ";\n"
		}
	}
	return said + "export type " + name + " = " + d.typed(t.Underlying()) + ";\n"
}

func hasMethod(t *types.Named, name string) bool {
	m, _, _ := types.LookupFieldOrMethod(t, true, t.Obj().Pkg(), name)
	return m != nil
}

// constants lists the words of a type that has constants in its package, in
// the order of their text.
func constants(t *types.Named) []string {
	var words []string
	scope := t.Obj().Pkg().Scope()
	for _, name := range scope.Names() {
		if c, ok := scope.Lookup(name).(*types.Const); ok && types.Identical(c.Type(), t) {
			words = append(words, strconv.Quote(constant.StringVal(c.Val())))
		}
	}
	slices.Sort(words)
	return slices.Compact(words)
}

// member is a field of a struct as its JSON shows it.
type member struct {
	key      string
	of       string // the type that has the field, by its name on the phone
	field    *types.Var
	optional bool
	tagged   bool
	depth    int
}

// members writes the fields of a struct. An embedded one's count as those of the
// struct itself, by the rules of encoding/json.
func (d *declarations) members(t *types.Struct, name string, inline bool) string {
	fields := visible(t, name)
	if len(fields) == 0 {
		return "{}"
	}
	var b strings.Builder
	b.WriteString("{")
	for i, m := range fields {
		at := m.of + "." + m.key
		d.spoken[at] = true
		as := overridden[at]
		if as == "" {
			as = d.typed(m.field.Type())
			_, isNull := m.field.Type().(*types.Pointer)
			if said, ok := null[at]; ok {
				isNull = said
			}
			if isNull && !m.optional {
				as += " | null"
			}
		}
		mark := ""
		if m.optional {
			mark = "?"
		}
		if inline {
			separator := "; "
			if i == 0 {
				separator = " "
			}
			fmt.Fprintf(&b, "%s%s%s: %s", separator, keyText(m.key), mark, as)
			continue
		}
		fmt.Fprintf(&b, "\n%s  %s%s: %s;", comment(d.source.said[m.field], "  "), keyText(m.key), mark, as)
	}
	if inline {
		return b.String() + " }"
	}
	return b.String() + "\n}"
}

// visible returns the fields of a struct that its JSON has, in order.
func visible(t *types.Struct, name string) []member {
	var all []member
	collect(t, name, 0, &all)
	var shown []member
	for _, m := range all {
		best := true
		for _, other := range all {
			if other.key != m.key || other.field == m.field {
				continue
			}
			if other.depth < m.depth || other.depth == m.depth && (other.tagged || !m.tagged) {
				best = false
			}
		}
		if best {
			shown = append(shown, m)
		}
	}
	return shown
}

func collect(t *types.Struct, name string, depth int, all *[]member) {
	for i := range t.NumFields() {
		field := t.Field(i)
		tag, rest, _ := strings.Cut(reflect.StructTag(t.Tag(i)).Get("json"), ",")
		if tag == "-" && rest == "" {
			continue
		}
		if field.Embedded() && tag == "" {
			embedded := field.Type()
			if p, ok := embedded.(*types.Pointer); ok {
				embedded = p.Elem()
			}
			if s, ok := embedded.Underlying().(*types.Struct); ok {
				collect(s, field.Name(), depth+1, all)
				continue
			}
		}
		if !field.Exported() {
			continue
		}
		key := tag
		if key == "" {
			key = field.Name()
		}
		options := strings.Split(rest, ",")
		*all = append(*all, member{key: key, of: name, field: field, optional: slices.Contains(options, "omitempty") || slices.Contains(options, "omitzero"), tagged: tag != "", depth: depth})
	}
}

// keyText writes a key, in quotes where it is no plain word.
func keyText(key string) string {
	for i, r := range key {
		if r != '_' && (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') && (i == 0 || r < '0' || r > '9') {
			return strconv.Quote(key)
		}
	}
	return key
}

// comment writes what is said as a comment set in by indent.
func comment(said, indent string) string {
	if said == "" {
		return ""
	}
	said = strings.ReplaceAll(said, "*/", "* /")
	if !strings.Contains(said, "\n") {
		return indent + "/** " + said + " */\n"
	}
	lines := strings.Split(said, "\n")
	for i, line := range lines {
		lines[i] = strings.TrimRight(indent+" * "+line, " ")
	}
	return indent + "/**\n" + strings.Join(lines, "\n") + "\n" + indent + " */\n"
}
