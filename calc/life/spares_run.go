package life

import (
	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// kept is a kind of part with its keys and words.
type kept struct{ slot, many string }

var keptParts = [...]kept{{"tip", "tips"}, {"electrode", "electrodes"}, {"diffuser", "diffusers"}, {"cup", "cups"}}

// sparesInput is what was read: the need, and how much of each kind the crew knows.
type sparesInput struct {
	NeedInput
	stocked [len(keptParts)]bool // its stock was entered
	seen    [len(keptParts)]history
}

// history is how many parts of a kind there were, and how many of them wore out.
type history struct{ parts, failures int }

func runSpares(r *form.Reader, a *form.Answer) error {
	in := readSpares(r)
	if err := r.Err(); err != nil {
		return err
	}
	n, err := ComputeNeed(in.NeedInput)
	if err != nil {
		return err
	}
	sparesAnswer{in: in, Need: n, Answer: a}.tell()
	return nil
}

func readSpares(r *form.Reader) sparesInput {
	var in sparesInput
	minutes := func(key string) float64 { return float64(form.Get[unit.Duration](r, key) / unit.Minute) }
	job := Use{Minutes: minutes("job_minutes"), Starts: float64(form.GetCount(r, "job_starts"))}
	work := Seen{Metal: form.GetWord(r, "metal"), Surface: form.GetWord(r, "surface")}
	in.Level, in.Pair = form.Get[unit.Ratio](r, "level"), form.GetYes(r, "pair")
	for i, k := range keptParts {
		parts := ReadLives(r, k.slot+"_lives")
		have, price := form.GetCount(r, k.slot+"_stock"), form.Get[unit.Money](r, k.slot+"_price")
		in.stocked[i] = r.Given(k.slot + "_stock")
		for _, p := range parts {
			in.seen[i].parts++
			if p.Failed {
				in.seen[i].failures++
			}
		}
		if i < 2 {
			w := Wearing{Model: Learn(parts, PriorOf(k.slot)).On(work), Age: Use{Minutes: minutes(k.slot + "_minutes"), Starts: float64(form.GetCount(r, k.slot+"_starts"))}, Job: job, Stock: have, Price: price}
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
