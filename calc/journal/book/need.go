package book

import (
	"encoding/json"
	"strconv"

	"kerfside/calc/form"
	"kerfside/calc/job"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/life"
	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// ahead is what the jobs that are not done ask of one truck.
type ahead struct {
	rig   string
	jobs  []string // their names
	use   life.Use
	cause []string // why a job or some of its rows are not reckoned
	old   int      // jobs with pieces left that nobody has touched for idleDays
}

// idleDays is after how many days without an entry a job is taken for given up: not every
// piece that is cut is told.
const idleDays = 60

// jobsAhead are the jobs with pieces left, by truck. A job that names no rig is the only
// one's, or that of the rig in use.
func (b *book) jobsAhead() []ahead {
	by := map[string]*ahead{}
	for _, j := range b.fold.Jobs("", mostJobs).Jobs {
		if j.Done >= j.Pieces {
			continue
		}
		rig := b.rigOfJob(j.Rig)
		a := by[rig]
		if a == nil {
			a = &ahead{rig: rig}
			by[rig] = a
		}
		if j.At < b.Now-idleDays*dayMs {
			a.old++
			continue
		}
		v, err := b.fold.Job(j.ID)
		if err != nil {
			continue
		}
		name := j.Name
		if name == "" {
			name = "without a name"
		}
		use, out, err := job.Ahead(b.valuesOf(v, rig))
		switch {
		case err != nil:
			a.cause = append(a.cause, "Not reckoned: job "+name+": "+problem.From(err).Msg+".")
			continue
		case out > 0:
			a.cause = append(a.cause, "Not reckoned: "+unit.Count(out, "cut", "cuts")+" of job "+name+", which its plan leaves out.")
		}
		a.jobs = append(a.jobs, name)
		a.use.Minutes += use.Minutes
		a.use.Starts += use.Starts
	}
	var all []ahead
	for _, rig := range order.Keys(by) {
		all = append(all, *by[rig])
	}
	return all
}

// mostJobs is how many jobs are looked at, those that were touched last.
const mostJobs = 50

func (b *book) rigOfJob(rig string) string {
	if thing, ok := b.thing(rig); ok {
		return thing.ID
	}
	if ids := b.rigIDs(); len(ids) == 1 {
		return ids[0]
	}
	thing, _ := b.thing(b.Rig)
	return thing.ID
}

// valuesOf are what calculator job-plan is asked of the pieces of a job that are left.
func (b *book) valuesOf(v fold.JobView, rig string) map[string]any {
	torch, _ := b.thing(rig)
	values := map[string]any{"rig": kept(torch), "units": string(b.Units)}
	for _, t := range b.known().Sites {
		if t.ID == v.Site {
			values["site"] = kept(t)
		}
	}
	for _, f := range job.JobPlan.Calculator().Fields {
		if text := textOf(v.Fields.Fields[f.Key]); text != "" && f.Key != "cuts" && f.Key != "done" {
			values[f.Key] = text
		}
	}
	rows := []map[string]string{}
	for _, c := range v.Cuts {
		row := typedRow(c.Row)
		if c.Left == 0 || row == nil {
			continue
		}
		row["count"] = strconv.FormatInt(c.Left, 10)
		rows = append(rows, row)
	}
	text, err := json.Marshal(rows)
	if err == nil {
		values["cuts"] = string(text)
	}
	return values
}

// kept is what is kept of a rig or a site, as calculators take it.
func kept(t fold.Thing) map[string]any {
	fields := map[string]any{}
	for key, raw := range t.Fields.Fields {
		var v any
		if json.Unmarshal(raw, &v) != nil {
			continue
		}
		switch v.(type) {
		case string, float64, bool:
			fields[key] = v
		}
	}
	return fields
}

// listedLives is how many lives of a slot the needs of a list rest on, the newest: more
// tell little more, and a list is made for all trucks at once. For the same reason it does
// not look what each part worked on, as part-life and spares do.
const listedLives = 40

// lessons are what the crew's parts that came out tell of all that follow, and what the
// ones in each rig have done, as values of spares.
func (b *book) lessons() (learnt *life.SparesLessons, inTorch map[string]map[string]any, err error) {
	values, inTorch := map[string]any{}, map[string]map[string]any{}
	all := b.fold.NewestUses(listedLives+mostRigs, order.Keys(livesKeys)...)
	for slot, key := range livesKeys {
		var rows []map[string]string
		fields := life.LivesField(key, slot).Takes.List.Row.Fields
		for _, l := range all[slot] {
			switch rig := l.Rigs[len(l.Rigs)-1]; {
			case l.To == 0:
				if inTorch[rig] == nil {
					inTorch[rig] = map[string]any{}
				}
				if slot == "tip" || slot == "electrode" {
					inTorch[rig][slot+"_minutes"], inTorch[rig][slot+"_starts"] = minutes(l.Ms), strconv.FormatInt(l.Starts, 10)
				}
			case l.Ms+l.Starts > 0 && len(rows) < listedLives:
				rows = append(rows, rowOf(l, fields))
			}
		}
		if rows != nil {
			text, err := json.Marshal(rows)
			if err != nil {
				return nil, nil, err
			}
			values[key] = string(text)
		}
	}
	return life.LearnSpares(values), inTorch, nil
}

// usualDay is the median arc time and starts of a truck's last sessions, and of how many.
func (b *book) usualDay(rig string) (use life.Use, n int) {
	var ms, starts []int64
	for _, s := range b.fold.Book("", lastSessions*10).Sessions {
		if s.Rig == rig && s.Ms > 0 && len(ms) < lastSessions {
			ms, starts = append(ms, s.Ms), append(starts, s.Starts)
		}
	}
	if len(ms) < leastTimes {
		return life.Use{}, len(ms)
	}
	return life.Use{Minutes: float64(median(ms)) / minuteMs, Starts: float64(median(starts))}, len(ms)
}

// lastSessions is how many sessions of a truck a usual day is taken from.
const lastSessions = 20

// median of a list that is not empty; of two in the middle the larger.
func median(list []int64) int64 {
	order.Sort(list, func(x, y int64) int { return int(min(max(x-y, -1), 1)) })
	return list[len(list)/2]
}

// need is what a truck wants of the parts that wear.
type need struct {
	ahead
	told    *form.Answer // of spares for the jobs ahead; nil if there are none or it says nothing
	why     string       // it says nothing
	buy     []int        // for the jobs, by spare slot
	day     []int        // to carry on a usual day, by spare slot
	dayFrom int          // sessions that the day is taken from; 0 if too few
	dayUse  life.Use
	have    []int // spares on the truck
	rated   string
}

// needs are what each truck wants that has a job ahead or a stock line.
func (b *book) needs(lines map[string][]*fold.Stock) ([]need, error) {
	learnt, inTorch, err := b.lessons()
	if err != nil {
		return nil, err
	}
	jobs := map[string]ahead{}
	for _, a := range b.jobsAhead() {
		jobs[a.rig] = a
	}
	var all []need
	for _, rig := range b.rigIDs() {
		a, ok := jobs[rig]
		if !ok && len(lines[rig]) == 0 {
			continue
		}
		a.rig = rig
		n := need{ahead: a, have: make([]int, len(spareSlots)), rated: b.ratingInUse(rig)}
		for i, slot := range spareSlots {
			for _, l := range lines[rig] {
				if l.Slot == slot && n.fits(l) {
					n.have[i] += int(max(l.N, 0))
				}
			}
		}
		values := map[string]any{"units": string(b.Units)}
		for key, v := range inTorch[rig] {
			values[key] = v
		}
		for i, slot := range spareSlots {
			values[slot+"_stock"] = strconv.Itoa(min(n.have[i], 10_000))
		}
		if len(a.jobs) > 0 {
			values["job_minutes"], values["job_starts"] = strconv.FormatFloat(a.use.Minutes, 'f', 2, 64)+"min", strconv.Itoa(int(a.use.Starts))
			told, of, err := learnt.Need(values)
			if err != nil {
				n.why = problem.From(err).Msg
			} else {
				n.told, n.buy = told, of.Buy.All()
			}
		}
		n.day = []int{1, 1, 1, 1}
		if use, sessions := b.usualDay(rig); sessions >= leastTimes {
			n.dayFrom, n.dayUse, n.day = sessions, use, learnt.Standing(use, usualLevel)
		}
		all = append(all, n)
	}
	return all, nil
}

// usualLevel is in how many days the lowest count is to be enough, for each kind of part.
const usualLevel = 0.95

// spareSlots are the slots of which a need is told.
var spareSlots = life.SparesSlots()

// fits reports whether a line's pieces serve the torch as it is set up: of tips only
// those of its current do, where both are known.
func (n *need) fits(l *fold.Stock) bool {
	rating := plainRating(l.Rating)
	return l.Slot != "tip" || n.rated == "" || rating == "" || rating == n.rated
}

// ratingInUse is the current of the tip in a rig's torch, as ratings are compared.
func (b *book) ratingInUse(rig string) string {
	if amps, ok := event.ReadInt(b.fieldsOf(rig)["fitted"]); ok {
		return strconv.FormatInt(amps, 10) + "a"
	}
	return plainRating(textOf(b.fieldsOf(rig)["fitted"]))
}

// needSections tell what the jobs ahead of a truck want: the answer, then what to mind.
func (b *book) needSections(n *need) []Section {
	s := Section{Title: "Jobs ahead, " + b.rig(n.rig)}
	mind := Section{Cautions: n.cause}
	if len(n.jobs) > 0 {
		s.Says = []string{capital(jobNames(n.jobs)) + ": some " + sayMinutes(n.use.Minutes) + " of arc and " + starts(int64(n.use.Starts)) + " left."}
	}
	if n.old > 0 {
		s.Says = append(s.Says, unit.Count(n.old, "job is", "jobs are")+" not counted: pieces are left, and nothing was entered for "+strconv.Itoa(idleDays)+" days.")
	}
	switch {
	case n.why != "":
		mind.Cautions = append(mind.Cautions, "What that wants cannot be told: "+n.why+".")
	case n.told != nil:
		if n.rated != "" {
			s.Says = append(s.Says, "Of tips, those of "+n.ratedSays()+" are counted: that is in the torch.")
		}
		for _, key := range []string{"with_stock", "buy", "carry", "short", "rests_on"} {
			if label, text, ok := n.told.Told(key); ok {
				s.Figures = append(s.Figures, Figure{Label: label, Text: text, Main: key == "with_stock"})
			}
		}
		mind.Cautions = append(mind.Cautions, n.told.Cautions()...)
	}
	if len(mind.Cautions) == 0 {
		return []Section{s}
	}
	return []Section{s, mind}
}

// ratedSays is the current in use: 45 A.
func (n *need) ratedSays() string {
	amps, _ := strconv.ParseFloat(trimA(n.rated), 64)
	return unit.Say(unit.Current(amps), "A", unit.Doubt{})
}

func trimA(text string) string {
	if len(text) > 0 && text[len(text)-1] == 'a' {
		return text[:len(text)-1]
	}
	return text
}

func sayMinutes(m float64) string {
	return unit.Say(unit.Duration(m)*unit.Minute, "min", unit.InDoubt)
}

// jobNames names the jobs: the job Gate; 3 jobs.
func jobNames(names []string) string {
	if len(names) == 1 {
		return "the job " + names[0]
	}
	return strconv.Itoa(len(names)) + " jobs"
}
