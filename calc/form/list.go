package form

// A list field holds rows, each a small form of its own:
//
//	{Key: "cuts", Label: "Cuts", Takes: form.List(
//		form.EachRow{Name: "Cut", Shown: "{count} × {length} · {thickness} {metal} · {pierces|pierce|pierces}", Bare: []string{"metal", "thickness", "length"}, Ordered: true},
//		metalField(), thicknessField(), …)}
//
// and is read row by row, with all that reads a form:
//
//	for _, row := range r.Rows("cuts") {
//		length := form.Get[unit.Length](row, "length")
//	}
//
// A row has the form that it stands in behind it: what it has no field for is read
// from there, so that what reads a whole form reads a row as well.
//
// As JSON a list is an array of objects, [{"metal": "stainless", "thickness": "6mm"}],
// or a text that holds one. A text may be written as on a command line too: rows
// parted by semicolons, in each first the values that need no key and then key=value,
//
//	stainless 6mm 400mm count=3; mild-steel 1/4in 2ft name="back rail"
//
// with quotes round a value that has spaces in it. What is wrong with a row is told
// of cuts.2.thickness, rows counted from 1, and names the row: "Cut 2: …". A member
// whose key begins with _ belongs to whoever sent it, and goes along with its row.

// MostRows is the most rows that any list takes.
const MostRows = 200

// EachRow is how a row of a list is asked for and shown.
type EachRow struct {
	Name    string   `json:"name"`              // "Cut", as in "Cut 2"
	Shown   string   `json:"shown"`             // the row in words: its fields in braces, in parts between dots; {pierces|pierce|pierces} counts, {shape?} is told unless it is the usual one. A part with nothing in it is left out
	Bare    []string `json:"bare,omitempty"`    // fields that a text gives without their keys, in this order
	Ordered bool     `json:"ordered,omitempty"` // the order matters: a row can be moved
	Most    int      `json:"most"`              // rows, MostRows if left out
}

// Listing is the type of a list: how its rows are shown, and what stands in one.
type Listing struct {
	EachRow
	Row *Calculator // its fields; it computes nothing
}

// List is the type of a list of rows with those fields.
func List(each EachRow, fields ...Field) *Type {
	if each.Most == 0 {
		each.Most = MostRows
	}
	l := &Listing{EachRow: each, Row: &Calculator{Name: each.Name, Fields: fields}}
	for _, f := range fields {
		if f.Takes.Kind == KindList {
			panic("form: a list in the rows of a list: " + f.Key)
		}
	}
	for _, key := range each.Bare {
		l.Row.mustField(key)
	}
	return &Type{Kind: KindList, List: l}
}
