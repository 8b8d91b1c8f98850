package job

import (
	"cmp"
	"slices"

	"kerfside/calc/cutting"
	"kerfside/calc/life"
	"kerfside/calc/money"
	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/site"
	"kerfside/calc/unit"
)

// Row is what becomes of a row of the cut list.
type Row struct {
	Plan    cutting.PlanResult
	Arc     Band[unit.Duration]
	Wait    Band[unit.Duration] // for air and cooling
	Elapsed Band[unit.Duration] // from the end of the row before to its last arc off
	Starts  int
	Split   int           // of these, since air or duty cycle do not serve a run
	Longest unit.Duration // of arc in one go
	Refused error         // why it is not in the plan; nil if it is
}

// Result is a job, computed.
type Result struct {
	Rows    []Row
	Work    Band[unit.Duration] // to the last arc off
	Elapsed Band[unit.Duration] // and the fire watch
	Arc     Band[unit.Duration]
	Spans   []Span
	Plan    Outcome

	Site     site.Result // at the row with the largest current
	SiteFor  int         // that row
	Over     bool        // all is cut
	AirKnown bool
	Starved  bool    // the tank serves no arc at all, so that air is not reckoned with
	TooHot   bool    // the machine may burn no arc at all in this heat; likewise
	Fits     float64 // chance that the window is long enough; 1 if there is none
	Spare    Band[unit.Duration]
	Window   unit.Duration // that is left; below 0 once it is over

	Binds    []Bind
	Remedies []Remedy
	Need     life.Need
	Worn     bool // Need was reckoned
	Use      life.Use

	Length unit.Length // of all cuts
	Cost   money.JobResult
	Total  Band[unit.Money]
	Price  Band[unit.Money]
	Fuel   Band[unit.Volume]
}

// Bind is something that keeps the job from being over sooner.
type Bind struct {
	Key   string        // air, duty, marking, moving, parts, drain
	Saves unit.Duration // if it took no time
}

// samples is how many times a job is played for its ranges: a power of two.
const samples = 128

// Compute plays a job through, once as planned and many times in doubt; see the
// package's comment. It refuses a job of which no row can be cut.
func Compute(in Input) (Result, error) {
	stints, refused := in.plans()
	in = in.ready(mostly(stints))
	for _, s := range stints {
		if full := s.cut.Place.Drain(s.plan); full > 0 && in.Every > 0 {
			in.Every = min(in.Every, full)
		}
	}
	res := Result{Rows: make([]Row, len(in.Cuts)), Fits: 1}
	for i, err := range refused {
		res.Rows[i].Refused = err
	}
	if len(in.Done) > 0 {
		in.Learnt = in.learnt(stints)
		in = in.left()
		stints = in.remaining(stints)
		if len(stints) == 0 && len(in.Cuts) > 0 {
			return in.over(res), nil
		}
	}
	if len(stints) == 0 {
		if len(refused) == 0 {
			return Result{}, problem.New(problem.Missing, "cuts", "there is nothing to cut yet", "Enter the first cut: metal, thickness, length.")
		}
		return res, refused[0]
	}
	p := in.play(stints, middle())
	if err := p.check(); err != nil {
		return Result{}, err
	}
	p.heard = func(s Span) { res.Spans = append(res.Spans, s) }
	res.Plan = p.do()
	p.heard = nil
	if res.Plan.Stuck {
		return Result{}, problem.New(problem.Refused, "cuts", "air or duty cycle break this off so often that no plan is of use", "Cut less, or bring more air. Site check says what is short.")
	}
	res.Window = in.Window
	in.sample(&res, stints)
	in.site(&res, stints)
	res.Binds = p.binds(res.Plan)
	res.Remedies = in.remedies(p, res.Plan, stints)
	in.wear(&res)
	return res, in.price(&res, stints)
}

// The longest job that is played.
const (
	mostRuns = 5000
	mostArc  = 24 * unit.Hour
)

