package server

import (
	"net/http"

	"kerfside/calc/journal/exchange"
	"kerfside/server/store"
)

// soon is what a phone is given before its turn comes to it; the zero value is
// nothing.
type soon struct {
	head *exchange.EarlyHead // nil if it asks for none, or needs none
	rows []store.Row
	only bool // the phone waits with its pull until it has had them all
}

// earlyArrivals returns the early arrivals that a request asks for.
func (s *Server) earlyArrivals(r *http.Request, crew string, head exchange.RequestHead) (soon, error) {
	if head.Early == nil {
		return soon{}, nil
	}
	at, ok := store.ParseEarly(*head.Early)
	if *head.Early == "" {
		at, ok = s.store.BeginEarly(crew, head.At.N, s.early)
	}
	if !ok {
		return soon{}, nil
	}
	rows, next, err := s.store.Early(r.Context(), crew, head.At.N, at, s.now(), s.early)
	x := soon{head: &exchange.EarlyHead{Next: next.String(), Count: len(rows)}, rows: rows, only: !next.IsOver()}
	for _, row := range rows {
		x.head.H = exchange.NextEarly(x.head.H, row.Arrival)
	}
	return x, err
}
