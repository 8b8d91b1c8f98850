package life

import (
	"fmt"
	"math"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// sparesAnswer tells a need in words.
type sparesAnswer struct {
	in sparesInput
	Need
	*form.Answer
}

// known is from how many worn parts of a kind on a chance is told in hundredths; it is
// where a fit by maximum likelihood begins to be shown.
const known = 5

func (s sparesAnswer) tell() {
	s.PutWord("carry", "Carry "+listed(s.Carry.All())+": "+s.odds(s.Enough, s.Off)+" jobs like this need no more.")
	s.putStock()
	form.PutSaid(s.Answer, "enough", unit.Ratio(s.Enough), s.odds(s.Enough, s.Off))
	form.PutSaid(s.Answer, "both_last", unit.Ratio(s.BothLast), s.odds(s.BothLast, 0))
	s.PutCount("tips", s.Carry.Tips)
	s.PutCount("electrodes", s.Carry.Electrodes)
	s.PutFactor("tips_used", hundredths(s.Tips))
	s.PutFactor("electrodes_used", hundredths(s.Electrodes))
	s.putParts()
	s.PutWord("rests_on", s.restsOn())
	s.say()
}

// putStock tells what to buy, where it was said what there is.
func (s sparesAnswer) putStock() {
	if !s.in.stocked[0] {
		return
	}
	have := s.have()
	form.PutSaid(s.Answer, "with_stock", unit.Ratio(s.WithStock), s.odds(s.WithStock, s.Off))
	first, most := -1, 0.005
	for i, p := range s.Short {
		if s.in.stocked[i] && p > most {
			first, most = i, p
		}
	}
	if first >= 0 {
		s.PutWord("short", capital(keptParts[first].many)+": "+s.odds(most, 0)+" jobs like this.")
	}
	buy := s.bought()
	if total(buy) == 0 {
		s.PutWord("buy", "Nothing for this job.")
		return
	}
	s.PutWord("buy", "Buy "+listed(buy)+".")
	cost, priced := 0.0, true
	for i, price := range s.prices() {
		cost += float64(buy[i]) * float64(price)
		priced = priced && (price > 0 || buy[i] == 0)
	}
	if priced {
		form.Put(s.Answer, "cost", unit.Money(cost))
	}
	if have[0]+have[1] == 0 {
		s.Caution("You have no spare tip or electrode: one that fails ends the job.")
	}
}

// bought is what to buy of each kind whose stock is known.
func (s sparesAnswer) bought() []int {
	buy := s.Buy.All()
	for i := range buy {
		if !s.in.stocked[i] {
			buy[i] = 0
		}
	}
	return buy
}

func (s sparesAnswer) have() []int {
	have := []int{s.in.Tip.Stock, s.in.Electrode.Stock}
	for _, o := range s.in.Others {
		have = append(have, o.Stock)
	}
	return have
}

func (s sparesAnswer) prices() []unit.Money {
	prices := []unit.Money{s.in.Tip.Price, s.in.Electrode.Price}
	for _, o := range s.in.Others {
		prices = append(prices, o.Price)
	}
	return prices
}

func (s sparesAnswer) putParts() {
	var rows []*form.Row
	carry, have, buy := s.Carry.All(), s.have(), s.bought()
	for i, k := range keptParts {
		row := s.NewRow()
		row.PutWord("part", k.one)
		row.PutFactor("carry", float64(carry[i]))
		if s.in.stocked[i] {
			row.PutFactor("have", float64(have[i]))
			row.PutFactor("buy", float64(buy[i]))
		}
		rows = append(rows, row)
	}
	s.PutRows("parts", rows)
}

// weak reports whether the crew's own tips or electrodes say little yet.
func (s sparesAnswer) weak() bool {
	return s.in.seen[0].failures < known || s.in.seen[1].failures < known
}

// odds says in how many jobs, no finer than what is known of the parts: "about 9 in
// 10"; where enough of them were worn out, by what the simulation is sure of: "95 in
// 100".
func (s sparesAnswer) odds(p, off float64) string {
	of, about, n := 100.0, "", math.Floor(100*(p-off)+1e-9)
	if s.weak() {
		of, about = 10, "about "
		n = math.Round(10 * p)
	}
	switch {
	case n < 1:
		return fmt.Sprintf("fewer than 1 in %.0f", of)
	case n >= of:
		return fmt.Sprintf("more than %.0f in %.0f", of-1, of)
	}
	return fmt.Sprintf("%s%.0f in %.0f", about, n, of)
}

func (s sparesAnswer) restsOn() string {
	var says []string
	for i, k := range keptParts[:2] {
		if h := s.in.seen[i]; h.parts > 0 {
			says = append(says, fmt.Sprintf("%s, %d worn out", unit.Count(h.parts, k.one, k.many), h.failures))
		} else {
			says = append(says, "no "+k.one+" of yours yet")
		}
	}
	return strings.Join(says, "; ")
}

// say explains, and warns of what it rests on.
func (s sparesAnswer) say() {
	if s.in.seen[0].failures == 0 && s.in.seen[1].failures == 0 {
		s.Caution("No worn part of yours is known yet: this is a first guess of how long such parts last.")
	} else if s.weak() {
		s.Caution("Few of your worn parts are known yet, so the count leans on a first guess.")
	}
	s.Caution("Spares are of this torch's family, tips of its amps. Never mix them.")
	for i, k := range keptParts[2:] {
		if s.in.seen[i+2].parts == 0 {
			s.Step("%s: no lives are known; one in the set, none reckoned in the chance", k.one)
		}
	}
	rule := "each is changed alone"
	if s.in.Pair {
		rule = "both are changed where the other is past half of its life"
	}
	s.Step("%s: on average %s tips and %s electrodes are used up, the ones in the torch among them", rule, unit.Figures(hundredths(s.Tips), 2), unit.Figures(hundredths(s.Electrodes), 2))
	s.Step("enough = P(tips ≤ %d, electrodes ≤ %d, the others too) = %s, give or take %s", s.Carry.Tips, s.Carry.Electrodes, unit.In(unit.Ratio(s.Enough), "%"), unit.In(unit.Ratio(s.Off), "%"))
}

// listed puts counts of the kinds in words: "3 tips, 2 electrodes and 1 cup".
func listed(counts []int) string {
	var says []string
	for i, n := range counts {
		if n > 0 {
			says = append(says, unit.Count(n, keptParts[i].one, keptParts[i].many))
		}
	}
	if last := len(says) - 1; last > 0 {
		return strings.Join(says[:last], ", ") + " and " + says[last]
	}
	return strings.Join(says, "")
}

func total(counts []int) int {
	sum := 0
	for _, n := range counts {
		sum += n
	}
	return sum
}

// hundredths are what a simulation of some thousand jobs can tell.
func hundredths(n float64) float64 { return math.Round(100*n) / 100 }

func capital(word string) string { return strings.ToUpper(word[:1]) + word[1:] }