// check refuses what is more than a job.
func (p play) check() error {
	runs, arc := 0, unit.Duration(0)
	for _, r := range p.rows {
		runs += r.pieces * r.runs
		arc += r.run * unit.Duration(r.pieces*r.runs)
	}
	if runs > mostRuns || arc > mostArc {
		return problem.Newf(problem.Range, "cuts", "%s of arc in %s are more than one job", unit.In(arc, "h"), unit.Count(runs, "start", "starts")).
			WithHint("This plays through %d starts and %s of arc at most. Plan it in parts.", mostRuns, unit.In(mostArc, "h"))
	}
	return nil
}

// remaining are the stints of which pieces are left.
func (in Input) remaining(stints []stint) (left []stint) {
	for _, s := range stints {
		if s.cut = in.Cuts[s.index]; s.cut.Count > 0 {
			left = append(left, s)
		}
	}
	return left
}

// over is a job of which all is cut: the watch is left.
func (in Input) over(res Result) Result {
	watch := in.Times.Watch
	res.Window = in.Window
	res.Over, res.Elapsed = true, Band[unit.Duration]{Low: watch, About: watch, High: watch}
	res.Plan.Totals[Watch], res.Plan.Elapsed = watch, watch
	return res
}

// mostly is what most of the arc works on.
func mostly(stints []stint) life.Seen {
	of := func(word func(stint) string) (most string) {
		arc := map[string]unit.Duration{}
		for _, s := range stints {
			w := word(s)
			if arc[w] += s.run(middle()) * unit.Duration(s.cut.Runs*s.cut.Count); arc[w] > arc[most] {
				most = w
			}
		}
		return most
	}
	return life.Seen{
		Metal:   of(func(s stint) string { return string(s.cut.Place.Plan.Metal) }),
		Surface: of(func(s stint) string { return s.cut.Place.Plan.Surface }),
		Position: of(func(s stint) string {
			if s.cut.Place.Plan.Overhead {
				return "overhead"
			}
			return ""
		}),
		Start: of(func(s stint) string {
			if s.cut.Place.Plan.Pierce && s.cut.Runs > 1 {
				return "pierce"
			}
			return "edge"
		}),
	}
}

// ready makes of the parts' models, on such work, what a play draws from.
func (in Input) ready(on life.Seen) Input {
	for i := range in.Parts {
		if w := &in.Parts[i]; w.Model != nil {
			w.Model = w.Model.On(on)
			w.Fresh = w.Model.Fitted(life.Use{})
			if w.Fitted = w.Fresh; w.Age != (life.Use{}) {
				w.Fitted = w.Model.Fitted(w.Age)
			}
		}
	}
	return in
}

// sample plays the job in all draws.
func (in Input) sample(res *Result, stints []stint) {
	n := len(stints)
	var work, elapsed, arc [samples]float64
	arcs, waits, ends := make([][samples]float64, n), make([][samples]float64, n), make([][samples]float64, n)
	fits := 0
	rows, o := make([]row, n), Outcome{}
	for k, d := range draws() {
		p := in.playOn(rows, stints, &d)
		p.doInto(&o)
		if o.Stuck { // with so much less air no arc is served at all
			d.u[ofAir], d.z[ofAir] = 0.5, 0
			p = in.playOn(rows, stints, &d)
			p.doInto(&o)
		}
		work[k], elapsed[k], arc[k] = float64(o.Work), float64(o.Elapsed), float64(o.Totals[Cutting])
		for i := range n {
			arcs[i][k], waits[i][k], ends[i][k] = float64(o.Arc[i]), float64(o.Wait[i]), float64(o.Spent[i])
		}
		if in.took(&o) <= in.Window {
			fits++
		}
	}
	about := res.Plan
	res.Work, res.Elapsed, res.Arc = bandOf(about.Work, work[:]), bandOf(about.Elapsed, elapsed[:]), bandOf(about.Totals[Cutting], arc[:])
	for i := range stints {
		s := &stints[i]
		res.Rows[s.index] = Row{Plan: s.plan, Arc: bandOf(about.Arc[i], arcs[i][:]), Wait: bandOf(about.Wait[i], waits[i][:]), Elapsed: bandOf(about.Spent[i], ends[i][:]),
			Starts: about.Starts[i], Split: about.Split[i], Longest: about.Longest[i]}
	}
	if in.Window != 0 {
		res.Fits = float64(fits) / samples
		took := res.Work
		if in.WithWatch {
			took = res.Elapsed
		}
		res.Spare = Band[unit.Duration]{Low: in.Window - took.High, About: in.Window - took.About, High: in.Window - took.Low}
	}
}

