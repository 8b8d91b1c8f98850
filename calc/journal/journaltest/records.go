package journaltest

import "kerfside/calc/journal/event"

// Records are the records of a phone that tapped these events.
func Records(list []event.Event) []event.Record {
	var all []event.Record
	for i, e := range list {
		all = append(all, event.Record{ID: e.ID, Raw: string(e.Raw), T: e.T, L: int64(i + 1), Unsent: event.ToSend})
	}
	return all
}
