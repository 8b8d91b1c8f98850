package sheet

import (
	"strings"
	"testing"
)

var bench = []Column{
	{Key: "name", Title: "Name", Type: Text, Need: true},
	{Key: "bore", Title: "Bore", Unit: "mm", Type: Decimal},
	{Key: "count", Title: "Pieces", Type: Integer},
	{Key: "at", Title: "Counted", Type: Time},
	{Key: "note", Title: "Note", Type: Text},
}

func TestWritten(t *testing.T) {
	table := Table{bench, [][]Cell{
		{OfText("Tip"), OfDecimal(1.2, 2), OfInt(14), OfTime("2026-03-01T17:05"), OfText("two, of\r\nthem \"new\"")},
		{OfText("Shield"), {}, OfInt(-3)},
	}}
	const want = "\uFEFFName,Bore (mm),Pieces,Counted,Note\r\n" +
		"Tip,1.20,14,2026-03-01T17:05,\"two, of\r\nthem \"\"new\"\"\"\r\n" +
		"Shield,,-3,,\r\n"
	if got := table.CSV(); got != want {
		t.Errorf("CSV() = %q, want %q", got, want)
	}
}

func TestCells(t *testing.T) {
	for name, cells := range map[string][2]Cell{
		"no text":                    {OfText(""), Cell{}},
		"text of another code":       {OfText("Caf\xe9"), Cell{Text, "Caf\uFFFD"}},
		"no number":                  {OfDecimal(nan(), 2), Cell{}},
		"more than any number":       {OfDecimal(1/zero(), 2), Cell{}},
		"minus nothing":              {OfDecimal(-0.001, 2), Cell{Decimal, "0.00"}},
		"a little less than nothing": {OfDecimal(-0.006, 2), Cell{Decimal, "-0.01"}},
		"digits":                     {OfDecimal(2, 3), Cell{Decimal, "2.000"}},
		"day":                        {OfTime("2028-02-29"), Cell{Time, "2028-02-29"}},
		"no day":                     {OfTime("2027-02-29"), Cell{Text, "2027-02-29"}},
		"century":                    {OfTime("1900-02-29 00:00"), Cell{Text, "1900-02-29 00:00"}},
		"zone":                       {OfTime("2026-03-01T17:05Z"), Cell{Text, "2026-03-01T17:05Z"}},
		"no hour":                    {OfTime("2026-03-01T24:00"), Cell{Text, "2026-03-01T24:00"}},
		"blank, no seconds":          {OfTime("2026-03-01 17:00:00"), Cell{Time, "2026-03-01T17:00"}},
		"cut short":                  {OfTime("2026-03-01T17"), Cell{Text, "2026-03-01T17"}},
		"seconds cut short":          {OfTime("2026-03-01T17:05:0"), Cell{Text, "2026-03-01T17:05:0"}},
		"no second":                  {OfTime("2026-03-01T17:05:60"), Cell{Text, "2026-03-01T17:05:60"}},
		"two blanks":                 {OfTime("2026 03 01"), Cell{Text, "2026 03 01"}},
		"seconds":                    {OfTime("2026-12-31T23:59:59"), Cell{Time, "2026-12-31T23:59:59"}},
		"no time":                    {OfTime(""), Cell{}},
	} {
		if got, want := cells[0], cells[1]; got != want {
			t.Errorf("%s: %+v, want %+v", name, got, want)
		}
	}
	if n, v := OfInt(-7).Int(), OfDecimal(-1.25, 3).Float(); n != -7 || v != -1.25 {
		t.Errorf("read back as %d and %v", n, v)
	}
	if v := OfText("12").Float(); v != 0 {
		t.Errorf("a text is the number %v", v)
	}
}

func zero() float64 { return float64(len("")) }
func nan() float64  { return zero() / zero() }

// TestRFC4180 reads the examples of RFC 4180 §2 by its rules, and one line of each is
// what we write ourselves.
func TestRFC4180(t *testing.T) {
	abc := []Column{{Key: "a", Title: "field_name"}, {Key: "b", Title: "field_name2"}, {Key: "c", Title: "field_name3"}}
	const head = "field_name,field_name2,field_name3\r\n"
	for _, c := range []struct {
		rule, body string
		want       [][]string
	}{
		{rule: "§2.1 lines end in CRLF", body: "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", want: [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{rule: "§2.2 the last line may have no end", body: "aaa,bbb,ccc\r\nzzz,yyy,xxx", want: [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{rule: "§2.3 a header stands first", body: "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", want: [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{rule: "§2.4 blanks are part of a field", body: " aaa,bbb ,c c\r\n", want: [][]string{{" aaa", "bbb ", "c c"}}},
		{rule: "§2.5 quotes may stand around a field", body: "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", want: [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{rule: "§2.6 line breaks, quotes and commas within quotes", body: "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", want: [][]string{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{rule: "§2.7 a quote within quotes stands twice", body: "\"aaa\",\"b\"\"bb\",\"ccc\"", want: [][]string{{"aaa", "b\"bb", "ccc"}}},
	} {
		got, err := Read(head+c.body, abc)
		if err != nil || got.Troubles.Err() != nil {
			t.Errorf("%s: %v, %v", c.rule, err, got.Troubles.Err())
			continue
		}
		table := Table{Columns: abc}
		var texts [][]string
		for _, row := range got.Rows {
			var line []string
			for _, cell := range row.Cells {
				line = append(line, cell.Text)
			}
			texts, table.Rows = append(texts, line), append(table.Rows, row.Cells)
		}
		if !equal(texts, c.want) {
			t.Errorf("%s: %q, want %q", c.rule, texts, c.want)
		}
		written := strings.TrimPrefix(table.CSV(), byteOrderMark+head)
		if plain := strings.NewReplacer("\"aaa\"", "aaa", "\"ccc\"", "ccc", "\"bbb\"", "bbb").Replace(c.body); written != strings.TrimSuffix(plain, "\r\n")+"\r\n" {
			t.Errorf("%s: written as %q, want %q with quotes only where needed", c.rule, written, plain)
		}
	}
}

func equal(a, b [][]string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if strings.Join(a[i], "\x00") != strings.Join(b[i], "\x00") {
			return false
		}
	}
	return true
}