// took is what counts against the window.
func (in Input) took(o *Outcome) unit.Duration {
	if in.WithWatch {
		return o.Elapsed
	}
	return o.Work
}

// bandOf is the range of samples about a figure, which it always holds.
func bandOf(about unit.Duration, values []float64) Band[unit.Duration] {
	sortEnds(values, len(values)/20+2) // as far as quantile looks
	return Band[unit.Duration]{Low: min(unit.Duration(quantile(values, 0.05)), about), About: about, High: max(unit.Duration(quantile(values, 0.95)), about)}
}

// site looks at air and power of the row with the largest current, cut as the plan
// has it: so much of the time, and as long in one go.
func (in Input) site(res *Result, stints []stint) {
	most := stints[0]
	for _, s := range stints {
		res.AirKnown, res.Starved, res.TooHot = s.aired, res.Starved || s.starved, res.TooHot || s.hot
		if s.plan.Arc.Current > most.plan.Arc.Current {
			most = s
		}
	}
	at := most.cut.Place
	at.Share = unit.Ratio(min(1, max(0.01, float64(res.Plan.Totals[Cutting]/max(res.Plan.Work, 1)))))
	at.Longest = most.cut.Length / unit.Length(max(1, most.cut.Runs))
	with := at.With
	at.With = func(texts map[string]string) (site.Input, error) {
		other, err := with(texts)
		other.Plan, other.Share, other.Longest = at.Plan, at.Share, at.Longest
		return other, err
	}
	res.SiteFor = most.index
	res.Site, _ = site.Compute(at) // its plan was made before
}

// binds plays the job again without each of its limits.
func (p play) binds(was Outcome) []Bind {
	var list []Bind
	var o Outcome
	without := func(key string, change func(*play)) {
		q := p
		change(&q)
		q.doInto(&o)
		if saves := was.Work - o.Work; saves > 0 {
			list = append(list, Bind{Key: key, Saves: saves})
		}
	}
	without("air", func(q *play) { q.air.Known = false })
	without("duty", func(q *play) {
		q.rows = slices.Clone(q.rows)
		for i := range q.rows {
			q.rows[i].heat = 0
		}
		q.least = 1
	})
	without("marking", func(q *play) { q.times.Mark = 0 })
	without("moving", func(q *play) { q.times.Move, q.times.Row, q.times.Reset = 0, 0, 0 })
	without("parts", func(q *play) { q.times.Change = 0 })
	without("drain", func(q *play) { q.times.Drain = 0 })
	order.Stable(list, func(a, b Bind) int { return cmp.Compare(b.Saves, a.Saves) })
	return list
}

// wear reckons whether the parts last, and what to carry.
func (in Input) wear(res *Result) {
	if in.Parts[0].Model == nil || in.Parts[1].Model == nil {
		return
	}
	for _, n := range res.Plan.Starts {
		res.Use.Starts += float64(n)
	}
	res.Use.Minutes = float64(res.Plan.Totals[Cutting] / unit.Minute)
	side := func(w Wearing) life.Wearing {
		return life.Wearing{Model: w.Model, Fitted: w.Fitted, Age: w.Age, Job: res.Use, Stock: w.Stock}
	}
	need, err := life.ComputeNeed(life.NeedInput{Tip: side(in.Parts[0]), Electrode: side(in.Parts[1]), Level: in.Level, Pair: true})
	if res.Need, res.Worn = need, err == nil; err != nil { // of how many, nothing can be said
		lasts := func(w Wearing) life.Chance { return w.Model.Lasts(w.Age, res.Use) }
		res.Need.TipLasts, res.Need.ElectrodeLasts = lasts(in.Parts[0]), lasts(in.Parts[1])
	}
}
