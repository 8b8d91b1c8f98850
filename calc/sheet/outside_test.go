//go:build !js

// Native only: it runs other programs, which a phone cannot.

package sheet

import (
	"encoding/xml"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"kerfside/calc/outside"
)

// drawn draws a table with texts of any sort.
func drawn(random *rand.Rand, texts []string, most int) Table {
	table := Table{Columns: bench}
	for range 1 + random.IntN(most) {
		row := []Cell{OfText("T" + texts[random.IntN(len(texts))]), {}, {}, {}, OfText(texts[random.IntN(len(texts))])}
		if random.IntN(4) > 0 {
			row[1] = OfDecimal(2000*random.Float64()-1000, random.IntN(4))
		}
		if random.IntN(4) > 0 {
			row[2] = OfInt(random.Int64N(2e6) - 1e6)
		}
		if random.IntN(4) > 0 {
			row[3] = OfTime([]string{"2026-03-01", "1999-12-31T00:00", "2028-02-29T23:59:59"}[random.IntN(3)])
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

// asWritten returns the fields of a table as they stand in its file.
func asWritten(table Table) [][]string {
	var header []string
	for i := range table.Columns {
		header = append(header, guard(table.Columns[i].header()))
	}
	fields := [][]string{header}
	for _, row := range table.Rows {
		var line []string
		for _, c := range row {
			if c.Type == Text {
				c.Text = guard(c.Text)
			}
			line = append(line, c.Text)
		}
		fields = append(fields, line)
	}
	return fields
}

// TestTablesAgainstPython: Python's csv module reads what is written here, and what it
// writes in each of its ways is read here. Both are exact.
func TestTablesAgainstPython(t *testing.T) {
	type write struct {
		Dialect map[string]any `json:"dialect"`
		Rows    [][]string     `json:"rows"`
	}
	// A line end in a field gets quotes from it if it is the line's own. All is in quotes
	// where that is another.
	ways := []map[string]any{
		{}, {"lineterminator": "\n", "quoting": 1}, {"lineterminator": "\r", "quoting": 1}, {"quoting": 1}, {"quoting": 2}, {"delimiter": ";"}, {"delimiter": "\t"},
	}
	var ask struct {
		Read  []string `json:"read"`
		Write []write  `json:"write"`
	}
	random, texts := rand.New(rand.NewPCG(4180, 1)), texts(3, 2000)
	var tables []Table
	for i := range 700 {
		table := drawn(random, texts, 20)
		tables = append(tables, table)
		ask.Read = append(ask.Read, table.CSV())
		way, rows := ways[i%len(ways)], asWritten(table)
		for _, row := range rows[1:] {
			if way["delimiter"] == ";" {
				row[1] = strings.ReplaceAll(row[1], ".", ",")
			}
		}
		ask.Write = append(ask.Write, write{way, rows})
	}
	var answer struct {
		Read    [][][]string `json:"read"`
		Written []string     `json:"written"`
	}
	outside.Python(t, outside.CSV, "tables.py", ask, &answer)
	if len(answer.Read) != len(tables) || len(answer.Written) != len(tables) {
		t.Fatalf("%d read and %d written of %d", len(answer.Read), len(answer.Written), len(tables))
	}
	for i, table := range tables {
		if want := asWritten(table); !equalFields(answer.Read[i], want) {
			t.Errorf("Python reads %q as %q, want %q", ask.Read[i], answer.Read[i], want)
		}
		comesBack(t, answer.Written[i], table)
	}
	t.Logf("tally: %d tables read and written by Python", 2*len(tables))
}

func equalFields(a, b [][]string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if strings.Join(a[i], "\x01") != strings.Join(b[i], "\x01") {
			return false
		}
	}
	return true
}

// comesBack reads a file of another program and holds it to the table that it is of. A
// number may have lost noughts behind its point, or got some.
func comesBack(t *testing.T, file string, table Table) {
	t.Helper()
	got, err := Read(file, table.Columns)
	if err != nil || got.Troubles.Err() != nil || len(got.Rows) != len(table.Rows) || got.Units["bore"] != "mm" {
		t.Errorf("%q: %d rows of %d, units %v: %v, %v", file, len(got.Rows), len(table.Rows), got.Units, err, got.Troubles.Err())
		return
	}
	for i, row := range got.Rows {
		for k, c := range row.Cells {
			want := table.Rows[i][k]
			if c.Type != want.Type || c.Float() != want.Float() || c.Type != Decimal && c.Text != want.Text {
				t.Errorf("%q is read as %q, want %q, in %q", table.Columns[k].Key, c.Text, want.Text, file)
			}
		}
	}
}

// TestTablesAgainstLibreOffice: LibreOffice opens what is written here; texts are texts
// in it, numbers numbers and nothing a formula, whichever separator it is told. What it
// saves is read as the same table.
func TestTablesAgainstLibreOffice(t *testing.T) {
	// What its file format cannot hold is left out: controls, and a line that ends in CR.
	holds := strings.NewReplacer("\x00", "0", "\r\n", "\n", "\r", "\n", "\uFEFF", "")
	list := texts(4, 4000)
	for i := range list {
		list[i] = holds.Replace(list[i])
	}
	random := rand.New(rand.NewPCG(4180, 2))
	attacks := Table{Columns: bench}
	for _, text := range []string{"=1+1", "\"=1+1", "x;=1+1;y", "x\t=1+1\ty", "x\n=1+1\ny", "x;\"=1+1\";y", "'=1+1", " =1+1"} {
		attacks.Rows = append(attacks.Rows, []Cell{OfText(text), {}, {}, {}, OfText(text)}, []Cell{OfText("x"), {}, {}, {}, OfText(text)})
	}
	tables, files := []Table{attacks}, []string{attacks.CSV()}
	for range 6 {
		tables = append(tables, drawn(random, list, 150))
		files = append(files, tables[len(tables)-1].CSV())
	}
	// The attacks without their guards come last, to see that something was tried.
	files = append(files, strings.ReplaceAll(attacks.CSV(), "'", ""))
	cells := 0
	for _, separator := range []byte(",;\t") {
		for i, file := range outside.Spreadsheet(t, files, separator, "fods") {
			switch formulas := strings.Count(file, "table:formula="); {
			case i == len(tables) && formulas < 2:
				t.Errorf("opened with %q the attacks have %d formulas without their guards: nothing was tried here", separator, formulas)
			case i < len(tables) && formulas > 0:
				t.Errorf("opened with %q this has a formula: %q", separator, files[i])
			case i < len(tables) && separator == ',':
				cells += holdsTable(t, opened(t, file), tables[i])
			}
		}
	}
	for i, file := range outside.Spreadsheet(t, files[:len(tables)], ',', "csv") {
		comesBack(t, file, tables[i])
	}
	t.Logf("tally: %d cells opened by LibreOffice", cells)
}

// opened is what LibreOffice has in the cells of a file.
func opened(t *testing.T, fods string) (rows [][]openCell) {
	t.Helper()
	var document struct {
		Rows []struct {
			Repeated string     `xml:"number-rows-repeated,attr"`
			Cells    []openCell `xml:"table-cell"`
		} `xml:"body>spreadsheet>table>table-row"`
	}
	if err := xml.Unmarshal([]byte(fods), &document); err != nil {
		t.Fatal(err)
	}
	for _, row := range document.Rows {
		var cells []openCell
		for _, c := range row.Cells {
			for range times(c.Repeated) {
				cells = append(cells, c)
			}
		}
		for range times(row.Repeated) {
			rows = append(rows, cells)
		}
	}
	return rows
}

type openCell struct {
	Repeated string `xml:"number-columns-repeated,attr"`
	Formula  string `xml:"formula,attr"`
	Type     string `xml:"value-type,attr"`
	Value    string `xml:"value,attr"`
}

// times reads how often a cell or row stands there, 1 unless it says so.
func times(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		return 1
	}
	return n
}

// holdsTable compares what LibreOffice has with the table that the file is of, and
// returns how many cells it looked at.
func holdsTable(t *testing.T, rows [][]openCell, table Table) (cells int) {
	t.Helper()
	if len(rows) < 1+len(table.Rows) {
		t.Errorf("%d rows, want %d", len(rows), 1+len(table.Rows))
		return 0
	}
	for i, want := range table.Rows {
		for k, c := range want {
			var got openCell
			if k < len(rows[1+i]) {
				got = rows[1+i][k]
			}
			cells++
			kinds := map[Type]string{None: "", Text: "string", Integer: "float", Decimal: "float", Time: "date"}
			kind := kinds[c.Type]
			if c.Type == Text && guard(c.Text) == c.Text && strings.Trim(c.Text, "0123456789") == "" {
				kind = "float" // a plain whole number comes back as it was
			}
			if got.Formula != "" || got.Type != kind {
				t.Errorf("%q is %+v, want %s", c.Text, got, kind)
			}
			if v, err := strconv.ParseFloat(got.Value, 64); kind == "float" && c.Type != Text && (err != nil || v != c.Float()) {
				t.Errorf("%s is the number %s", c.Text, got.Value)
			}
		}
	}
	return cells
}
