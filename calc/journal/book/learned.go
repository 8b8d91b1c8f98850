package book

import (
	"cmp"
	"strconv"
	"strings"

	"kerfside/calc/cutting"
	"kerfside/calc/diagnose"
	"kerfside/calc/form"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/life"
	"kerfside/calc/material"
	"kerfside/calc/order"
	"kerfside/calc/unit"
)

// learned reports what the crew's own work says: how its torches cut against the
// reckoning, what went wrong, and how long things take. How long parts last is a report of
// its own, for that takes as long to reckon as all else.
func (b *book) learned() (Report, error) {
	r := Report{Title: "What we learned"}
	calibration, cuts := b.calibrations()
	faults, found := b.faultBars()
	r.Says = []string{learnedLine(cuts, found)}
	r.Sections = append(r.Sections, calibration)
	r.Sections = append(r.Sections, Section{Rows: []Row{{Title: "How long parts last", Says: []string{"Tips and electrodes, and what wears them"}, Href: "/book/lives"}}}, faults, b.timesTable())
	return r, nil
}

// lives reports how long the crew's tips and electrodes last.
func (b *book) lives() (Report, error) {
	r := Report{Title: "How long parts last"}
	known := map[string]string{}
	if err := addLives(b.fold, "", known, FittedKeys...); err != nil {
		return r, err
	}
	for _, word := range FittedKeys {
		values := map[string]any{"part": word, "units": string(b.Units)}
		if lives := known[livesKeys[word]]; lives != "" {
			values["lives"] = lives
		}
		a, err := life.PartLife.Calculator().CalculateValues(values)
		if err != nil {
			return r, err
		}
		s := Section{Title: capital(plural(word)), Pictures: a.Pictures(), Lengths: a.Lengths()}
		for _, key := range []string{"typical", "b10", "least", "rests_on", "shape_says", "wears"} {
			if label, text, ok := a.Told(key); ok {
				s.Figures = append(s.Figures, Figure{Label: label, Text: text})
			}
		}
		if _, text, ok := a.Told("typical"); ok {
			r.Says = append(r.Says, "Half of your "+plural(word)+" are gone by "+text+" of arc.")
		}
		r.Sections = append(r.Sections, s)
	}
	if len(r.Says) == 0 {
		r.Says = []string{"None of your parts wore out yet: what is drawn is assumed."}
	}
	return r, nil
}

func learnedLine(cuts, found int) string {
	var from []string
	if cuts > 0 {
		from = append(from, unit.Count(cuts, "judged cut", "judged cuts"))
	}
	if found > 0 {
		from = append(from, unit.Count(found, "confirmed fault", "confirmed faults"))
	}
	if len(from) == 0 {
		return "Nothing yet: judge a cut, read a part, say what a fault was."
	}
	return "From " + strings.Join(from, " and ") + "."
}

// mostTried is how many judged cuts of a rig and metal a calibration rests on, the newest.
const mostTried = 25

// calibrations tells for each rig and metal how the rig severs against the reckoning.
func (b *book) calibrations() (Section, int) {
	s := Section{Title: "How each torch cuts"}
	type group struct{ rig, metal string }
	tries := map[group][]string{}
	left := 0
	for _, c := range b.fold.Tried(mostTried) {
		body := event.ReadBody(c.Body)
		text, ok := triedText(body)
		if !ok || c.Rig == "" {
			left++
			continue
		}
		g := group{rig: c.Rig, metal: body.Text("metal")}
		tries[g] = append(tries[g], text)
	}
	groups := []group{}
	for g := range tries {
		groups = append(groups, g)
	}
	order.Sort(groups, func(x, y group) int {
		return cmp.Or(cmp.Compare(b.rig(x.rig), b.rig(y.rig)), cmp.Compare(x.rig, y.rig), cmp.Compare(x.metal, y.metal))
	})
	t := Table{Columns: []Column{{Key: "rig", Title: "Rig"}, {Key: "metal", Title: "Metal"}, {Key: "factor", Title: "Severs", Number: true}, {Key: "range", Title: "Nine times in ten"}, {Key: "cuts", Title: "Cuts", Number: true}}}
	n := 0
	for _, g := range groups {
		fields := map[string]any{}
		for key, raw := range b.fieldsOf(g.rig) {
			if text := textOf(raw); text != "" {
				fields[key] = text
			}
		}
		a, err := cutting.Calibration.Calculator().CalculateValues(map[string]any{"tries": strings.Join(tries[g], "; "), "rig": fields})
		if err != nil {
			left += len(tries[g])
			continue
		}
		_, factor, _ := a.Told("calibration")
		_, low, _ := a.Told("calibration_low")
		_, high, _ := a.Told("calibration_high")
		n += len(tries[g])
		value, _ := strconv.ParseFloat(factor, 64)
		t.Rows = append(t.Rows, []Cell{{Text: b.rig(g.rig), Href: "/rig/" + g.rig}, {Text: metal(g.metal)}, {Text: factor + " × as fast as reckoned", Value: value, Plain: factor},
			{Text: low + " to " + high + " ×"}, {Text: strconv.Itoa(len(tries[g])), Value: float64(len(tries[g]))}})
	}
	if len(t.Rows) > 0 {
		s.Table = &t
		s.Says = append(s.Says, "By the verdicts on your own cuts. 1 is as reckoned.")
	} else {
		s.Says = append(s.Says, "No cut was judged yet. After a cut say on Cut how it came out.")
	}
	if left > 0 {
		s.Says = append(s.Says, unit.Count(left, "judged cut tells", "judged cuts tell")+" no speed, or what the rig's tips cannot: not counted.")
	}
	s.Actions = []Action{{Label: "Make trial strips", Href: "/sum/trial-strips"}}
	return s, n
}

