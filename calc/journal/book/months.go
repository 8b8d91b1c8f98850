package book

import (
	"strconv"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/journal/fold"
	"kerfside/calc/unit"
)

// monthsBack is how many months are added up, the running one with them.
const monthsBack = 12

// months reports what was done month by month and truck by truck, by the phone's calendar.
func (b *book) months() (Report, error) {
	now := b.Zone.at(b.Now)
	bounds := make([]int64, 0, monthsBack+1)
	for i := monthsBack - 1; i >= -1; i-- {
		bounds = append(bounds, b.Zone.ms(daysOf(now.Year, now.Month-i, 1)))
	}
	v, err := b.fold.Months(bounds)
	if err != nil {
		return Report{}, err
	}
	r := Report{Title: "Month by month"}
	t := Table{Columns: []Column{
		{Key: "month", Title: "Month", Number: true}, {Key: "rig", Title: "Rig"}, {Key: "sessions", Title: "Sessions", Number: true}, {Key: "jobs", Title: "Jobs", Number: true},
		{Key: "arc", Title: "Arc", Unit: "min", Number: true}, {Key: "starts", Title: "Starts", Number: true}, {Key: "new_parts", Title: "New parts"}, {Key: "worn", Title: "Worn or damaged"},
		{Key: "good", Title: "Good cuts", Number: true}, {Key: "faults", Title: "Faults found", Number: true}, {Key: "metals", Title: "Arc by metal"},
	}}
	var bars []form.Bar
	for i := len(v.Months) - 1; i >= 0; i-- {
		m := v.Months[i]
		name := b.month(m.From)
		ms := int64(0)
		for _, rig := range m.Rigs {
			t.Rows = append(t.Rows, b.monthRow(name, m.From, rig))
			ms += rig.Ms
		}
		if len(m.Rigs) > 0 {
			bars = append(bars, form.Bar{Label: name, Value: float64(ms) / minuteMs, Text: span(ms)})
		}
	}
	if len(t.Rows) == 0 {
		r.Says = []string{"Nothing was done in the last " + strconv.Itoa(monthsBack) + " months."}
		return r, nil
	}
	r.Says = []string{b.thisMonth(v.Months[len(v.Months)-1])}
	r.Sections = []Section{{Title: "Arc time", Pictures: []form.Picture{form.Bars("Arc time of each month", "How long the arcs of all trucks burnt.", bars)}}, {Title: "By truck", Table: &t, Actions: []Action{{Label: "All sessions", Href: "/book/sessions"}}}}
	return r, nil
}

// month names a month: Nov 2026.
func (b *book) month(ms int64) string {
	d := b.Zone.at(ms)
	return months[d.Month-1] + " " + strconv.Itoa(d.Year)
}

// thisMonth is what was done since the month began.
func (b *book) thisMonth(m fold.Month) string {
	var ms int64
	sessions, good, tried := 0, 0, 0
	for _, r := range m.Rigs {
		ms, sessions, good, tried = ms+r.Ms, sessions+r.Sessions, good+r.Good, tried+r.Tried
	}
	if len(m.Rigs) == 0 {
		return "Nothing was done this month yet."
	}
	said := "This month: " + span(ms) + " of arc in " + unit.Count(sessions, "session", "sessions")
	if tried > 0 {
		said += ", " + strconv.Itoa(good) + " of " + unit.Count(tried, "judged cut", "judged cuts") + " good"
	}
	return said + "."
}

func (b *book) monthRow(name string, from int64, r fold.RigMonth) []Cell {
	rig := "no rig told"
	if r.Rig != "" {
		rig = b.rig(r.Rig)
	}
	good := Cell{}
	if r.Tried > 0 {
		good = Cell{Text: strconv.Itoa(r.Good) + " of " + strconv.Itoa(r.Tried), Value: float64(r.Good) / float64(r.Tried)}
	}
	d := b.Zone.at(from)
	return []Cell{
		{Text: name, Value: float64(from), Plain: b.stamp(b.Zone.ms(daysOf(d.Year, d.Month, 1)))[:len("2026-11")]}, {Text: rig}, count(int64(r.Sessions)), count(int64(r.Jobs)),
		minutesCell(r.Ms), count(r.Starts), {Text: bySlot(r.Fitted)}, {Text: bySlot(r.Failed)},
		good, count(int64(r.Found)), {Text: byMetal(r.Metals)},
	}
}

// count is a cell that counts; nothing is left empty.
func count(n int64) Cell {
	if n == 0 {
		return Cell{}
	}
	return Cell{Text: strconv.FormatInt(n, 10), Value: float64(n)}
}

// bySlot lists parts by their slot: 2 cutting tips, 1 electrode.
func bySlot(list []fold.Share) string {
	var all []string
	for _, s := range list {
		all = append(all, unit.Count(s.N, slot(s.Word), slot(s.Word)+"s"))
	}
	return strings.Join(all, ", ")
}

func byMetal(list []fold.Share) string {
	var all []string
	for _, s := range list {
		all = append(all, strings.ToLower(metal(s.Word))+" "+span(s.N))
	}
	return strings.Join(all, ", ")
}
