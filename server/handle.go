package server

import (
	"encoding/json"
	"errors"
	"net/http"
	"strconv"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// handle turns a handler that returns an error into an http.Handler. It is the
// one place where errors are written and logged.
func (s *Server) handle(f func(http.ResponseWriter, *http.Request) error) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		err := f(w, r)
		if err == nil {
			return
		}
		if store.IsDamage(err) {
			err = s.store.Damage(err)
		}
		p := problem.From(err)
		if statusOf(p.Kind) >= 500 && s.store != nil {
			if gone := s.store.Present(); gone != nil {
				p = problem.From(gone)
			}
		}
		s.figures.refused.Add(1, string(p.Kind))
		status := statusOf(p.Kind)
		if status >= 500 && !errors.Is(err, store.ErrUnsound) && !errors.Is(err, errCrowded) && !errors.Is(err, store.ErrAway) {
			s.log.Error("request failed", "method", r.Method, "path", r.URL.Path, "kind", p.Kind, "err", err, "cause", p.Unwrap())
		}
		if p.Retry > 0 {
			w.Header().Set("Retry-After", strconv.Itoa(p.Retry))
		}
		writeJSON(w, status, problem.Envelope{Error: p})
	})
}

// statuses is the one table from kinds of problems to HTTP statuses; what is
// not in it is the sender's fault and answered with 422.
var statuses = map[problem.Kind]int{
	problem.Malformed: http.StatusBadRequest,
	problem.Cut:       http.StatusBadRequest,
	problem.NoToken:   http.StatusUnauthorized,
	problem.Revoked:   http.StatusForbidden,
	problem.WrongCrew: http.StatusForbidden,
	problem.Forbidden: http.StatusForbidden,
	problem.NotFound:  http.StatusNotFound,
	problem.Rewound:   http.StatusConflict,
	problem.TooLarge:  http.StatusRequestEntityTooLarge,
	problem.OldApp:    http.StatusUpgradeRequired,
	problem.SlowDown:  http.StatusTooManyRequests,
	problem.Busy:      http.StatusServiceUnavailable,
	problem.DiskFull:  http.StatusInsufficientStorage,
	problem.Internal:  http.StatusInternalServerError,
}

func statusOf(kind problem.Kind) int {
	if status, ok := statuses[kind]; ok {
		return status
	}
	return http.StatusUnprocessableEntity
}

func writeJSON(w http.ResponseWriter, status int, v any) {
	body, err := json.Marshal(v)
	if err != nil {
		status, body = http.StatusInternalServerError, []byte(`{"error":{"kind":"internal","msg":"the answer could not be written"}}`)
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	w.Write(append(body, '\n')) // an error here means that nobody listens any more
}
