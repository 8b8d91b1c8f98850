package shapes

import (
	"fmt"
	"strings"

	"kerfside/calc/journal/event"
)

// bodyTypes are the types of a body's values.
var bodyTypes = map[event.Type]string{event.Text: "string", event.Int: "number", event.Number: "number", event.Flag: "boolean",
	event.Texts: "string[]", event.Map: "Body", event.Link: "string", event.Name: "string"}

// declareBodies declares what entries say of themselves: what anything may be that
// another phone wrote, and what this phone writes, kind by kind.
func (d *declarations) declareBodies() {
	d.file = journalFile
	d.declare("Body", comment("The body of an entry as another phone may have written it: look at each value before you use it.", "")+
		"export interface Body {\n  [key: string]: unknown;\n}\n")
	var b strings.Builder
	for _, k := range event.All() {
		fmt.Fprintf(&b, "  %q: {\n", k.Name)
		for _, f := range k.Body {
			optional := "?"
			if f.Need == event.Must {
				optional = ""
			}
			key, holds := f.Key+optional, bodyTypes[f.Type]
			if named, ok := f.Named(); ok {
				key, holds = "[key: `"+named+"${string}`]", holds+" | null"
			}
			fmt.Fprintf(&b, "%s    %s: %s;\n", comment(f.Note, "    "), key, holds)
		}
		if k.Fields {
			b.WriteString("    [field: string]: unknown;\n")
		}
		b.WriteString("  };\n")
	}
	d.declare("Bodies", comment("What this phone writes into the body of an entry, by its kind.", "")+"export interface Bodies {\n"+b.String()+"}\n")
}
