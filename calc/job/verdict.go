package job

import (
	"fmt"
	"math"
	"strings"

	"kerfside/calc/guess"
	"kerfside/calc/margin"
	"kerfside/calc/unit"
)

// sure is the chance from which on a job is said to fit; with less than what is left of it
// to 1 it is said not to.
const sure = 0.95

// tenths says a chance as people do, and no finer.
func tenths(p float64) string {
	switch n := math.Round(p * 10); {
	case p >= 0.97:
		return "almost sure"
	case p <= 0.03:
		return "hardly a chance"
	case n >= 10:
		return "about 19 in 20"
	case n <= 0:
		return "about 1 in 20"
	default:
		return fmt.Sprintf("about %.0f in 10", n)
	}
}

// sayTime says a time that is only about right: "about 8 min", "about 2½ h".
func sayTime(d unit.Duration) string {
	seconds := float64(d)
	switch minutes := seconds / 60; {
	case seconds < 55:
		return fmt.Sprintf("about %.0f s", max(5, 5*math.Round(seconds/5)))
	case minutes < 1.5:
		return "about 1 min"
	case minutes < 12:
		return fmt.Sprintf("about %.0f min", math.Round(minutes))
	case minutes < 103:
		return fmt.Sprintf("about %.0f min", 5*math.Round(minutes/5))
	default:
		whole, half := math.Modf(math.Round(minutes/30) / 2)
		if half > 0 {
			return fmt.Sprintf("about %.0f½ h", whole)
		}
		return fmt.Sprintf("about %.0f h", whole)
	}
}

// capital begins a sentence.
func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// verdict says what is not known first, then what is short, then how the job stands
// against its window.
func (t tell) verdict() string {
	if t.res.Over {
		return "All is cut. The fire watch is left."
	}
	var text []string
	lacking, short := t.lacking(), t.short()
	if lacking != nil {
		text = append(text, "Not known: "+strings.Join(lacking, ", ")+".")
	}
	if out := t.leftOut(); out != "" {
		text = append(text, out)
	}
	text = append(text, short...)
	fits := t.fits()
	switch {
	case short != nil:
		fits[0] = "With that mended, " + fits[0]
	case lacking != nil && strings.HasPrefix(fits[0], doesNotFit):
		fits[0] = "Even at best " + fits[0]
	case lacking != nil:
		fits[0] = "At best " + fits[0]
	default:
		fits[0] = capital(fits[0])
	}
	return strings.Join(append(text, fits...), " ")
}

const doesNotFit = "it does not fit: "

// lacking is what is not known of air, power and duty cycle.
func (t tell) lacking() (list []string) {
	if !t.res.AirKnown && !t.res.Starved {
		list = append(list, "air")
	}
	if t.res.Site.Group("power") == margin.Unknown {
		list = append(list, "power")
	}
	if t.in.Cuts[t.res.SiteFor].Place.Plate == nil {
		list = append(list, "duty cycle")
	}
	return list
}

// leftOut names the rows that are not in the plan.
func (t tell) leftOut() string {
	var names []string
	for i, c := range t.res.Rows {
		if c.Refused != nil {
			names = append(names, t.name(i))
		}
	}
	switch len(names) {
	case 0:
		return ""
	case 1:
		return capital(names[0]) + " cannot be planned and is left out."
	}
	return capital(guess.Joined(names)) + " cannot be planned and are left out."
}

// short is what does not hold for this job, whatever its time.
func (t tell) short() (text []string) {
	switch {
	case t.res.Starved:
		text = append(text, "The compressor and its tank do not serve this torch at all.")
	case t.res.TooHot:
		text = append(text, "It is too hot for the machine to cut.")
	}
	for _, c := range t.res.Site.Checks {
		if v := c.Verdict(); (c.Group == "power" || c.Key == "hose") && (v == margin.Fails || v == margin.Doubt) {
			text = append(text, strings.TrimSuffix(c.Say(t.a.System()), ".")+".")
		}
	}
	return text
}

// fits says when the last cut is done and when the fire watch ends, against the window
// where there is one.
func (t tell) fits() []string {
	res, watch := t.res, t.in.Times.Watch
	if t.in.Window == 0 {
		text := sayTime(res.Work.About) + " to the last cut"
		if watch > 0 {
			text += ", then " + unit.In(watch, "min") + " of fire watch"
		}
		return []string{text + "."}
	}
	by, what, done := "dark", "the last cut is done", res.Spare.About
	if t.in.WithWatch {
		by = "the time is up"
		if what = "all is done"; watch > 0 {
			what += ", the fire watch too,"
		}
	}
	var text []string
	switch {
	case res.Fits >= sure:
		text = append(text, "it fits: "+what+" "+against(done, by)+".")
	case res.Fits <= 1-sure:
		text = append(text, doesNotFit+what+" "+against(done, by)+".")
	case t.in.WithWatch:
		text = append(text, tenths(res.Fits)+" that "+what+" in time.")
	default:
		text = append(text, tenths(res.Fits)+" that "+what+" by dark.")
	}
	if !t.in.WithWatch && watch > 0 {
		text = append(text, "The fire watch ends "+against(t.in.Window-res.Elapsed.About, by)+".")
	}
	return text
}

// against says how long before or after the end of the window.
func against(spare unit.Duration, end string) string {
	switch {
	case math.Abs(float64(spare)) < float64(3*unit.Minute):
		return "just as " + strings.Replace(end, "dark", "it gets dark", 1)
	case spare > 0:
		return sayTime(spare) + " before " + end
	}
	return sayTime(-spare) + " after " + end
}
