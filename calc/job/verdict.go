package job

import (
	"fmt"
	"math"
	"strings"

	"kerfside/calc/margin"
	"kerfside/calc/unit"
)

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

// sayTime says a time that is only about right: in steps of a fifth of an hour at most.
func sayTime(d unit.Duration) string {
	minutes := float64(d / unit.Minute)
	switch {
	case minutes < 1.5:
		return "about a minute"
	case minutes < 12:
		return fmt.Sprintf("about %.0f min", math.Round(minutes))
	case minutes < 75:
		return fmt.Sprintf("about %.0f min", 5*math.Round(minutes/5))
	}
	quarters := math.Round(minutes / 30)
	whole, half := math.Modf(quarters / 2)
	text := fmt.Sprintf("about %.0f", whole)
	if half > 0 {
		text += "½"
	}
	return text + " h"
}

// verdict says what is not known first, then what is short, then whether the job fits.
func (t tell) verdict() string {
	res := t.res
	if res.Over {
		return "All is cut. The fire watch is left."
	}
	var text []string
	var lacking []string
	if !res.AirKnown && !res.Starved {
		lacking = append(lacking, "air")
	}
	if res.Site.Group("power") == margin.Unknown {
		lacking = append(lacking, "power")
	}
	if t.in.Cuts[res.SiteFor].Place.Plate == nil {
		lacking = append(lacking, "duty cycle")
	}
	if lacking != nil {
		text = append(text, "Not known: "+strings.Join(lacking, ", ")+".")
	}
	for i, c := range res.Rows {
		if c.Refused != nil {
			text = append(text, t.name(i)+" is beyond this rig and left out.")
		}
	}
	switch {
	case res.Starved:
		text = append(text, "The compressor and its tank do not serve this torch at all.")
	case res.TooHot:
		text = append(text, "It is too hot for the machine to cut.")
	}
	for _, c := range res.Site.Checks {
		if v := c.Verdict(); (c.Group == "power" || c.Key == "hose") && (v == margin.Fails || v == margin.Doubt) {
			text = append(text, c.Say(t.a.System())+".")
		}
	}
	return strings.ReplaceAll(strings.Join(append(text, t.fits(lacking != nil)), " "), "..", ".")
}

// fits says whether the window is long enough, or how long it takes where there is none.
func (t tell) fits(atBest bool) string {
	res, begin := t.res, ""
	if atBest {
		begin = "Without that at best: "
	}
	say := func(s string) string {
		if begin == "" {
			s = strings.ToUpper(s[:1]) + s[1:]
		}
		return begin + s
	}
	by := "by dark"
	if t.in.WithWatch {
		by = "in the time there is"
	}
	switch {
	case t.in.Window == 0:
		return say(sayTime(res.Work.About) + " to the last cut.")
	case res.Fits >= 0.97:
		return say("it fits, with " + sayTime(res.Spare.About) + " to spare.")
	case res.Fits <= 0.03:
		return say("it does not fit: " + sayTime(-res.Spare.About) + " too long.")
	}
	return say(tenths(res.Fits) + " to be done " + by + ".")
}
