package engine

import (
	"kerfside/calc/journal/book"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/journal/fold"
)

// byID is the input of calls about one thing.
type byID struct {
	ID string `json:"id"`
}

func (e *Engine) session(in byID) (fold.SessionView, error) { return e.fold.Session(in.ID) }

func (e *Engine) days(in struct {
	Before fold.DayMark   `json:"before"`
	Limit  int            `json:"limit"`
	Filter fold.DayFilter `json:"filter,omitempty"`
}) (fold.Days, error) {
	return e.fold.FindDays(in.Filter, in.Before, in.Limit), nil
}

// job leaves out what was done beside cutting: no screen asks for it but by a report, and
// the small pictures of a job come to more than all the rest.
func (e *Engine) job(in byID) (fold.JobView, error) {
	v, err := e.fold.Job(in.ID)
	v.JobRecord = nil
	return v, err
}

func (e *Engine) history(in struct {
	Rig string `json:"rig"`
}) (book.History, error) {
	return book.HistoryOf(e.fold, in.Rig)
}

func (e *Engine) taught(in byID) (book.Taught, error) { return book.TaughtBy(e.fold, in.ID) }

func (e *Engine) report(in book.Look) (book.Report, error) { return book.Make(e.fold, in) }

func (e *Engine) act(in book.Act) (book.Done, error) { return book.Do(e.fold, in) }

func (e *Engine) hash(struct{}) (any, error) {
	hash, err := e.fold.Hash()
	return struct {
		Hash   string `json:"hash"`
		Events int    `json:"events"`
	}{hash, e.fold.Len()}, err
}

func (e *Engine) nextRequest(in struct {
	Meta   exchange.Meta  `json:"meta"`
	Unsent []event.Record `json:"unsent"`
	Now    int64          `json:"now"`
}) (exchange.Request, error) {
	return exchange.NextRequest(in.Meta, in.Unsent, in.Now), nil
}

func (e *Engine) applyReply(in exchange.Exchange) (exchange.Change, error) {
	return exchange.Apply(in), nil
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
	return Checked{ID: e.ID, T: e.T, Kind: e.Kind, In: e.In, About: e.About}, nil
}
