package engine

import (
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/journal/fold"
)

// byID is the input of calls about one thing.
type byID struct {
	ID string `json:"id"`
}

func (d *Desk) session(in byID) (fold.SessionView, error) { return d.fold.Session(in.ID) }

func (d *Desk) part(in byID) (fold.Part, error) { return d.fold.Part(in.ID) }

func (d *Desk) parts(struct{}) (any, error) {
	return struct {
		Parts []fold.Part `json:"parts"`
	}{d.fold.Parts()}, nil
}

func (d *Desk) book(in struct {
	Before string `json:"before"`
	Limit  int    `json:"limit"`
}) (fold.Book, error) {
	return d.fold.Book(in.Before, in.Limit), nil
}

func (d *Desk) hash(struct{}) (any, error) {
	hash, err := d.fold.Hash()
	return struct {
		Hash   string `json:"hash"`
		Events int    `json:"events"`
	}{hash, d.fold.Len()}, err
}

func (d *Desk) request(in struct {
	Meta   exchange.Meta  `json:"meta"`
	Unsent []event.Record `json:"unsent"`
	Now    int64          `json:"now"`
}) (exchange.Request, error) {
	return exchange.NextRequest(in.Meta, in.Unsent, in.Now), nil
}

func (d *Desk) apply(in exchange.Exchange) (exchange.Change, error) { return exchange.Apply(in), nil }
