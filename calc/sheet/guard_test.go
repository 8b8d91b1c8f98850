package sheet

import (
	"math/rand/v2"
	"strings"
	"testing"
)

// TestGuarded: what OWASP, "CSV Injection", lists, and what looks like it.
func TestGuarded(t *testing.T) {
	for text, want := range map[string]string{
		"=1+2":             "'=1+2",
		"+1":               "'+1",
		"-1":               "'-1",
		"@SUM(A1)":         "'@SUM(A1)",
		"\tx":              "'\tx",
		"\rx":              "'\rx",
		"\x00x":            "'\x00x",
		"＝1":               "'＝1",
		"＋1":               "'＋1",
		"－1":               "'－1",
		"＠A1":              "'＠A1",
		"  =1":             "'  =1",
		"\u00A0=1":         "'\u00A0=1",
		`"=1"`:             `'"=1"`,
		"“ =1":             "'“ =1",
		"'=1":              "''=1",
		"''=1":             "'''=1",
		"=1+2\";=1+2":      "'=1+2\";'=1+2", // OWASP's examples; a field may begin behind ; too
		"=1+2'\" ;,=1+2":   "'=1+2'\" ;,=1+2",
		"x\n=1":            "x\n'=1",
		"x;\t-1":           "x;'\t'-1",
		"007":              "'007",
		"3-4":              "'3-4",
		"1/4":              "'1/4",
		"1.50":             "'1.50",
		"1E5":              "'1E5",
		" 14":              "' 14",
		"2026-03-01":       "'2026-03-01",
		"1234567890123456": "'1234567890123456",
		"'007":             "''007",
		"14":               "14",
		"0":                "0",
		"45 A":             "45 A",
		"Ann's rig":        "Ann's rig",
		"'tis":             "'tis",
		"3 - 4 plates":     "3 - 4 plates",
		"a=b":              "a=b",
		"tip, -1":          "tip, -1",
		"":                 "",
		"'":                "'",
	} {
		if got := guard(text); got != want {
			t.Errorf("guard(%q) = %q, want %q", text, got, want)
		}
		if got := unguard(want); got != text {
			t.Errorf("unguard(%q) = %q, want %q", want, got, text)
		}
	}
}

// texts draws texts in which all that matters is frequent.
func texts(seed uint64, n int) []string {
	bits := strings.Split("= + - @ ＝ ＠ ' ' \" “ ; , 0 1 7 12 . / E % a é \U0001F527 tip A: ( )", " ")
	bits = append(bits, " ", "\t", "\r", "\n", "\r\n", "\u00A0", "\u3000", "\x00", "\uFEFF")
	random := rand.New(rand.NewPCG(seed, 4180))
	list := make([]string, n)
	for i := range list {
		for range random.IntN(7) {
			list[i] += bits[random.IntN(len(bits))]
		}
	}
	return list
}

// TestGuardComesOff: every text comes back, and no field that is written begins like a
// formula, wherever one may begin.
func TestGuardComesOff(t *testing.T) {
	changed := 0
	for _, text := range texts(1, 200_000) {
		written := guard(text)
		if got := unguard(written); got != text {
			t.Fatalf("%q is written as %q and read as %q", text, written, got)
		}
		if written != text {
			changed++
		}
		for _, field := range strings.FieldsFunc(written, func(r rune) bool { return strings.ContainsRune(begins, r) }) {
			if strings.IndexAny(field, signs) == 0 {
				t.Fatalf("%q is written as %q", text, written)
			}
		}
	}
	if changed < 20_000 {
		t.Errorf("only %d texts were guarded: too few to tell", changed)
	}
	t.Logf("tally: %d texts guarded and read again", changed)
}

// TestTextsComeBack: a table of any texts is read as it was written, whichever column
// they stand in.
func TestTextsComeBack(t *testing.T) {
	columns := []Column{{Key: "a", Title: "First"}, {Key: "b", Title: "=Second", Unit: "m,m"}}
	list := texts(2, 20_000)
	for i := 0; i+200 <= len(list); i += 200 {
		table := Table{Columns: columns}
		for k := i; k < i+200; k += 2 {
			table.Rows = append(table.Rows, []Cell{OfText("x" + list[k]), OfText(list[k+1])})
		}
		got, err := Read(table.CSV(), columns)
		if err != nil || got.Troubles.Err() != nil || len(got.Rows) != len(table.Rows) {
			t.Fatalf("%d rows of %d: %v, %v", len(got.Rows), len(table.Rows), err, got.Troubles.Err())
		}
		for n, row := range got.Rows {
			if row.Cells[0] != table.Rows[n][0] || row.Cells[1] != table.Rows[n][1] {
				t.Fatalf("%+v is read as %+v", table.Rows[n], row.Cells)
			}
		}
		if got.Units["b"] != "m,m" {
			t.Fatalf("the unit is read as %q", got.Units["b"])
		}
	}
}
