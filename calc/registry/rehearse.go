package registry

import (
	"encoding/json"

	"kerfside/calc/problem"
)

// rehearsals are the calls of the first screens, each on invented figures. A browser
// compiles what a call runs when it is first run, which makes the first several
// times slower than those that follow; so a phone makes these while nobody waits.
var rehearsals = []struct{ name, input string }{
	{"read-value", `{"calculator":"cut-plan","field":"thickness","text":"6mm","units":"metric"}`},
	{"cut-plan", `{"thickness":"6mm","tips":"25:0.8mm,45:1.05mm","max_current":"45A","pressure":"5bar"}`},
	{"site-check", `{"thickness":"6mm","tips":"25:0.8mm,45:1.05mm","max_current":"45A","pressure":"5bar","air_need":"170l/min","air_least":"5bar","free_air":"300l/min","tank":"100l","compressor_duty":"80%","hose_length":"10m","bore":"9.5mm","volts":"230V","cord_length":"10m","size":"6mm2","breaker":"32A","duty_points":"45A:40%","share":"30%"}`},
	{"say-values", `{"quantity":"length","in":"mm","bare":"mm","us":"in","units":"metric","values":[0.95]}`},
	{"stops-so-far", `{"what":"loaded","near":"people"}`},
	{"may-i-cut", `{"what":"loaded","behind":"open","near":"people","place":"open","coating":"bare","wet":"no"}`},
	{"fault-rank", `{"signs":"wide-cut, heavy-dross","checks":"trap-water:no"}`},
}

// Rehearsed answers a step of the rehearsal: whether another one follows.
type Rehearsed struct {
	More bool `json:"more"`
}

// rehearse makes the call of one step, from {"step": 0} on. What it comes to is
// dropped.
func rehearse(input []byte) (Rehearsed, error) {
	var in struct {
		Step int `json:"step"`
	}
	if err := json.Unmarshal(input, &in); err != nil || in.Step < 0 || in.Step >= len(rehearsals) {
		return Rehearsed{}, problem.New(problem.Malformed, "step", "there is no such step", "Update the app.")
	}
	r := rehearsals[in.Step]
	v, err := Call(r.name, []byte(r.input))
	if err != nil {
		return Rehearsed{}, err
	}
	_, err = json.Marshal(v)
	return Rehearsed{More: in.Step+1 < len(rehearsals)}, err
}
