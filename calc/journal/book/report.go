// Package book makes the reports of a crew's journal: what is worn, what to buy, what is
// due, what a job was and what it costs. A report is of views of the fold and of the
// calculators, and says in words what it found; the phone lays it out, prints it and hands
// on its tables, and knows none of what it says.
//
// A screen is one function that makes a Report, listed in reports; what a button of it
// does is one that answers an Act, listed in acts. Both are pure: what the time is and
// where a day begins comes with the call.
package book

import (
	"encoding/json"

	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// Look says which report is wanted, of what, when and in which units.
type Look struct {
	Report string      `json:"report"`
	ID     string      `json:"id"`     // of the part, the stock line or the job; "" where the report is of all
	Before string      `json:"before"` // a list begins behind this one
	Now    int64       `json:"now"`    // ms since 1970 UTC
	Zone   Zone        `json:"zone"`
	Units  unit.System `json:"units"`
	Rig    string      `json:"rig"`    // the rig in use on the phone
	Coming int         `json:"coming"` // entries that are still on their way to the phone: what it has is not the whole

	Query   map[string]string `json:"query"`   // what stands in the address behind ?
	Device  string            `json:"device"`  // the phone, as its entries name it
	Watcher string            `json:"watcher"` // who watches the fire, which this phone alone knows
}

// Report is a screen or a page of paper.
type Report struct {
	Title    string    `json:"title"`
	Says     []string  `json:"says"` // the answer, which stands first
	Cautions []string  `json:"cautions"`
	Sections []Section `json:"sections"`
	Actions  []Action  `json:"actions"` // of the whole, the main one first
	Paper    bool      `json:"paper"`   // made for one page of paper

	lines bool // each row is one line of another report
}

// Section is a part of a report under a heading of its own.
type Section struct {
	Title    string         `json:"title"`
	Folded   bool           `json:"folded"` // long: on a phone it opens with a tap
	Says     []string       `json:"says"`
	Cautions []string       `json:"cautions"`
	Figures  []Figure       `json:"figures"`
	Pictures []form.Picture `json:"pictures"`
	Lengths  []form.Drawn   `json:"lengths"` // of the pictures
	Rows     []Row          `json:"rows"`
	Table    *Table         `json:"table"`
	Photos   []Photo        `json:"photos"`
	Actions  []Action       `json:"actions"`
	Sign     []string       `json:"sign"`   // who signs: each with room to do it
	Screen   bool           `json:"screen"` // not on paper
}

// Figure is a labelled reading.
type Figure struct {
	Label string `json:"label"`
	Text  string `json:"text"`
	Main  bool   `json:"main"` // shown large
}

// Row is one line of a list.
type Row struct {
	Title  string   `json:"title"`
	Says   []string `json:"says"`
	Tag    string   `json:"tag"` // one word that stands out
	Href   string   `json:"href"`
	Photo  *Photo   `json:"photo"`
	Action *Action  `json:"action"`
}

// Photo is a picture of the journal: its event and the body of that.
type Photo struct {
	ID   string          `json:"id"`
	Body json.RawMessage `json:"body"`
}

// Table is a list by columns, which is sorted on the screen and written as CSV.
type Table struct {
	Columns []Column `json:"columns"`
	Rows    [][]Cell `json:"rows"`
}

// Column says what stands in a column.
type Column struct {
	Key     string `json:"key"`
	Title   string `json:"title"`
	Unit    string `json:"unit"`   // of its numbers in a file
	Number  bool   `json:"number"` // sorted by value
	Private bool   `json:"-"`      // of people outside of the crew: no file has it
}

// Cell is what stands in a row of a column.
type Cell struct {
	Text  string  `json:"text"`
	Value float64 `json:"value"` // what a column of numbers is sorted by
	Href  string  `json:"href"`
	Plain string  `json:"-"` // in a file; Text where it is ""
}

// Action is a button.
type Action struct {
	Label string            `json:"label"`
	Act   string            `json:"act"` // a name of acts
	With  map[string]string `json:"with"`
	Ask   []Ask             `json:"ask"` // one after the other, before it is done
	Href  string            `json:"href"`
	Print bool              `json:"print"`
	File  string            `json:"file"` // the sort of file that it reads, ".csv"
}

// Ask is one question before an action is done. Whoever leaves one leaves all.
type Ask struct {
	Key      string     `json:"key"`
	Label    string     `json:"label"`
	Options  []Option   `json:"options"`  // of a choice
	Quantity string     `json:"quantity"` // of a number with a unit
	Bare     string     `json:"bare"`
	US       string     `json:"us"`
	Count    bool       `json:"count"` // a number without a unit
	Value    string     `json:"value"` // what stands there at first
	Only     *form.Only `json:"only"`  // asked only after certain answers to another
}

// Option is one word of a choice.
type Option struct {
	Word  string `json:"word"`
	Label string `json:"label"`
	More  string `json:"more"`
}
