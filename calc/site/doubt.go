package site

import (
	"kerfside/calc/cutting"
	"kerfside/calc/guess"
	"kerfside/calc/margin"
)

// restOn are the defaults that each check may be short by, the likeliest to be
// wrong first.
var restOn = []struct {
	check  string
	fields []string
}{
	{"cord", []string{"drop_advice", "power_factor", "machine_efficiency", "size"}},
	{"volts", []string{"power_factor", "machine_efficiency", "size"}},
	{"breaker", []string{"power_factor", "machine_efficiency", "share"}},
	{"generator", []string{"power_factor", "machine_efficiency", "start_factor", "headroom", "stretch"}},
	{"hose", []string{"bore", "cut_in", "cut_out", "air_least", "coupler_c", "couplers"}},
	{"tank", []string{"bore", "cut_in", "cut_out", "air_least", "coupler_c", "couplers", "tank", "longest_cut", "after_flow"}},
	{"compressor", []string{"compressor_duty", "share", "after_flow"}},
	{"duty", []string{"share"}},
	{"tip", []string{"tip_growth"}},
	{"electrode", []string{"pit_limit"}},
}

// guessesOf are the guesses that a check may be short by.
func guessesOf(check string) []guess.Guess {
	for _, r := range restOn {
		if r.check == check {
			return guess.Of(r.fields...)
		}
	}
	return nil
}

// rests returns what a short check is short by alone; see guess.Rests.
func (in Input) rests(c Check, plan cutting.PlanResult) []guess.Guess {
	return guess.Rests(guessesOf(c.Key), in.Given, func(texts map[string]string) bool { return in.holdsWith(c.Key, texts, plan) })
}

// holdsWith reports whether a check holds with other texts in some fields.
func (in Input) holdsWith(key string, texts map[string]string, plan cutting.PlanResult) bool {
	eased, err := in.With(texts)
	if err != nil {
		return false
	}
	for _, other := range eased.judge(plan).Checks {
		if other.Key == key {
			return margin.Judge(other.Margin) != margin.Fails
		}
	}
	return false
}
