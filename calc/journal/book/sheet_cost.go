package book

import (
	"cmp"

	"kerfside/calc/form"
	"kerfside/calc/job"
	"kerfside/calc/journal/fold"
	"kerfside/calc/unit"
)

// charge is a line of a sum of money.
type charge struct {
	label string
	money int64 // hundredths
}

// costs adds up what a job cost as it was done, by the crew's prices: as job-cost does, but
// for what nobody measured, such as energy. Each line is rounded half up to hundredths, and
// the total is the sum of the lines as they stand.
func (b *book) costs(view fold.JobView) (lines []charge, total int64, missing []string) {
	in := map[string]any{}
	for _, key := range [...]string{"labour", "overhead", "watch_rate", "set_price", "material"} {
		if text := cmp.Or(textOf(view.Fields.Fields[key]), b.setting(key)); text != "" {
			in[key] = text
		}
	}
	r := form.NewReader(job.JobPlan.Calculator(), in)
	perHour := func(key string) float64 { return float64(form.Get[unit.MoneyRate](r, key)) * 3600 * 100 }
	line := func(label string, hundredths int64) {
		if hundredths > 0 {
			lines, total = append(lines, charge{label, hundredths}), total+hundredths
		}
	}
	hours := func(rate float64, ms int64) int64 { return halfUp(rate * float64(ms/minuteMs) / 60) }
	worked := workedMs(view)
	labour, overhead := perHour("labour"), perHour("overhead")
	if labour == 0 {
		missing = append(missing, "What an hour costs is not said: the job’s page asks for it.")
	}
	line("Labour, "+span(worked), hours(labour, worked))
	line("Overhead, "+span(worked), hours(overhead, worked))
	watched := int64(0)
	for _, w := range view.Watches {
		if !w.Open {
			watched += max(0, w.To-w.From)
		}
	}
	watched = (watched + minuteMs/2) / minuteMs * minuteMs
	line("Fire watch, "+span(watched), hours(cmp.Or(perHour("watch_rate"), labour+overhead), watched))
	parts, unpriced := b.partsCost(view, int64(halfUp(float64(form.Get[unit.Money](r, "set_price"))*100)))
	line("Parts", parts)
	if unpriced > 0 {
		missing = append(missing, "The price of "+unit.Count(unpriced, "part", "parts")+" is not said.")
	}
	line("Bought for it", halfUp(float64(form.Get[unit.Money](r, "material"))*100))
	return lines, total, missing
}

// costOf tells what it cost beside what was quoted.
func (b *book) costOf(view fold.JobView) Section {
	s := Section{Title: "Cost, for the crew alone"}
	lines, total, missing := b.costs(view)
	for _, l := range lines {
		s.Figures = append(s.Figures, Figure{Label: l.label, Text: b.money(l.money)})
	}
	s.Figures = append(s.Figures, Figure{Label: "Cost", Text: b.money(total), Main: true})
	if q, ok := quotedFor(view); ok {
		tax := taxOn(q.price, q.tax)
		s.Figures = append(s.Figures, Figure{Label: "Quoted", Text: inCurrency(q.currency, q.price)}, Figure{Label: "Left of it", Text: inCurrency(q.currency, q.price-total), Main: true},
			Figure{Label: "Tax, " + sayRate(q.tax), Text: inCurrency(q.currency, tax)}, Figure{Label: "To bill", Text: inCurrency(q.currency, q.price+tax)})
	}
	s.Says = append(missing, "Energy and driving are not in it.")
	return s
}
