package wear

import (
	"encoding/json"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// ReadPart is what was read off a part, in whole micrometres as the journal has
// it; 0 for what was not read.
type ReadPart struct {
	Slot   string `json:"slot"` // tip or electrode
	New    int64  `json:"new"`  // the tip's bore when new
	DMax   int64  `json:"dmax"`
	DMin   int64  `json:"dmin"`
	Error  int64  `json:"error"` // as the photo gauge told it
	Pit    int64  `json:"pit"`
	Insert int64  `json:"insert"`
}

// Suggested is the answer that a reading suggests to a step of a guide: good,
// worn, change or unsure; "" where it suggests none.
type Suggested struct {
	Answer string `json:"answer"`
}

// answers are those of a guide's step, by verdict.
var answers = map[string]string{tipGood: "good", tipWatch: "worn", tipChange: "change", tipUnknown: "unsure"}

// JudgeReading tells which answer a reading suggests, by the usual limits of
// tip-wear and electrode-wear. It says nothing of the edge or of where the pit
// sits, which only an eye sees. A pin alone, which passes an oval bore, suggests
// a change or nothing.
func JudgeReading(input []byte) (Suggested, error) {
	var in ReadPart
	if err := json.Unmarshal(input, &in); err != nil {
		return Suggested{}, problem.New(problem.Malformed, "", "this is no reading", "Send whole micrometres.")
	}
	verdict := ""
	switch in.Slot {
	case "tip":
		verdict = in.judgeTip()
	case "electrode":
		verdict = in.judgeElectrode()
	}
	return Suggested{Answer: answers[verdict]}, nil
}

func (in ReadPart) judgeTip() string {
	bore := TipInput{New: micrometres(in.New), Largest: micrometres(in.DMax), Smallest: micrometres(in.DMin), Error: micrometres(in.Error)}
	if bore.New <= 0 {
		return ""
	}
	limits := getLimits(form.NewReader(TipWear.Calculator(), nil))
	bore.GrowthLimit, bore.OvalLimit = limits.Growth, limits.Oval
	res, err := bore.judgeBore()
	if err != nil || !res.Both && res.Verdict != tipChange {
		return ""
	}
	return res.Verdict
}

func (in ReadPart) judgeElectrode() string {
	if in.Pit <= 0 {
		return ""
	}
	limit := form.Get[unit.Length](form.NewReader(ElectrodeWear.Calculator(), nil), "limit")
	res, err := ComputeElectrode(ElectrodeInput{Depth: micrometres(in.Pit), DepthRead: true, Limit: limit, Insert: micrometres(in.Insert)})
	if err != nil {
		return ""
	}
	return res.Verdict
}

func micrometres(n int64) unit.Length { return unit.Length(n) * unit.Micrometre }
