package server

import (
	"errors"
	"io"
	"net/http"

	"github.com/gorilla/mux"

	"kerfside/calc/problem"
	"kerfside/calc/registry"
	"kerfside/server/openapi"
)

// maxCalcBody is more than any form can hold.
const maxCalcBody = 256 << 10

// listCalculators describes every calculator.
func (s *Server) listCalculators(w http.ResponseWriter, r *http.Request) error {
	writeJSON(w, http.StatusOK, registry.Describe())
	return nil
}

// describeCalc describes the addresses of the calculators for tools.
func (s *Server) describeCalc(w http.ResponseWriter, r *http.Request) error {
	document, err := openapi.Document(s.version)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/json")
	w.Write(document) // an error here means that nobody listens any more
	return nil
}

// calculate runs one calculator on the JSON object in the body.
func (s *Server) calculate(w http.ResponseWriter, r *http.Request) error {
	input, err := readBody(w, r, maxCalcBody)
	if err != nil {
		return err
	}
	answer, err := registry.Call(mux.Vars(r)["name"], input)
	if err != nil {
		return err
	}
	writeJSON(w, http.StatusOK, answer)
	return nil
}

// readBody reads a body of at most limit bytes.
func readBody(w http.ResponseWriter, r *http.Request, limit int64) ([]byte, error) {
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, limit))
	var tooLarge *http.MaxBytesError
	switch {
	case errors.As(err, &tooLarge):
		return nil, problem.Newf(problem.TooLarge, "", "the request is larger than %d bytes", limit).WithHint("Send less at once.")
	case err != nil:
		return nil, problem.New(problem.Cut, "", "the request ended too early", "Send it again.").WithCause(err)
	}
	return body, nil
}
