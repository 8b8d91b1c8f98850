package registry

import (
	"math/rand/v2"
	"testing"
)

// TestGuesses: what a sum calls short is short whatever stands behind its defaults,
// and what it calls in doubt holds with all of them at the favourable end.
func TestGuesses(t *testing.T) {
	sums := []struct {
		name, key string
		draw      func(r *rand.Rand) values
		best      values // the defaults at their favourable ends
	}{
		{name: "generator", key: "verdict", draw: func(r *rand.Rand) values {
			return values{"output_current": draw(r, 15, 60, "A"), "rating": draw(r, 2, 14, "kVA"), "power_factor": pick(r, "", "0.8")}
		}, best: values{"power_factor": "0.95", "efficiency": "92%", "headroom": "0%", "stretch": "1.1"}},
		{name: "generator", key: "start_while_cutting", draw: func(r *rand.Rand) values {
			return values{"output_current": draw(r, 15, 60, "A"), "rating": draw(r, 8, 30, "kVA"), "compressor": pick(r, "1.1kW", "2hp"), "code_letter": pick(r, "", "J")}
		}, best: values{"power_factor": "0.95", "efficiency": "92%", "stretch": "1.1", "start_factor": "3.5"}},
		{name: "supply", key: "breaker_verdict", draw: func(r *rand.Rand) values {
			return values{"output_current": draw(r, 15, 60, "A"), "volts": "230V", "size": "6mm²", "length": draw(r, 5, 40, "m"), "duty": "60%", "breaker": pick(r, "10A", "16A", "20A")}
		}, best: values{"power_factor": "0.95", "efficiency": "92%"}},
		{name: "air-tank", key: "verdict", draw: func(r *rand.Rand) values {
			return values{"free_air": draw(r, 80, 300, "l/min"), "tank": "50l", "demand": draw(r, 90, 200, "l/min"), "share": draw(r, 30, 100, "%"), "duty": pick(r, "", "80%")}
		}, best: values{"duty": "100%", "cut_in": "7.5bar", "cut_out": "10bar"}},
		{name: "air-hose", key: "verdict", draw: func(r *rand.Rand) values {
			return values{"flow": draw(r, 90, 250, "l/min"), "length": draw(r, 5, 40, "m"), "bore": draw(r, 5, 9, "mm"), "needed": draw(r, 4, 6, "bar"), "pressure": pick(r, "", "6.5bar")}
		}, best: values{"pressure": "7.5bar", "couplers": "0", "coupler_c": "8 l/(s·bar)"}},
	}
	for _, sum := range sums {
		t.Run(sum.name+" "+sum.key, func(t *testing.T) {
			r := rand.New(rand.NewPCG(31, 32))
			seen := map[string]int{}
			for range 300 {
				v := sum.draw(r)
				for key, text := range v {
					if text == "" {
						delete(v, key)
					}
				}
				answer, refused := tryAsk(t, sum.name, v)
				if refused != nil {
					continue
				}
				verdict := answer.word(sum.key)
				seen[verdict]++
				best := sum.best.with()
				for key, text := range v {
					best[key] = text
				}
				again, refused := tryAsk(t, sum.name, best)
				holds := refused == nil && again.word(sum.key) != "fails" && again.word(sum.key) != "choked"
				if verdict == "fails" && holds || verdict == "doubt" && !holds {
					t.Errorf("%v: %s, and %s (%v) with the defaults at their favourable ends", v, verdict, again.word(sum.key), refused)
				}
			}
			if seen["fails"] == 0 || seen["doubt"] == 0 || seen["ok"] == 0 {
				t.Errorf("only these verdicts were drawn: %v", seen)
			}
		})
	}
}
