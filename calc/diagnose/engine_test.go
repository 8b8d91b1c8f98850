package diagnose

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"kerfside/calc/order"
)

func close12(t *testing.T, name string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance {
		t.Errorf("%s = %.13g, want %.13g", name, got, want)
	}
}

// chest is the chest clinic of Lauritzen and Spiegelhalter, Journal of the
// Royal Statistical Society B 50 (1988) 157, as R's gRain ships it.
var chest = Network{[]Node{
	{Name: "asia", True: []float64{.01}},
	{Name: "tub", Parents: []int{0}, True: []float64{.01, .05}},
	{Name: "smoke", True: []float64{.5}},
	{Name: "lung", Parents: []int{2}, True: []float64{.01, .10}},
	{Name: "bronc", Parents: []int{2}, True: []float64{.30, .60}},
	{Name: "either", Parents: []int{1, 3}, True: []float64{0, 1, 1, 1}},
	{Name: "xray", Parents: []int{5}, True: []float64{.05, .98}},
	{Name: "dysp", Parents: []int{4, 5}, True: []float64{.10, .80, .70, .90}},
}}

// TestChestClinic: gRain prints lung 0.09952515, bronc 0.8114021 and
// P(evidence) 0.004501375 for asia and dysp, 0.1455191 for lung with smoke; the
// longer figures are exact fractions of the same tables.
func TestChestClinic(t *testing.T) {
	tests := []struct {
		name     string
		evidence map[string]bool
		chance   float64
		want     []float64 // asia tub smoke lung bronc either xray dysp
	}{
		{name: "none", chance: 1, want: []float64{.01, .0104, .5, .055, .45, .064828, .11029004, .4359706}},
		{name: "asia, dysp", evidence: map[string]bool{"asia": true, "dysp": true}, chance: 36011.0 / 8000000, want: []float64{1, .0877509650, .6259198578, .0995251451, .8114020716, .1822998528, .2195388631, 1}},
		{name: "dysp", evidence: map[string]bool{"dysp": true}, chance: 2179853.0 / 5000000, want: []float64{.0103249508, .0188453075, .6339968796, .1027592228, .8339673363, .1205358343, .1620983259, 1}},
		{name: "xray", evidence: map[string]bool{"xray": true}, chance: 2757251.0 / 25000000, want: []float64{.0131555397, .0924108832, .6877538534, .4887114013, .5063261560, .5760396859, 1, .6407659694}},
		{name: "no smoke, no xray, dysp", evidence: map[string]bool{"smoke": false, "xray": false, "dysp": true}, chance: 361039159 / 2.5e9, want: []float64{.0096208972, .0005473091, 0, .0005262587, .7737460911, .0010680947, 0, 1}},
	}
	for _, test := range tests {
		got, chance := chest.Marginals(test.evidence)
		close12(t, test.name+": P(evidence)", chance, test.chance, 1e-15)
		for i, want := range test.want {
			close12(t, test.name+": "+chest.Nodes[i].Name, got[i], want, 5.1e-11)
		}
	}
	smoker, _ := chest.Marginals(map[string]bool{"asia": true, "dysp": true, "smoke": true})
	close12(t, "lung of a smoker", smoker[3], .1455191, 5e-8)
}

// fever is the table of Russell and Norvig's noisy-OR example: inhibitors cold
// .6, flu .2, malaria .1, no leak.
func TestFeverTable(t *testing.T) {
	net := Net{Priors: []float64{.5, .5, .5}, Leaks: []float64{0}, Links: []Link{{Cause: 0, Finding: 0, P: .4}, {Cause: 1, Finding: 0, P: .8}, {Cause: 2, Finding: 0, P: .9}}}
	want := map[[3]bool]float64{
		{false, false, false}: 0, {false, false, true}: .9, {false, true, false}: .8, {false, true, true}: .98,
		{true, false, false}: .4, {true, false, true}: .94, {true, true, false}: .88, {true, true, true}: .988,
	}
	for on, p := range want {
		// With the causes fixed by findings that show nothing else, the chance
		// of a fever is what the table says.
		fixed := Net{Leaks: []float64{0}}
		for c, present := range on {
			prior := 1e-15
			if present {
				prior = 1 - 1e-15
			}
			fixed.Priors = append(fixed.Priors, prior)
			fixed.Links = append(fixed.Links, Link{Cause: c, Finding: 0, P: net.Links[c].P})
		}
		close12(t, "P(fever)", fixed.Posterior([]Answer{Yes}).Evidence, p, 1e-12)
	}
}

// three is the leaky test of three causes and three effects; its figures were
// enumerated in exact fractions.
var three = Net{
	Priors: []float64{.05, .02, .10}, Leaks: []float64{.01, .02, .05},
	Links: []Link{{Cause: 0, Finding: 0, P: .9}, {Cause: 1, Finding: 0, P: .6}, {Cause: 1, Finding: 1, P: .8}, {Cause: 2, Finding: 1, P: .3}, {Cause: 0, Finding: 2, P: .5}, {Cause: 2, Finding: 2, P: .7}},
}

