package sheet

import "strings"

const byteOrderMark = "\uFEFF"

// CSV returns the table as it goes into a file.
func (t *Table) CSV() string {
	var b strings.Builder
	b.WriteString(byteOrderMark)
	for i := range t.Columns {
		t.field(&b, i, guard(t.Columns[i].header()))
	}
	for _, row := range t.Rows {
		for i := range t.Columns {
			var c Cell
			if i < len(row) {
				c = row[i]
			}
			if c.Type == Text {
				c.Text = guard(c.Text)
			}
			t.field(&b, i, c.Text)
		}
	}
	return b.String()
}

// field writes one field and what stands behind it. The only field of a line is never
// nothing: the line would read as none.
func (t *Table) field(b *strings.Builder, i int, text string) {
	if strings.ContainsAny(text, "\",;\t\r\n") || text == "" && len(t.Columns) == 1 {
		text = `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	b.WriteString(text)
	if i < len(t.Columns)-1 {
		b.WriteByte(',')
	} else {
		b.WriteString("\r\n")
	}
}
