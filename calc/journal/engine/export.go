package engine

import (
	"fmt"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/order"
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
	text := exchange.AppendRow(nil, ExportHead{Kerfside: 1, Crew: in.Crew, Device: in.Device, Now: in.Now, Count: len(list)})
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