// triedText writes a judged cut as the calibration reads it; false where it does not
// tell enough.
func triedText(b event.Body) (string, bool) {
	thickness, ok := b.IntIn("thickness", 100, 500_000)
	speed, fast := b.IntIn("speed", 100, 1_000_000)
	amps := string(b.Get("amps"))
	metal, verdict := b.Text("metal"), b.Text("verdict")
	if !ok || !fast || amps == "" || metal == "" || verdict == "" {
		return "", false
	}
	return metal + " " + strconv.FormatInt(thickness, 10) + "µm " + amps + "A " + strconv.FormatFloat(float64(speed)*0.06, 'f', 1, 64) + "mm/min " + verdict, true
}

// metal is a metal as people call it.
func metal(word string) string {
	if word == "" {
		return "metal not told"
	}
	for _, c := range material.Choice().Choices {
		if c.Word == word {
			return c.Label
		}
	}
	return spaced(word)
}

// plural is several of a part.
func plural(word string) string { return slot(word) + "s" }

// faultBars tells how often each cause was found.
func (b *book) faultBars() (Section, int) {
	s := Section{Title: "What faults were"}
	found := b.fold.Now().Found
	keys := order.Keys(found)
	order.Stable(keys, func(x, y string) int { return cmp.Compare(found[y], found[x]) })
	var bars []form.Bar
	n := 0
	for _, key := range keys {
		n += found[key]
		if found[key] > 0 && len(bars) < 10 {
			bars = append(bars, form.Bar{Label: shortly(cause(key)), Value: float64(found[key]), Text: strconv.Itoa(found[key]) + " ×"})
		}
	}
	if n == 0 {
		s.Says = []string{"No fault was confirmed yet. Fix asks what it was."}
		return s, 0
	}
	s.Pictures = []form.Picture{form.Bars("Confirmed faults by cause", "How often each cause was confirmed.", bars)}
	return s, n
}

// shortly is the first of what a name lists: a bar has room for little.
func shortly(name string) string {
	if i := strings.IndexAny(name, ",:"); i > 0 {
		return name[:i]
	}
	return name
}

// cause is a cause as Fix calls it.
func cause(key string) string {
	for _, c := range diagnose.Causes {
		if c.Key == key {
			return c.Label
		}
	}
	return capital(spaced(key))
}

// takes are the times that the crew is told, as people call them.
var takes = map[string]string{
	"piece": "To the next piece", "again": "Struck again in a piece", "row": "To the next row", "part": "Changing parts", "drain": "Draining", "gate": "May I cut?",
	"pause-marking": "Marking out", "pause-moving": "Moving", "pause-parts": "Changing parts, by the pause", "pause-drain": "Draining, by the pause", "pause-air": "Waiting for air", "pause-cooling": "Cooling", "pause-other": "Something else",
}

// timesTable tells medians of the crew's times.
func (b *book) timesTable() Section {
	s := Section{Title: "How long things take"}
	t := Table{Columns: []Column{{Key: "what", Title: "What"}, {Key: "median", Title: "Half of the times within", Unit: "min", Number: true}, {Key: "middle", Title: "Mostly"}, {Key: "times", Title: "Times", Number: true}}}
	for _, one := range b.fold.Times("").Times {
		if one.N == 0 {
			continue
		}
		name := takes[one.What]
		if name == "" {
			name = capital(spaced(strings.TrimPrefix(one.What, "guide-")))
		}
		mostly := "too few to say"
		if one.N >= leastTimes {
			mostly = between(one.Spread)
		}
		t.Rows = append(t.Rows, []Cell{{Text: name}, minutesCell(one.Median), {Text: mostly}, {Text: strconv.Itoa(one.N), Value: float64(one.N)}})
	}
	if len(t.Rows) == 0 {
		s.Says = []string{"Nothing was timed yet: times come of jobs, pauses and guides."}
		return s
	}
	s.Table = &t
	return s
}

// between is the middle half of some times.
func between(s fold.Spread) string {
	if span(s.Low) == span(s.High) {
		return span(s.Low)
	}
	return span(s.Low) + " to " + span(s.High)
}
