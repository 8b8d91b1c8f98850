package wear

import (
	"fmt"
	"math"

	"kerfside/calc/form"
	"kerfside/calc/life"
	"kerfside/calc/unit"
)

// outlookResults are the results of how wear goes on; what is the wear at the end of
// the job, such as "Pit at its end".
func outlookResults(what form.Result) []form.Result {
	return []form.Result{
		{Key: "minutes_left", Label: "Arc time left", Gives: form.Number[unit.Duration]("min", "min").InDoubt(), Main: true},
		{Key: "minutes_low", Label: "At least", Gives: form.Number[unit.Duration]("min", "min").InDoubt()},
		{Key: "minutes_high", Label: "At most", Gives: form.Number[unit.Duration]("min", "min").InDoubt()},
		{Key: "starts_left", Label: "Starts left", Gives: form.Factor().InDoubt(), Main: true},
		{Key: "job", Label: "The job ahead", Gives: form.Text(), Main: true},
		what,
	}
}

// putOutlook tells it; the wear at the end of the job is the caller's.
func putOutlook(a *form.Answer, o Outlook) {
	minute := func(m float64) unit.Duration { return unit.Duration(m) * unit.Minute }
	ranged := o.Ranged || o.ByReading
	finite := ranged && !math.IsInf(o.MinutesHigh, 1)
	if o.MinutesLeft > 0 || o.StartsLeft == 0 {
		switch {
		case finite:
			form.PutBetween(a, "minutes_left", minute(o.MinutesLow), minute(o.MinutesLeft), minute(o.MinutesHigh))
		case ranged:
			form.PutSaid(a, "minutes_left", minute(o.MinutesLeft), "at least "+unit.Figures(rounded(o.MinutesLow, 0.5, math.Floor), 2)+" min")
		default:
			form.PutSaid(a, "minutes_left", minute(o.MinutesLeft), Some(o.MinutesLeft)+" min")
		}
	}
	if !o.Guessed && (o.StartsLeft > 0 || o.MinutesLeft == 0) {
		words := Some(o.StartsLeft)
		if finite && o.MinutesLeft > 0 { // as far off as the minutes
			low, high := o.StartsLeft*o.MinutesLow/o.MinutesLeft, o.StartsLeft*o.MinutesHigh/o.MinutesLeft
			words = "about " + unit.Figures(rounded(low, 0.5, math.Floor), 2) + " to " + unit.Figures(rounded(high, 0.5, math.Ceil), 2)
		}
		form.PutSaid(a, "starts_left", unit.Ratio(math.Floor(o.StartsLeft)), words)
	}
	if ranged {
		form.Put(a, "minutes_low", minute(o.MinutesLow))
	}
	if finite {
		form.Put(a, "minutes_high", minute(o.MinutesHigh))
	}
	if o.JobVerdict != "" {
		a.PutWord("job", o.JobVerdict)
	}
}

// Some says a figure of which no range is known: to its first digit.
func Some(n float64) string { return "some " + unit.Figures(rounded(n, 1, math.Round), 2) }

// rounded rounds to whole numbers, and from 10 on to so much of the first digit's step.
func rounded(n, of float64, round func(float64) float64) float64 {
	step := 1.0
	if n >= 10 {
		step = of * math.Pow10(int(math.Floor(math.Log10(n))))
	}
	return round(n/step) * step
}

// plotted is how an outlook is drawn.
type plotted struct {
	title, wear, unit string // "The pit from now on", "pit", "mm"
	scale             func(float64) float64
	limit             float64
	so, job           life.Use
}

// draw plots the wear from now on, with its range.
func (p plotted) draw(a *form.Answer, o Outlook) {
	x, y := form.Axis{Label: "arc from now", Unit: "min"}, form.Axis{Label: p.wear, Unit: p.unit}
	job := p.job.Minutes
	if job == 0 && (p.job.Starts > 0 || p.so.Minutes == 0) {
		x, job = form.Axis{Label: "from now", Unit: "starts"}, p.job.Starts
	}
	at := func(more, wear float64) form.Point { return form.Point{more, p.scale(wear)} }
	var line, band []form.Point
	for _, w := range o.Path {
		line, band = append(line, at(w.More, w.At)), append(band, at(w.More, w.High))
	}
	for i := range o.Path {
		w := o.Path[len(o.Path)-1-i]
		band = append(band, at(w.More, w.Low))
	}
	end := o.Path[len(o.Path)-1].More
	text := "The " + p.wear + " grows to its limit at this mix of starts and minutes."
	series := []form.Series{{Name: p.wear, Points: line},
		{Name: "change", Dashed: true, Points: []form.Point{at(0, p.limit), at(end, p.limit)}}}
	if o.Ranged {
		series = append([]form.Series{{Name: "range", Band: true, Points: band}}, series...)
		text += " The shaded range is that of one reading."
		if o.Guessed {
			text = "No reading tells yet: the shaded range is a first guess of such parts."
		}
	}
	if job > 0 && job < end {
		series = append(series, form.Series{Name: "job", Dashed: true, Points: []form.Point{at(job, 0), at(job, o.AtJobEnd)}})
	}
	a.DrawPlot(form.Plot{Title: p.title, X: x, Y: y, Series: series, Text: text})
}

// sayOutlook says what a forecast rests on too little for. part is "electrode" or "tip".
func sayOutlook(a *form.Answer, w *WearFit, o Outlook, part string) {
	for _, text := range OutlookCautions(w, o, part) {
		a.Caution("%s", text)
	}
}

// OutlookCautions are what a forecast rests on too little for. part is "electrode" or "tip".
func OutlookCautions(w *WearFit, o Outlook, part string) (said []string) {
	caution := func(format string, args ...any) { said = append(said, fmt.Sprintf(format, args...)) }
	switch {
	case o.Guessed && w == nil:
		caution("None of your readings tells yet: the time left is a first guess. Read each %s that you take out.", part)
		return said
	case o.Guessed:
		caution("Your readings do not tell this mix of starts and minutes: the time left is a first guess.")
	}
	if w == nil || (o.Ranged || o.ByReading) && !o.Guessed {
		return said
	}
	switch {
	case o.Outside:
		caution("The forecast reaches further than any of your readings: no range can be given.")
	case !w.Told && w.Count > 1:
		caution("Your readings cannot tell starts from minutes. Read one %s from long cuts and one from short ones.", part)
	case w.Free < 1:
		caution("Too few readings for a range: %d so far. Read every %s that you take out.", w.Count, part)
	case o.Forecast && !o.Guessed:
		caution("One part of the wear came out at nothing, so no range holds. More readings will tell.")
	}
	return said
}
