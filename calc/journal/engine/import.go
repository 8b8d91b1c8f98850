package engine

import (
	"bytes"
	"encoding/json"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

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
		v.Refused = append(v.Refused, RefusedLine{at, event.Malformed("text", unit.Count(more, "more line", "more lines")+" cannot be read")})
	}
	if head.Count > 0 {
		v.Refused = append(v.Refused, RefusedLine{at, problem.Newf(problem.Cut, "text", "the file ends early: %s missing", unit.Count(head.Count, "entry is", "entries are")).
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