func TestThreeCauses(t *testing.T) {
	p := three.Posterior([]Answer{Yes, Unknown, Unknown})
	close12(t, "P(e1)", p.Evidence, .0658954, 5e-8)
	for c, want := range []float64{.6845606825, .1887294106, .1} {
		close12(t, "posterior given e1", p.Cause[c], want, 5.1e-11)
	}
	q := three.Posterior([]Answer{Yes, No, Unknown})
	for c, want := range []float64{.7925652966, .0444583626, .0721649485} {
		close12(t, "posterior given e1 and not e2", q.Cause[c], want, 5.1e-11)
	}
}

// TestNoisyOrAgainstNetwork: the bounded enumeration and the general one agree
// where the bound leaves nothing out.
func TestNoisyOrAgainstNetwork(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		net := Net{}
		general := Network{}
		for c := range 3 {
			net.Priors = append(net.Priors, .05+.4*random.Float64())
			general.Nodes = append(general.Nodes, Node{Name: string(rune('a' + c)), True: net.Priors[c:]})
		}
		answers, evidence := []Answer{}, map[string]bool{}
		for f := range 4 {
			net.Leaks = append(net.Leaks, .3*random.Float64())
			table := make([]float64, 8)
			strengths := []float64{random.Float64(), random.Float64(), random.Float64()}
			for row := range table {
				no := 1 - net.Leaks[f]
				for c, p := range strengths {
					if row>>c&1 == 1 {
						no *= 1 - p
					}
				}
				table[row] = 1 - no
			}
			for c, p := range strengths {
				net.Links = append(net.Links, Link{Cause: c, Finding: f, P: p})
			}
			name := string(rune('w' + f))
			general.Nodes = append(general.Nodes, Node{Name: name, Parents: []int{0, 1, 2}, True: table})
			answer := Answer(random.IntN(3))
			answers = append(answers, answer)
			if answer != Unknown {
				evidence[name] = answer == Yes
			}
		}
		want, chance := general.Marginals(evidence)
		got := net.Posterior(answers)
		close12(t, "P(evidence)", got.Evidence, chance, 1e-12)
		for c := range 3 {
			close12(t, "posterior", got.Cause[c], want[c], 1e-12)
		}
	}
}

// searchTime is the expected time until a single fault is found by checks in
// that order, each of which finds its own cause and no other:
//
//	Σ_k cost_k·(1 − Σ_{j<k} p_j)
func searchTime(offers []offer) float64 {
	total, left := 0.0, 1.0
	for _, o := range offers {
		total += o.check.Minutes * left
		left -= o.finds
	}
	return total
}

func offersOf(p, cost []float64) []offer {
	offers := make([]offer, len(p))
	for i := range p {
		offers[i] = offer{check: Check{Minutes: cost[i]}, finds: p[i], yields: p[i] / cost[i], stage: outside}
	}
	return offers
}

// TestSearchOrder: a worked case of four checks of which all 24 orders were
// enumerated: by chance over minutes it takes 11.3, which is least; by chance
// 14.3, by minutes 12.5, at worst 17.3.
func TestSearchOrder(t *testing.T) {
	given := offersOf([]float64{.4, .3, .2, .1}, []float64{10, 3, 8, 1})
	close12(t, "by chance", searchTime(given), 14.3, 1e-12)
	close12(t, "by minutes", searchTime([]offer{given[3], given[1], given[2], given[0]}), 12.5, 1e-12)
	worst := 0.0
	permute(given, func(offers []offer) { worst = max(worst, searchTime(offers)) })
	close12(t, "worst", worst, 17.3, 1e-12)
	order.Stable(given, sooner)
	close12(t, "best", searchTime(given), 11.3, 1e-12)
}

// TestSearchOrderIsSoonest: against all orders of random small cases, the law of
// Kadane and Simon, Annals of Statistics 5 (1977) 237.
func TestSearchOrderIsSoonest(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	for range 200 {
		n := 2 + random.IntN(5)
		p, cost, whole := make([]float64, n), make([]float64, n), 0.0
		for i := range p {
			p[i], cost[i] = random.Float64(), .1+10*random.Float64()
			whole += p[i]
		}
		for i := range p {
			p[i] /= whole
		}
		offers := offersOf(p, cost)
		order.Stable(offers, sooner)
		least := searchTime(offers)
		permute(offers, func(other []offer) {
			if c := searchTime(other); c < least-1e-9 {
				t.Fatalf("an order takes %v, less than %v by chance over minutes", c, least)
			}
		})
	}
}

func permute(list []offer, visit func([]offer)) {
	list = slices.Clone(list)
	var rec func(k int)
	rec = func(k int) {
		if k == len(list) {
			visit(list)
			return
		}
		for i := k; i < len(list); i++ {
			list[k], list[i] = list[i], list[k]
			rec(k + 1)
			list[k], list[i] = list[i], list[k]
		}
	}
	rec(0)
}
