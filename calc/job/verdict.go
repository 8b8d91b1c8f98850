package job

import (
	"fmt"
	"math"
	"strings"

	"kerfside/calc/cutting"
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
		if whole >= 5 {
			return "about " + unit.Figures(math.Round(minutes/60), 2) + " h"
		}
		if half > 0 {
			return fmt.Sprintf("about %.0f½ h", whole)
		}
		return fmt.Sprintf("about %.0f h", whole)
	}
}

// capital begins a sentence.
func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// SayRange says a time that lies anywhere between two, rounded outwards: "about 35 to 90 min".
func SayRange(low, high unit.Duration) string {
	q := high.Quantity()
	name := q.UnitFor(float64(low+high)/2, unit.Metric)
	if low < high/6 {
		_, most, _ := strings.Cut(q.Spanning(0, float64(high), name, unit.Doubt{}), " to ")
		return "up to about " + most
	}
	return q.Spanning(float64(low), float64(high), name, unit.Doubt{})
}

// verdict says what is not known first, then what is short, then how the job stands
// against its window.
func (t tell) verdict() string {
	if t.res.Over {
		left := "All is cut. The fire watch is left"
		if ends := t.watchEnds(); ends != nil {
			left += ": it" + strings.TrimPrefix(ends[0], "The fire watch")
		}
		return strings.TrimSuffix(left, ".") + "."
	}
	var text []string
	lacking, short, thick := t.lacking(), t.short(), t.thick()
	if lacking != nil {
		text = append(text, "Not known: "+strings.Join(lacking, ", ")+".")
	}
	subject := "it"
	if out := t.leftOut(); out != "" {
		text, subject = append(text, out), "the rest"
	}
	text = append(text, short...)
	if thick != "" {
		text = append(text, thick)
	}
	fits := t.fits(subject)
	switch {
	case short != nil:
		fits[0] = "With that mended, " + fits[0]
	case thick != "":
		fits[0] = "If that cuts, " + fits[0]
	case lacking != nil && t.in.Window > 0 && t.res.Fits <= 1-sure:
		fits[0] = "Even at best " + fits[0]
	case lacking != nil:
		fits[0] = "At best " + fits[0]
	default:
		fits[0] = capital(fits[0])
	}
	return strings.Join(append(text, fits...), " ")
}

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
	switch names, one := t.those(func(c Row) bool { return c.Refused != nil }); {
	case names == "":
		return ""
	case one:
		return names + " is left out: its row says why."
	default:
		return names + " are left out: their rows say why."
	}
}

// thick names the rows that are planned, but are more than the rig is likely to sever.
func (t tell) thick() string {
	names, one := t.those(func(c Row) bool { return c.Refused == nil && c.Plan.Speed > 0 && c.Plan.Grade == cutting.WillNotCut })
	switch {
	case names == "":
		return ""
	case one:
		return names + " is likely too thick for this rig: try it on scrap first."
	}
	return names + " are likely too thick for this rig: try them on scrap first."
}

// those names the rows for which is holds, and tells whether it is one.
func (t tell) those(is func(Row) bool) (names string, one bool) {
	var list, numbers []string
	for i, c := range t.res.Rows {
		if is(c) {
			list, numbers = append(list, t.name(i)), append(numbers, unit.Figures(float64(i+1), 3))
			if t.in.Cuts[i].Name != "" {
				numbers = append(numbers, "") // not all of them go by their number
			}
		}
	}
	switch {
	case len(list) == 0:
		return "", false
	case len(list) > 1 && len(numbers) == len(list):
		return "Cuts " + guess.Joined(numbers), false
	}
	return capital(guess.Joined(list)), len(list) == 1
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
// where there is one. No time is told finer than it is known: they are ranges, in which 9
// in 10 lie.
func (t tell) fits(subject string) []string {
	res, watch := t.res, t.in.Times.Watch
	if t.in.Window == 0 {
		text := SayRange(res.Work.Low, res.Work.High) + " to the last cut"
		if watch > 0 {
			text += ", then " + unit.In(watch, "min") + " of fire watch"
		}
		return []string{text + "."}
	}
	what := "the last cut is done"
	if t.in.WithWatch {
		if what = "all is done"; watch > 0 {
			what += ", the fire watch too,"
		}
	}
	var text []string
	switch {
	case res.Fits >= sure:
		text = append(text, subject+" fits: "+what+" "+t.before(max(0, res.Spare.Low), res.Spare.High)+".")
	case res.Fits <= 1-sure:
		text = append(text, subject+" does not fit: "+what+" "+t.after(max(0, -res.Spare.High), -res.Spare.Low)+".")
	case t.in.WithWatch:
		text = append(text, tenths(res.Fits)+" that "+what+" in time.")
	default:
		text = append(text, tenths(res.Fits)+" that "+what+" by dark.")
	}
	if t.in.WithWatch {
		return text
	}
	return append(text, t.watchEnds()...)
}

// watchEnds says when the fire watch ends against the end of the light.
func (t tell) watchEnds() []string {
	if t.in.Window == 0 || t.in.Times.Watch == 0 {
		return nil
	}
	low, high := t.res.Window-t.res.Elapsed.High, t.res.Window-t.res.Elapsed.Low
	switch {
	case low >= 0:
		return []string{"The fire watch ends " + t.before(low, high) + "."}
	case high <= 0:
		return []string{"The fire watch ends " + t.after(-high, -low) + "."}
	}
	return []string{"The fire watch may end " + t.after(0, -low) + "."}
}

// before and after say how far from the end of the window something is.
func (t tell) before(low, high unit.Duration) string { return t.off(low, high, "before") }

func (t tell) after(low, high unit.Duration) string { return t.off(low, high, "after") }

func (t tell) off(low, high unit.Duration, side string) string {
	end := "dark"
	if t.in.WithWatch {
		end = "the time is up"
	}
	if high < 3*unit.Minute {
		return "just " + side + " " + end
	}
	return SayRange(low, high) + " " + side + " " + end
}
