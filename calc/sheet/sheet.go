// Package sheet writes tables as CSV and reads them again, for spreadsheets and for
// programs of other people.
//
// What is written is RFC 4180 with a header, in UTF-8. It begins with a byte order
// mark, by which spreadsheets know UTF-8. Lines end in CRLF. A field has quotes only
// where it needs them. A unit stands in the header behind the title:
//
//	Name,Bore (mm),Pieces,Counted
//	Tip,1.20,14,2026-03-01T17:05
//
// Decimals have a point and as many digits as the table says. Times are local, without
// a zone, with the T of ISO 8601: a spreadsheet that knows that form gives it back as it
// was, and others leave it alone as a text. Numbers of more than 15 digits are not read:
// spreadsheets do not keep them.
//
// No text may become a formula where a person opens the file (guard.go). Numbers are
// written as they are.
//
// What is read may come from any spreadsheet. The mark at its beginning may be missing,
// lines may end in CRLF, LF or CR, the separator is the comma, semicolon or tab that
// makes most of the header, and a decimal may have a comma. Columns stand in any order,
// under their title or key. A line on which nothing stands is passed over, so a row of
// empty cells does not come back.
package sheet

import (
	"math"
	"strconv"
	"strings"
)

// Limits of what is read.
const (
	MaxBytes   = 1 << 20
	MaxRows    = 5000
	MaxColumns = 200
)

// Type says what a cell holds, or what is read in a column.
type Type int

const (
	None Type = iota // an empty cell
	Text
	Integer
	Decimal
	Time // "2026-03-01" or "2026-03-01T17:05", with seconds where there are any: local, no zone
)

// Column is a column of a table.
type Column struct {
	Key   string // as programs name it; a header may too
	Title string // as people read it
	Unit  string // of its numbers, "" for none
	Type  Type   // what is read in it; None reads as Text
	Need  bool   // reading wants the column, and a value on each line
}

// header returns what stands above the column.
func (c *Column) header() string {
	if c.Unit == "" {
		return c.Title
	}
	return c.Title + " (" + c.Unit + ")"
}

// Cell is one value. Two cells are the same if == says so.
type Cell struct {
	Type Type
	Text string // a number in digits, with a point
}

// OfText returns a cell with a text; an empty one makes an empty cell. What is no UTF-8
// becomes U+FFFD.
func OfText(text string) Cell { return filled(Text, strings.ToValidUTF8(text, "\uFFFD")) }

// OfInt returns a cell with a whole number.
func OfInt(n int64) Cell { return filled(Integer, strconv.FormatInt(n, 10)) }

// OfDecimal returns a cell with a number of that many digits behind the point; none if
// it is no number.
func OfDecimal(v float64, digits int) Cell {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Cell{}
	}
	text := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.Trim(text, "-0.") == "" { // no minus before nothing
		text = strings.TrimPrefix(text, "-")
	}
	return filled(Decimal, text)
}

// OfTime returns a cell with a local date or time in the form of Time, or with a blank
// for its T; an empty one makes an empty cell, and what is no time a text.
func OfTime(text string) Cell {
	if when, ok := readTime(text); ok {
		return filled(Time, when)
	}
	return OfText(text)
}

func filled(t Type, text string) Cell {
	if text == "" {
		return Cell{}
	}
	return Cell{t, text}
}

// Int returns the whole number of an Integer, 0 of others.
func (c Cell) Int() int64 {
	n, _ := strconv.ParseInt(c.Text, 10, 64)
	return n
}

// Float returns the number of an Integer or a Decimal, 0 of others.
func (c Cell) Float() float64 {
	if c.Type != Integer && c.Type != Decimal {
		return 0
	}
	v, _ := strconv.ParseFloat(c.Text, 64)
	return v
}

// Table is what is written.
type Table struct {
	Columns []Column
	Rows    [][]Cell // as many cells as columns; those that lack are empty
}
