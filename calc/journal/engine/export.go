package engine

import (
	"fmt"
	"slices"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/order"
	"kerfside/calc/unit"
)

// An export is JSON lines: a head, then each event as in a request that offers
// it again, in the order of the journal.
//
//	{"kerfside":1,"crew":"…","device":"…","now":1760731116600,"count":2,"without":1}
//	{"o":"0199f3c0b4000000","raw":{…}}
//	{…}
//
// What customers are called stays out of it unless it is asked for. An event's bytes are
// what it is, so such a one is left out whole, and the head says how many were: what is in
// the file are the events themselves, as after a sync that did not bring all. The phone
// enters a customer by itself, so that nothing else goes missing; of entries of older
// versions, which say more, the answer tells.

// ExportHead is the first line of an export.
type ExportHead struct {
	Kerfside int    `json:"kerfside"` // version of the format, 1
	Crew     string `json:"crew"`
	Device   string `json:"device"`
	Now      int64  `json:"now"`
	Count    int    `json:"count"`
	Without  int    `json:"without,omitempty"` // left out, for they name customers
}

// Exported answers journal-export.
type Exported struct {
	Text string `json:"text"`
	Name string `json:"name"`           // for the file
	Says string `json:"says,omitempty"` // what was left out of it, "" if nothing was
}

func export(in struct {
	Events []event.Record `json:"events"`
	Crew   string         `json:"crew"`
	Device string         `json:"device"`
	Now    int64          `json:"now"`

	Customers bool `json:"customers"` // the entries that name them too
}) (Exported, error) {
	var says string
	without, mixed := 0, 0
	if !in.Customers {
		in.Events = slices.DeleteFunc(in.Events, func(r event.Record) bool {
			private, alone := event.Private(r.Raw)
			if private {
				without++
			}
			if private && !alone {
				mixed++
			}
			return private
		})
	}
	if without > 0 {
		says = unit.Count(without, "entry with a customer is", "entries with a customer are") + " left out."
	}
	if mixed > 0 {
		says += " " + unit.Count(mixed, "of an older version says more of its job: that is missing too.", "of older versions say more of their jobs: that is missing too.")
	}
	list := order.Sorted(in.Events, func(a, b event.Record) int { return placeOf(a).Written(placeOf(b)) })
	text := exchange.AppendRow(nil, ExportHead{Kerfside: 1, Crew: in.Crew, Device: in.Device, Now: in.Now, Count: len(list), Without: without})
	for _, r := range list {
		text = exchange.AppendEvent(text, r.Raw, r.O)
	}
	return Exported{Text: string(text), Name: fmt.Sprintf("kerfside-%d.jsonl", in.Now/1000), Says: says}, nil
}

// placeOf returns where a record stands.
func placeOf(r event.Record) event.Place {
	if r.O != nil {
		return event.PlaceOf(r.ID, *r.O, r.T, 0)
	}
	return event.PlaceOf(r.ID, r.T, r.T, 0)
}
