package life

import (
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// kept is a kind of part with its keys and words.
type kept struct{ slot, one, many string }

var keptParts = [...]kept{
	{slot: "tip", one: "tip", many: "tips"},
	{slot: "electrode", one: "electrode", many: "electrodes"},
	{slot: "diffuser", one: "swirl ring", many: "swirl rings"},
	{slot: "cup", one: "cup", many: "cups"},
}

// sparesInput is what was read: the need, and how much of each kind the crew knows.
type sparesInput struct {
	NeedInput
	stocked [len(keptParts)]bool // its stock was entered
	seen    [len(keptParts)]history
}

// history is how many parts of a kind there were, and how many of them wore out.
type history struct{ parts, failures int }

func runSpares(r *form.Reader, a *form.Answer) error {
	_, err := learnSpares(r).run(r, a, false)
	return err
}

// SparesLessons is what the crew's lives tell of each kind of part. It is learnt once for
// several needs.
type SparesLessons struct {
	parts  [len(keptParts)][]Part
	models [2]*Model // of tip and electrode
}

// LearnSpares learns from the lives that the values of spares hold.
func LearnSpares(values map[string]any) *SparesLessons {
	return learnSpares(form.NewReader(Spares.Calculator(), values))
}

func learnSpares(r *form.Reader) *SparesLessons {
	l := &SparesLessons{}
	for i, k := range keptParts {
		l.parts[i] = ReadLives(r, k.slot+"_lives")
		if i < len(l.models) {
			l.models[i] = Learn(l.parts[i], PriorOf(k.slot))
		}
	}
	return l
}

// Need answers spares from values that hold no lives: those that were learnt stand in for
// them.
func (l *SparesLessons) Need(values map[string]any) (a *form.Answer, n Need, err error) {
	c := *Spares.Calculator()
	c.Run = func(r *form.Reader, a *form.Answer) (err error) {
		n, err = l.run(r, a, true)
		return err
	}
	a, err = c.CalculateValues(values)
	return a, n, err
}

// SparesSlots are the kinds of parts that a need is told of, in the order of All.
func SparesSlots() []string {
	var slots []string
	for _, k := range keptParts {
		slots = append(slots, k.slot)
	}
	return slots
}

func (l *SparesLessons) run(r *form.Reader, a *form.Answer, listed bool) (Need, error) {
	in := l.read(r)
	in.Listed = listed
	if err := r.Err(); err != nil {
		return Need{}, err
	}
	n, err := ComputeNeed(in.NeedInput)
	if err != nil {
		return n, err
	}
	sparesAnswer{in: in, Need: n, Answer: a}.tell()
	return n, nil
}

func (l *SparesLessons) read(r *form.Reader) sparesInput {
	var in sparesInput
	minutes := func(key string) float64 { return float64(form.Get[unit.Duration](r, key) / unit.Minute) }
	job := Use{Minutes: minutes("job_minutes"), Starts: float64(form.GetCount(r, "job_starts"))}
	work := Seen{Metal: form.GetWord(r, "metal"), Surface: form.GetWord(r, "surface")}
	in.Level, in.Pair = form.Get[unit.Ratio](r, "level"), form.GetYes(r, "pair")
	for i, k := range keptParts {
		parts := l.parts[i]
		have, price := form.GetCount(r, k.slot+"_stock"), form.Get[unit.Money](r, k.slot+"_price")
		in.stocked[i] = r.Given(k.slot + "_stock")
		for _, p := range parts {
			in.seen[i].parts++
			if p.Failed {
				in.seen[i].failures++
			}
		}
		if i < 2 {
			w := Wearing{Model: l.models[i].On(work), Age: Use{Minutes: minutes(k.slot + "_minutes"), Starts: float64(form.GetCount(r, k.slot+"_starts"))}, Job: job, Stock: have, Price: price}
			if i == 0 {
				in.Tip = w
			} else {
				in.Electrode = w
			}
			continue
		}
		in.Others = append(in.Others, Other{Counts: byAccident(parts, PriorOf(k.slot), job), Stock: have, Price: price})
	}
	if in.stocked[0] != in.stocked[1] {
		for i := range 2 {
			if !in.stocked[i] {
				r.Fail(keptParts[i].slot+"_stock", problem.New(problem.Missing, "", "how many spare "+keptParts[i].many+" are there?", "Enter 0 if there is none."))
			}
		}
	}
	return in
}

// byAccident counts a kind of part that fails by accident, not by wear: of no history
// nothing is reckoned, and the one in the full set has to do.
func byAccident(parts []Part, prior Prior, job Use) Counts {
	over, failures := 0.0, 0.5 // Jeffreys
	for _, p := range parts {
		over += p.Equivalent(prior.PerStart)
		if p.Failed {
			failures++
		}
	}
	if over <= 0 {
		return Counts{}
	}
	return GammaPoisson(failures, over, job.Equivalent(prior.PerStart))
}
