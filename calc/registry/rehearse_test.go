package registry

import (
	"fmt"
	"testing"

	"kerfside/calc/problem"
)

// TestRehearse: every step of the rehearsal comes to an answer, one after the other
// until none is left.
func TestRehearse(t *testing.T) {
	for step := range rehearsals {
		got, err := Call("rehearse", fmt.Appendf(nil, `{"step":%d}`, step))
		if err != nil {
			t.Fatalf("%s: %v", rehearsals[step].name, problem.From(err))
		}
		if want := (Rehearsed{More: step < len(rehearsals)-1}); got != want {
			t.Errorf("step %d: %+v, want %+v", step, got, want)
		}
	}
	for _, input := range []string{`{"step":-1}`, fmt.Sprintf(`{"step":%d}`, len(rehearsals)), `{"step":"x"}`} {
		if _, err := Call("rehearse", []byte(input)); problem.From(err).Kind != problem.Malformed {
			t.Errorf("%s: %v", input, err)
		}
	}
}
