package book

import (
	"strings"

	"kerfside/calc/journal/fold"
	"kerfside/calc/unit"
)

// fittedIn counts the parts that were fitted, by their place.
func fittedIn(view fold.JobView) map[string]int {
	n := map[string]int{}
	for _, p := range view.Parts {
		if p.Kind == "part.fitted" {
			n[p.Slot]++
		}
	}
	return n
}

// partsOf tells the parts that were used.
func (b *book) partsOf(view fold.JobView) Section {
	s := Section{Title: "Parts used"}
	var said []string
	n := fittedIn(view)
	for _, word := range slotOrder {
		if n[word] > 0 {
			said = append(said, unit.Count(n[word], slot(word), slot(word)+"s"))
		}
	}
	if len(said) > 0 {
		s.Says = []string{strings.Join(said, ", ") + "."}
	}
	return s
}

// partsCost is what the parts cost that were fitted: each the price of its stock line; of
// tips and electrodes without one a set, of which each has one.
func (b *book) partsCost(view fold.JobView, set int64) (cost int64, unpriced int) {
	prices := map[string]int64{}
	for _, l := range b.fold.Stocks().Lines {
		for _, id := range append([]string{l.ID}, l.Same...) {
			prices[id] = l.Price
		}
	}
	loose := map[string]int{}
	for _, p := range view.Parts {
		if p.Kind != "part.fitted" {
			continue
		}
		if price := prices[p.Line]; price > 0 {
			cost += price
			continue
		}
		loose[p.Slot]++
	}
	sets := max(loose["tip"], loose["electrode"])
	for word, n := range loose {
		if set == 0 || word != "tip" && word != "electrode" {
			unpriced += n
		}
	}
	return cost + set*int64(sets), unpriced
}
