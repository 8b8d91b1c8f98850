package book

import (
	"strconv"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/job"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// A quote is told once and then stays as it was told: the paper shows what the journal
// has of it, and no sum is made anew. Only what stands beside it, such as the customer,
// is taken from the job as it is now.

// hotWork is what a customer has to know before there are sparks.
const hotWork = "Plasma cutting is hot work. It begins when the owner of the place has agreed to it. By then the permits are there that the place and the law ask for."

// quoteDays is how long a quote is valid where the crew says nothing.
const quoteDays = 30

// quoted is what was quoted for a job.
type quoted struct {
	at, price, tax, days int64
	number, currency     string
	place, list          string
	lines, with          []string
}

// quotedFor reads what was quoted for a job; false if nothing was.
func quotedFor(view fold.JobView) (quoted, bool) {
	body := event.ReadBody(view.Fields.Fields[event.QuoteField])
	price, ok := body.IntIn("price", 0, mostMoney)
	if !ok {
		return quoted{}, false
	}
	q := quoted{price: price, number: body.Text("number"), currency: body.Text("currency"), place: body.Text("place"), list: body.Text("list"), lines: body.Texts("lines"), with: body.Texts("with")}
	q.at, _ = body.IntIn("at", 0, event.MaxMillis)
	q.tax, _ = body.IntIn("tax", 0, million)
	if q.days, ok = body.IntIn("days", 1, 3650); !ok {
		q.days = quoteDays
	}
	return q, true
}

// changed reports whether the cut list is another than that which was quoted.
func (q quoted) changed(view fold.JobView) bool { return q.list != "" && q.list != listSum(view) }

const listChanged = "The cut list has changed since."

// saysQuote tells a job page what was quoted, "" if nothing was.
func saysQuote(view fold.JobView) string {
	q, ok := quotedFor(view)
	if !ok {
		return ""
	}
	said := "Quoted: " + inCurrency(q.currency, q.price)
	if q.tax > 0 {
		said += " and " + sayRate(q.tax) + " tax"
	}
	if said += "."; q.changed(view) {
		said += " " + listChanged
	}
	return said
}

// quote reports what was quoted for a job, or what will be.
func (b *book) quote() (Report, error) {
	view, err := b.fold.Job(b.ID)
	if err != nil {
		return Report{}, err
	}
	q, ok := quotedFor(view)
	if !ok || b.Query["draft"] != "" {
		return b.quoteDraft(view), nil
	}
	r := b.paper("Quote", view)
	if q.changed(view) {
		r.Cautions = append(r.Cautions, "The cut list has changed since this was quoted.")
	}
	if number := b.number(view); q.number != "" && q.number != number {
		r.Cautions = append(r.Cautions, "It was handed out as "+q.number+".")
	}
	head := &r.Sections[0]
	head.Figures = []Figure{{Label: "Date", Text: b.date(q.at)}, {Label: "Valid until", Text: b.date(q.at + q.days*dayMs)}}
	head.Figures = append(head.Figures, b.forWhom(view, q.place)...)
	tax := taxOn(q.price, q.tax)
	sum := Section{Title: "Price", Figures: []Figure{{Label: "Work", Text: inCurrency(q.currency, q.price)},
		{Label: "Tax, " + sayRate(q.tax), Text: inCurrency(q.currency, tax)}, {Label: "To pay", Text: inCurrency(q.currency, q.price+tax), Main: true}}}
	if q.tax == 0 {
		sum.Figures[1] = Figure{Label: "Tax", Text: "none"}
	}
	r.Sections = append(r.Sections, Section{Title: "What is cut", Says: q.lines})
	if len(q.with) > 0 {
		r.Sections = append(r.Sections, Section{Title: "Included", Says: q.with})
	}
	r.Sections = append(r.Sections, sum, Section{Says: []string{hotWork}, Sign: []string{"Agreed: customer, date", "For " + b.crewName("the crew") + ", date"}},
		Section{Title: "What stands on it", Screen: true, Rows: b.onPaper(view, "crew_name", "number", "customer"), Actions: []Action{
			{Label: "Make another quote", Href: "/book/quote/" + b.ID + "?draft=1" + b.planned("&")}, {Label: "The job", Href: "/job/" + b.ID}}})
	return r, nil
}

// quoteDraft reports what would be quoted now.
func (b *book) quoteDraft(view fold.JobView) Report {
	r := Report{Title: "Quote"}
	ask := Ask{Key: "price", Label: "Price without tax", Count: true}
	if q, ok := quotedFor(view); ok {
		ask.Value = strings.TrimSuffix(inCurrency("", q.price), ".00")
	}
	if price, low, high := b.withMoney("price"), b.withMoney("low"), b.withMoney("high"); price > 0 {
		ask.Value = b.forecast("", price)
		said := "By the plan it costs about " + b.forecast(b.setting("currency"), price)
		if low < high {
			said += ", between " + b.forecast("", low) + " and " + b.forecast("", high)
		}
		r.Says = append(r.Says, said+".", "What you ask for it is yours to say.")
	} else {
		r.Says = append(r.Says, "The plan has no price. Say what you ask for it.")
	}
	r.Actions = []Action{{Label: "Make the quote", Act: "quote", Ask: []Ask{ask}}}
	r.Sections = []Section{
		{Title: "What stands on it", Rows: b.onPaper(view, "crew_name", "number", "customer", "tax", "quote_days", "currency")},
		{Title: "What is cut", Says: b.lines(view)},
		{Title: "Included", Says: b.included(view)},
	}
	return r
}

// forecast prints a price that is no finer known than a plan knows it.
func (b *book) forecast(currency string, price float64) string {
	amount := unit.Say(unit.Money(price), "money", unit.InDoubt)
	return strings.Replace(inCurrency(currency, 0), "0.00", amount, 1)
}

// withMoney is an amount that the address carries, 0 if it is none.
func (b *book) withMoney(key string) float64 {
	v, err := strconv.ParseFloat(b.Query[key], 64)
	if err != nil || !(v > 0 && v < mostMoney/100) {
		return 0
	}
	return v
}

// planned is the plan's price as the address carries it on.
func (b *book) planned(before string) string {
	text := ""
	for _, key := range [...]string{"price", "low", "high"} {
		if v := b.withMoney(key); v > 0 {
			text += before + key + "=" + strconv.FormatFloat(v, 'f', 2, 64)
		}
	}
	return text
}

// makeQuote answers "Make the quote".
func (b *book) makeQuote(in Act) (Done, error) {
	view, err := b.fold.Job(b.ID)
	if err != nil {
		return Done{}, err
	}
	price, err := hundredthsOf("price", in.of("price"))
	if err != nil {
		return Done{}, err
	}
	rate, err := b.taxRate(view)
	if err != nil {
		return Done{}, err
	}
	number, currency := b.number(view), b.setting("currency")
	made := map[string]any{"number": number, "at": b.Now, "price": price, "tax": rate, "days": b.validFor(), "list": listSum(view), "lines": b.lines(view), "with": b.included(view)}
	for key, text := range map[string]string{"currency": currency, "place": b.siteOf(view)} {
		if text != "" {
			made[key] = text
		}
	}
	return Done{Said: "Quoted: " + inCurrency(currency, price) + ".", Href: "/book/quote/" + b.ID,
		Entries: []Entry{{Kind: "job.set", About: b.ID, Body: map[string]any{"number": number, event.QuoteField: made}}}}, nil
}

// taxRate is the rate of tax that holds for a job: its own, else the crew's.
func (b *book) taxRate(view fold.JobView) (int64, error) {
	text := textOf(view.Fields.Fields["tax"])
	if text == "" {
		text = b.setting("tax")
	}
	return rateOf("tax", text)
}

// validFor is for how many days a new quote is valid.
func (b *book) validFor() int64 {
	if days, err := validDays(b.setting("quote_days")); err == nil {
		return days
	}
	return quoteDays
}

func validDays(text string) (int64, error) {
	days, err := strconv.ParseInt(strings.TrimSpace(text), 10, 64)
	if err != nil || days < 1 || days > 365 {
		return 0, problem.New(problem.Range, "value", "a quote is valid for 1 to 365 days", "Enter a whole number of days.")
	}
	return days, nil
}

// lines are the cuts of a job's list, as it was typed.
func (b *book) lines(view fold.JobView) []string {
	var lines []string
	for _, c := range view.Cuts {
		if !c.Removed && len(textsOf(c.Row)) > 0 {
			lines = append(lines, strconv.Itoa(len(lines)+1)+". "+sayRow(textsOf(c.Row)))
		}
	}
	return lines
}

// measures are those of each shape beside a straight cut, as they are told.
var measures = map[string][]string{"rectangle": {"length", "width"}, "triangle": {"length", "width"}, "window": {"length", "width"}, "slot": {"length", "width"},
	"box-tube": {"width", "height"}, "disc": {"diameter"}, "ring": {"diameter", "bore"}, "round-hole": {"diameter"}, "round-tube": {"diameter"}}

// sayRow says a row of a cut list in a few words: "Hinge side · 3 × 400 mm · 6 mm mild steel".
func sayRow(row map[string]string) string {
	of, shape := []string{"length"}, ""
	if sizes := measures[row["shape"]]; sizes != nil {
		of, shape = sizes, strings.ReplaceAll(row["shape"], "-", " ")+" "
		if row["shape"] == "window" {
			shape = "oblong hole "
		}
	}
	var sizes []string
	for _, key := range of {
		if text := apart(row[key]); text != "" {
			sizes = append(sizes, text)
		}
	}
	size := shape + strings.Join(sizes, " × ")
	count := row["count"]
	if count == "" {
		count = "1"
	}
	metal := row["metal"]
	if metal == "" {
		metal = "mild-steel"
	}
	said := strings.TrimSuffix(count+" × "+strings.TrimSpace(size), " × ")
	if row["name"] != "" {
		said = row["name"] + " · " + said
	}
	return said + " · " + strings.TrimSpace(apart(row["thickness"])+" "+spaced(metal))
}

// apart sets a number apart from its unit: 6mm is told as 6 mm.
func apart(text string) string {
	end := strings.LastIndexAny(text, "0123456789½¼¾⅛⅜⅝⅞")
	if end < 0 {
		return text
	}
	end += len(firstRune(text[end:]))
	if rest := strings.TrimSpace(text[end:]); rest != "" {
		return text[:end] + "\u00a0" + rest
	}
	return text
}

func firstRune(text string) string {
	for i := range text {
		if i > 0 {
			return text[:i]
		}
	}
	return text
}

// listSum is a sum of a cut list as it was typed (FNV-1a with 64 bits): whether a list is
// still that which was quoted is told by it.
func listSum(view fold.JobView) string {
	sum := uint64(14695981039346656037)
	add := func(text string) {
		for _, c := range []byte(text + "\x00") {
			sum = (sum ^ uint64(c)) * 1099511628211
		}
	}
	for _, c := range view.Cuts {
		if row := textsOf(c.Row); !c.Removed && len(row) > 0 {
			for _, key := range order.Keys(row) {
				add(key)
				add(row[key])
			}
			add("")
		}
	}
	return strconv.FormatUint(sum, 16)
}

// included is what the price holds beside cutting, as far as it was entered for the job.
func (b *book) included(view fold.JobView) []string {
	in := map[string]any{}
	for _, key := range [...]string{"watch", "material"} {
		if text := textOf(view.Fields.Fields[key]); text != "" {
			in[key] = text
		}
	}
	r := form.NewReader(job.JobPlan.Calculator(), in)
	with := []string{"Cutting tips and electrodes that are used up."}
	if watch := form.Get[unit.Duration](r, "watch"); watch > 0 {
		with = append(with, "Fire watch of "+unit.Say(watch, "min", unit.Doubt{Sort: unit.Entered})+" after the last cut.")
	}
	if form.Get[unit.Money](r, "material") > 0 {
		with = append(with, "Material that is bought for the job.")
	}
	return with
}
