package engine

import (
	"bytes"
	"encoding/json"
	"fmt"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/order"
	"kerfside/calc/problem"
)

// An export is JSON lines: a head, then each event as in a request that offers
// it again, in the order of the journal.
//
//	{"kerfside":1,"crew":"…","device":"…","now":1760731116600,"count":2}
//	{"o":"0199f3c0b4000000","raw":{…}}
//	{…}

// ExportHead is the first line of an export.
type ExportHead struct {
	Kerfside int    `json:"kerfside"` // version of the format, 1
	Crew     string `json:"crew"`
	Device   string `json:"device"`
	Now      int64  `json:"now"`
	Count    int    `json:"count"`
}

// Exported answers journal-export.
type Exported struct {
	Text string `json:"text"`
	Name string `json:"name"` // for the file
}

func export(in struct {
	Events []event.Record `json:"events"`
	Crew   string         `json:"crew"`
	Device string         `json:"device"`
	Now    int64          `json:"now"`
}) (Exported, error) {
	list := order.Sorted(in.Events, func(a, b event.Record) int { return placeOf(a).Written(placeOf(b)) })
	text := exchange.AppendRow(nil, ExportHead{1, in.Crew, in.Device, in.Now, len(list)})
	for _, r := range list {
		text = exchange.AppendEvent(text, r.Raw, r.O)
	}
	return Exported{string(text), fmt.Sprintf("kerfside-%d.jsonl", in.Now/1000)}, nil
}

// placeOf returns where a record stands.
func placeOf(r event.Record) event.Place {
	if r.O != nil {
		return event.PlaceOf(r.ID, *r.O, r.T, 0)
	}
	return event.PlaceOf(r.ID, r.T, r.T, 0)
}

// maxRefused is how many lines of a file are told one by one as refused.
const maxRefused = 1000

// Imported answers journal-import.
type Imported struct {
	Events  []ImportedEvent `json:"events"`
	Refused []RefusedLine   `json:"refused"`
}

// ImportedEvent is an event to be entered, or Else in its place if its id is
// held with other bytes.
type ImportedEvent struct {
	ID   string       `json:"id"`
	Raw  string       `json:"raw"`
	T    event.Stamp  `json:"t"`
	O    *event.Stamp `json:"o,omitempty"`
	Else struct {
		ID  string `json:"id"`
		Raw string `json:"raw"`
	} `json:"else"`
}

// RefusedLine is a line of an export that cannot be entered.
type RefusedLine struct {
	Line  int            `json:"line"`
	Error *problem.Error `json:"error"`
}

// importFile reads an export. What is wrong with one line keeps no other out.
func importFile(in struct {
	Text string `json:"text"`
}) (Imported, error) {
	first, rest, _ := bytes.Cut([]byte(in.Text), []byte("\n"))
	var head ExportHead
	if len(first) > exchange.MaxHead || json.Unmarshal(first, &head) != nil || head.Kerfside != 1 {
		return Imported{}, problem.New(problem.Malformed, "text", "this file is no export of Kerfside", "Choose a file whose name ends in .jsonl.")
	}
	v := Imported{Events: []ImportedEvent{}, Refused: []RefusedLine{}}
	at, more := 1, 0
	for line := []byte(nil); len(rest) > 0; { // line by line: a list of them all could be larger than the file
		line, rest, _ = bytes.Cut(rest, []byte("\n"))
		at++
		if len(line) == 0 {
			continue
		}
		head.Count--
		e, err := importLine(line)
		switch {
		case err == nil:
			v.Events = append(v.Events, e)
		case len(v.Refused) < maxRefused:
			v.Refused = append(v.Refused, RefusedLine{at, problem.From(err)})
		default:
			more++
		}
	}
	if more > 0 {
		v.Refused = append(v.Refused, RefusedLine{at, event.Malformed("text", fmt.Sprintf("%d more lines cannot be read", more))})
	}
	if head.Count > 0 {
		v.Refused = append(v.Refused, RefusedLine{at, problem.Newf(problem.Cut, "text", "the file ends early: %d entries are missing", head.Count).
			WithHint("What it holds was read; look for a whole copy.")})
	}
	return v, nil
}

// importLine reads one line of an export.
func importLine(line []byte) (e ImportedEvent, err error) {
	p, err := exchange.ReadPush(line)
	if err != nil {
		return e, err
	}
	e = ImportedEvent{ID: p.Event.ID, Raw: string(p.Event.Raw), T: p.Event.T}
	if len(p.Event.Raw) < len(line) {
		e.O = &p.O
	}
	id, raw, err := event.Reenter(p.Event.Raw)
	e.Else.ID, e.Else.Raw = id, string(raw)
	return e, err
}

// Checked answers journal-check.
type Checked struct {
	ID    string      `json:"id"`
	T     event.Stamp `json:"t"`
	Kind  string      `json:"kind"`
	In    string      `json:"in"`
	About string      `json:"about"`
}

func check(in struct {
	Raw string `json:"raw"`
}) (Checked, error) {
	e, err := event.Decode([]byte(in.Raw))
	if err != nil {
		return Checked{}, err
	}
	return Checked{e.ID, e.T, e.Kind, e.In, e.About}, nil
}
