package sheet

import (
	"fmt"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

// rows tells what was read, a line a row, with the number of its line in the file.
func rows(s *Sheet) string {
	var b strings.Builder
	for _, row := range s.Rows {
		fmt.Fprintf(&b, "%d:", row.Line)
		for _, c := range row.Cells {
			fmt.Fprintf(&b, " %q", c.Text)
		}
		b.WriteString("\n")
	}
	return b.String()
}

// TestRead: the same table, as it comes from here and there.
func TestRead(t *testing.T) {
	const want = "2: \"Tip\" \"1.25\" \"14\" \"2026-03-01T17:05\" \"a, b\"\n3: \"Shield\" \"\" \"3\" \"2026-03-02\" \"\"\n"
	for name, file := range map[string]string{
		"as written":           "\uFEFFName,Bore (mm),Pieces,Counted,Note\r\nTip,1.25,14,2026-03-01T17:05,\"a, b\"\r\nShield,,3,2026-03-02,\r\n",
		"no mark, LF":          "Name,Bore (mm),Pieces,Counted,Note\nTip,1.25,14,2026-03-01T17:05,\"a, b\"\nShield,,3,2026-03-02,\n",
		"CR, no end":           "Name,Bore (mm),Pieces,Counted,Note\rTip,1.25,14,2026-03-01T17:05,\"a, b\"\rShield,,3,2026-03-02,",
		"semicolons":           "Name;Bore (mm);Pieces;Counted;Note\r\nTip;1,25;14;2026-03-01 17:05;a, b\r\nShield;;3;2026-03-02;\r\n",
		"semicolons and point": "Name;Bore (mm);Pieces;Counted;Note\r\nTip;1.25;14;2026-03-01 17:05;a, b\r\nShield;;3;2026-03-02;\r\n",
		"tabs":                 "Name\tBore (mm)\tPieces\tCounted\tNote\nTip\t1.25\t14\t2026-03-01 17:05\ta, b\nShield\t\t3\t2026-03-02\t\n",
		"keys, other order":    "note,COUNT,at, b o r e (mm),NAME\n\"a, b\",+14,2026-03-01T17:05,01.25,Tip\n,3,2026-03-02,,Shield\n",
		"all in quotes":        "\"Name\",\"Bore (mm)\",\"Pieces\",\"Counted\",\"Note\"\n\"Tip\",\"1.25\",\"14\",\"2026-03-01T17:05\",\"a, b\"\n\"Shield\",\"\",\"3\",\"2026-03-02\",\"\"\n",
		"short line":           "Name,Bore (mm),Pieces,Counted,Note\nTip,1.25,14,2026-03-01T17:05,\"a, b\"\nShield,,3,2026-03-02\n",
		"empty lines at last":  "Name,Bore (mm),Pieces,Counted,Note,,\nTip,1.25,14,2026-03-01T17:05,\"a, b\",,\nShield,,3,2026-03-02,,,\n,,,,,,\n\n",
		"numbers as texts":     "Name,Bore (mm),Pieces,Counted,Note\nTip,'1.25, 14 ,'2026-03-01T17:05,\"a, b\"\nShield,,3,2026-03-02,\n",
	} {
		got, err := Read(file, bench)
		if err == nil {
			err = got.Troubles.Err()
		}
		if err != nil || rows(got) != want || got.Units["bore"] != "mm" || len(got.Units) != len(bench) || len(got.Unknown) > 0 {
			t.Errorf("%s: %v, units %v, unknown %q\n%swant\n%s", name, err, got.Units, got.Unknown, rows(got), want)
		}
	}
}

// TestHeader: units are handed back, and what is not known is named.
func TestHeader(t *testing.T) {
	got, err := Read("\n  \nNAME (of part),bore ( in ),Colour (deep),,count\nTip,1,red,x,2\n", []Column{
		{Key: "name", Title: "Name (of part)", Need: true}, {Key: "bore", Title: "Bore", Unit: "mm", Type: Decimal},
		{Key: "count", Title: "Pieces", Unit: "pc", Type: Integer}, {Key: "note", Title: "Note"},
	})
	if err != nil || got.Troubles.Err() != nil {
		t.Fatal(err, got.Troubles.Err())
	}
	if want := "4: \"Tip\" \"1\" \"2\" \"\"\n"; rows(got) != want {
		t.Errorf("read %s, want %s", rows(got), want)
	}
	if want := "map[bore:in count: name:]"; fmt.Sprint(got.Units) != want {
		t.Errorf("units %v, want %s", got.Units, want)
	}
	if want := "1 column is not known here, and not read: “Colour (deep)”."; got.Warning() != want {
		t.Errorf("warned %s, want %s", got.Warning(), want)
	}
}

func TestRefused(t *testing.T) {
	for _, c := range []struct {
		name, file string
		kind       problem.Kind
		told       string
	}{
		{name: "nothing", file: "", kind: problem.Missing, told: "the header lacks Name"},
		{name: "another table", file: "Colour,Weight\nred,1\n", kind: problem.Missing, told: "the header lacks Name"},
		{name: "a column twice", file: "Name,Pieces,count\nTip,1,2\n", kind: problem.Conflict, told: "Pieces stands twice in the header"},
		{name: "Latin-1", file: "Name\nCaf\xe9\n", kind: problem.Malformed, told: "the file is no text in UTF-8"},
		{name: "UTF-16", file: "\xff\xfeN\x00a\x00m\x00e\x00", kind: problem.Malformed, told: "the file is no text in UTF-8"},
		{name: "large", file: "Name\n" + strings.Repeat("x", MaxBytes), kind: problem.TooLarge, told: "the file is larger than 1 MiB"},
		{name: "long", file: "Name\n" + strings.Repeat("x\n", MaxRows+1), kind: problem.TooLarge, told: "the table has more than 5000 rows"},
		{name: "wide", file: "Name" + strings.Repeat(",x", MaxColumns) + "\nx\n", kind: problem.TooLarge, told: "the table has more than 200 columns"},
	} {
		_, err := Read(c.file, bench)
		if p := problem.From(err); err == nil || p.Kind != c.kind || p.Msg != c.told || p.Hint == "" {
			t.Errorf("%s: %v, want %s: %s", c.name, err, c.kind, c.told)
		}
	}
	for name, file := range map[string]string{
		"large": "Name\n" + strings.Repeat("x", MaxBytes-5), "long": "Name\n" + strings.Repeat("x\n", MaxRows), "wide": "Name" + strings.Repeat(",x", MaxColumns-1) + "\nx\n",
	} {
		if got, err := Read(file, bench); err != nil || len(got.Rows) == 0 {
			t.Errorf("%s, as far as is allowed: %d rows, %v", name, len(got.Rows), err)
		}
	}
}

// TestBadLines: each is told with its number, and all others are read.
func TestBadLines(t *testing.T) {
	const head = "Name,Bore (mm),Pieces,Counted,Note\n"
	for _, c := range []struct{ name, line, field, told string }{
		{name: "a unit in the cell", line: "Tip,1.2 mm,1,,", field: "bore", told: "Line 2: “1.2 mm” is no number that can be read"},
		{name: "thousands", line: "Tip,\"1,200\",1,,", field: "bore", told: "Line 2: “1,200” may be thousands or a fraction"},
		{name: "thousands and a fraction", line: "Tip,\"1,200.5\",1,,", field: "bore", told: "Line 2: “1,200.5” is no number that can be read"},
		{name: "a power of ten", line: "Tip,1E+06,1,,", field: "bore", told: "Line 2: “1E+06” is no number that can be read"},
		{name: "more digits than are kept", line: "Tip,1234567890.123456,1,,", field: "bore", told: "Line 2: “1234567890.123456” is no number that can be read"},
		{name: "two signs", line: "Tip,--1,1,,", field: "bore", told: "Line 2: “--1” is no number that can be read"},
		{name: "a mark alone", line: "Tip,.,1,,", field: "bore", told: "Line 2: “.” is no number that can be read"},
		{name: "half a piece", line: "Tip,,1.5,,", field: "count", told: "Line 2: “1.5” is no whole number"},
		{name: "another calendar", line: "Tip,,,01/03/2026,", field: "at", told: "Line 2: “01/03/2026” is no date or time that can be read"},
		{name: "no such day", line: "Tip,,,2026-02-30,", field: "at", told: "Line 2: “2026-02-30” is no date or time that can be read"},
		{name: "no name", line: ",1,1,,", field: "name", told: "Line 2: Name is empty"},
		{name: "a blank for a name", line: " ,,,,", field: "name", told: "Line 2: Name is empty"},
		{name: "a comma without quotes", line: "Tip,1,1,,hot, cold", field: "", told: "Line 2: more fields than the header has"},
		{name: "an open quote", line: "Tip,1,1,,\"x\nShield,1,1,,x\nTip,1,1,,\"\"", field: "", told: "Line 2: something stands behind a closing quote"},
		{name: "a quote too few", line: "Tip,1,1,,\"a \"b\"\" c\"", field: "", told: "Line 2: something stands behind a closing quote"},
		{name: "much", line: "Tip," + strings.Repeat("é", 100) + ",,,", field: "bore", told: "Line 2: “" + strings.Repeat("é", 30) + "…” is no number that can be read"},
	} {
		got, err := Read(head+c.line+"\nShield,1,1,,\"x\ny\"\n", bench)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		p := problem.From(got.Troubles.Err())
		if p == nil || p.Msg != c.told || p.Field != c.field || p.Hint == "" || p.Also != nil {
			t.Errorf("%s: %+v, want field %q: %s", c.name, p, c.field, c.told)
		}
		if len(got.Rows) != 1 {
			t.Errorf("%s: %d rows beside it, want 1", c.name, len(got.Rows))
		}
	}
}

// TestOpenQuote: a quote that is never closed takes the rest of the file, and is told
// where it begins.
func TestOpenQuote(t *testing.T) {
	got, err := Read("Name,Note\nTip,x\nShield,\"y\nTip,z\n", bench)
	if err != nil || rows(got) != "2: \"Tip\" \"\" \"\" \"\" \"x\"\n" {
		t.Errorf("%v, %s", err, rows(got))
	}
	if p := problem.From(got.Troubles.Err()); p == nil || p.Msg != "Line 3: a quote is opened and never closed" {
		t.Errorf("told %v", p)
	}
}

// TestManyBadLines: fifty are told, the others counted.
func TestManyBadLines(t *testing.T) {
	got, err := Read("Name,Pieces\nTip,1\n\"x\ny\",2\n"+strings.Repeat("Tip,many\n", 60)+",some\n", bench)
	if err != nil || len(got.Rows) != 2 || got.Rows[1].Line != 3 {
		t.Fatalf("%+v, %v", got.Rows, err)
	}
	p := problem.From(got.Troubles.Err())
	if len(p.Also) != MaxTold {
		t.Fatalf("%d more are told, want %d", len(p.Also), MaxTold)
	}
	for i, one := range append([]*problem.Error{p}, p.Also[:MaxTold-1]...) {
		if want := fmt.Sprintf("Line %d: “many” is no number that can be read", 5+i); one.Msg != want {
			t.Fatalf("%q, want %q", one.Msg, want)
		}
	}
	if want := "12 more troubles are not told one by one"; p.Also[MaxTold-1].Msg != want {
		t.Errorf("at last %q, want %q", p.Also[MaxTold-1].Msg, want)
	}
}

// TestNumbers: one mark is the decimal's, but for what may be thousands. "" is refused,
// and "?" may be thousands; the first is read in a file with points, the second in one
// with commas.
func TestNumbers(t *testing.T) {
	for text, want := range map[string][2]string{
		"12.5": {"12.5", "12.5"}, "12,5": {"12.5", "12.5"}, "1234,567": {"1234.567", "1234.567"},
		"1.234": {"1.234", "?"}, "1,234": {"?", "1.234"}, "-1,234": {"?", "-1.234"}, "123.456": {"123.456", "?"},
		"0,125": {"0.125", "0.125"}, "0.125": {"0.125", "0.125"}, ".125": {"0.125", "0.125"},
		".5": {"0.5", "0.5"}, "5.": {"5", "5"}, "+5": {"5", "5"}, "-5": {"-5", "-5"}, "\u22125": {"-5", "-5"},
		"-0.00": {"0.00", "0.00"}, "007": {"7", "7"}, "123456789012345": {"123456789012345", "123456789012345"},
		"1 000": {}, "1.2.3": {}, "1,234.5": {}, "": {}, "-": {}, ".": {}, "٣": {}, "0x10": {}, "NaN": {}, "1e3": {}, "1234567890123456": {},
	} {
		for i, want := range want {
			got, isThousands := readNumber(text, i == 1)
			if isThousands {
				got += "?"
			}
			if got != want {
				t.Errorf("readNumber(%q, %v) = %q, want %q", text, i == 1, got, want)
			}
		}
	}
}

// FuzzRead: whatever the file, it is refused or read; what was read and is written is
// read as the same.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{
		"", "\uFEFF", "Name", "Name,Bore (mm),Pieces,Counted,Note\r\nTip,1.2,14,2026-03-01T17:05,\"a \"\"b\"\", c\"\r\n", "name;bore (in)\rTip;'1,5\r", "NAME\tPieces\n\"\"\t\"\n\"\n",
		"Name,Note\n'=1,\"x;'-1\"\n", "Name,(,)\n,,,\n", "Name (\n=\"1\"", "\"Name\",\"\"\"\n", "Name ( ) )\n007\n",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, file string) {
		got, err := Read(file, bench)
		if err != nil {
			if problem.KindOf(err) == problem.Internal {
				t.Fatalf("an unplanned error: %v", err)
			}
			return
		}
		if err := got.Troubles.Err(); err != nil && problem.KindOf(err) == problem.Internal {
			t.Fatalf("an unplanned error: %v", err)
		}
		table := Table{Columns: bench}
		for _, row := range got.Rows {
			table.Rows = append(table.Rows, row.Cells)
		}
		again, err := Read(table.CSV(), bench)
		if err != nil && problem.KindOf(err) != problem.TooLarge || again.Troubles.Err() != nil {
			t.Fatalf("what was read is refused: %v, %v", err, again.Troubles.Err())
		}
		for i, row := range again.Rows {
			for k, c := range row.Cells {
				if c != table.Rows[i][k] {
					t.Fatalf("%+v is read again as %+v", table.Rows[i], row.Cells)
				}
			}
		}
		if len(again.Rows) != len(got.Rows) && err == nil {
			t.Fatalf("%d rows are read again as %d", len(got.Rows), len(again.Rows))
		}
	})
}
