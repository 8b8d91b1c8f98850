package diagnose

import (
	"math/rand/v2"
	"testing"
)

// single is what is known of one fault of which p are the chances, with one
// finding left that shows by itself with the chance leak.
func single(p []float64, leak float64, links []Link) *Posterior {
	n := len(p)
	known := (&Net{Priors: p, Leaks: []float64{leak}, Links: links}).posterior()
	known.Cause = p
	for c, chance := range p {
		known.sets[known.place(c, c, c)] = chance
		known.both[c*n+c] = chance
	}
	return known
}

// TestWorthOfOneFault: Weigh on the worked case of four repairs and a test of
// P(+|f) = .9, .05, .9, .05; all orders before and after it were enumerated. It
// is worth half a minute and not two, whatever it tells.
func TestWorthOfOneFault(t *testing.T) {
	link := 1 - (1-.9)/(1-.05) // shows with .9, the leak of .05 included
	known := single([]float64{.4, .3, .2, .1}, .05, []Link{{0, 0, link}, {2, 0, link}})
	cost := []float64{10, 3, 8, 1}
	for minutes, value := range map[float64]float64{0: 1.8, .5: 1.3, 2: -.2} {
		got := known.scales(cost).Weigh(0, minutes)
		close12(t, "bits", got.Bits, .593631382222, 5e-13)
		close12(t, "value", got.Value, value, 1e-12)
	}
	yes, ifYes, ifNo := known.Split(0)
	close12(t, "P(+)", yes, .56, 1e-12)
	for c, want := range []float64{.6428571429, .0267857143, .3214285714, .0089285714} {
		close12(t, "cause if it shows", ifYes[c], want, 5.1e-11)
	}
	for c, want := range []float64{.0909090909, .6477272727, .0454545455, .2159090909} {
		close12(t, "cause if not", ifNo[c], want, 5.1e-11)
	}
}

// crowded is a random network with several causes likely at once, one finding
// seen, one perhaps and the third open.
func crowded(random *rand.Rand) (known *Posterior, answers []Answer, cost []float64) {
	net := Net{}
	for range 5 {
		net.Priors = append(net.Priors, .01+.4*random.Float64())
		cost = append(cost, 1+10*random.Float64())
	}
	for f := range 3 {
		net.Leaks = append(net.Leaks, .2*random.Float64())
		for _, c := range random.Perm(5)[:1+random.IntN(5)] {
			net.Links = append(net.Links, Link{c, f, random.Float64()})
		}
	}
	answers = []Answer{Yes, Answer(random.IntN(3)), Unknown}
	return net.Posterior(answers), answers, cost
}

// TestWorthAgainstAnswers: Weigh tells what comes out by answering the check
// both ways and taking the table of first cause and outcome as a whole, where
// the information is H(cause) + H(outcome) − H(both).
func TestWorthAgainstAnswers(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 17))
	for range 200 {
		known, answers, cost := crowded(random)
		var table, shares []float64
		after := 0.0
		for _, answer := range []Answer{Yes, No} {
			answers[2] = answer
			then := known.net.Posterior(answers)
			var column []float64
			for _, p := range then.Cause {
				column = append(column, p*then.Evidence)
			}
			table, shares = append(table, column...), append(shares, sum(column))
			after += sum(column) * best(normal(column), cost)
		}
		whole := sum(table)
		now := normal(known.Cause)
		got := known.scales(cost).Weigh(2, 2)
		close12(t, "bits", got.Bits, Entropy(now)+Entropy(normal(shares))-Entropy(normal(table)), 1e-11)
		close12(t, "value", got.Value, best(now, cost)-after/whole-2, 1e-11)
	}
}

// TestWorthIsNeverLess: with several faults at once a check still never tells
// less than nothing, and one that takes no time never costs any. Nor does it
// tell more than one bit, which is all that yes and no can.
func TestWorthIsNeverLess(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 9))
	for range 2000 {
		known, _, cost := crowded(random)
		got := known.scales(cost).Weigh(2, 0)
		if got.Bits < -1e-12 || got.Bits > 1 || got.Value < -1e-12 {
			t.Fatalf("Weigh = %+v of causes %v and costs %v, want 0 to 1 bits and no loss", got, known.Cause, cost)
		}
	}
}

// TestWorthOfNothing: a finding that no cause shows tells nothing and costs its
// minutes, also when the answers cannot be and when a finding never shows.
func TestWorthOfNothing(t *testing.T) {
	net := Net{Priors: []float64{.1, .2}, Leaks: []float64{0, .3, 0}, Links: []Link{{0, 0, .5}}}
	tests := []struct {
		name    string
		answers []Answer
		finding int
	}{
		{"nothing known", []Answer{Unknown, Unknown, Unknown}, 1},
		{"one seen", []Answer{Yes, Unknown, Unknown}, 1},
		{"never shows", []Answer{Yes, Unknown, Unknown}, 2},
		{"cannot be", []Answer{Unknown, Unknown, Yes}, 1},
	}
	for _, test := range tests {
		got := net.Posterior(test.answers).scales([]float64{5, 9}).Weigh(test.finding, 3)
		close12(t, test.name+": bits", got.Bits, 0, 1e-12)
		close12(t, test.name+": value", got.Value, -3, 1e-12)
	}
}
