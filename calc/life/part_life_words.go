package life

import (
	"fmt"
	"math"

	"kerfside/calc/unit"
)

// Verdict is what the chance says of the job.
func (r PartLifeResult) Verdict() string {
	switch c := r.Lasts; {
	case c.P >= 0.9 && c.Low >= 0.7:
		return "likely lasts the job"
	case c.P <= 0.3 && c.High <= 0.6:
		return "likely does not last the job"
	case r.How == Assumed || c.High-c.Low > 0.6:
		return "too little is known: carry a spare"
	}
	return "may not last the job: carry a spare"
}

// Words tells a chance as tradesmen do, no finer than it is known: "about 7 in 10
// (4 to 9 in 10)".
func (c Chance) Words() string {
	low, high := math.Floor(10*c.Low+1e-9), math.Ceil(10*c.High-1e-9)
	said := "about " + unit.Figures(math.Round(10*c.P), 2) + " in 10"
	switch {
	case c.P >= 0.95:
		said = "more than 9 in 10"
	case c.P < 0.05:
		said = "less than 1 in 10"
	}
	switch {
	case low <= 0 && high >= 10:
		return said + " (nobody can tell yet)"
	case high-low <= 1:
		return said
	}
	return fmt.Sprintf("%s (%.0f to %.0f in 10)", said, low, high)
}

// ShapeSays tells what the shape means, where its range tells one meaning from the
// other.
func (r PartLifeResult) ShapeSays() string {
	switch {
	case r.Fit == nil || r.How == Weak:
		return "too few failures to tell a shape"
	case r.Shape.Low > 1 && r.How == Few:
		return "they seem to wear out, by few failures"
	case r.Shape.Low > 1:
		return "they wear out: the longer used, the likelier to go"
	case r.Shape.High < 1 && r.How == Few:
		return "most seem to go early, by few failures: look at how they are fitted"
	case r.Shape.High < 1:
		return "most go early: look at how they are fitted and at the air"
	}
	return "not enough to say whether they wear out or go by chance"
}

// causes are the groups as people say them, with what they say of them.
var causes = map[string]string{
	"rusty": "Rusty metal", "painted": "Painted metal", "clean": "Clean metal",
	"vertical": "Vertical cuts", "overhead": "Overhead cuts", "flat": "Flat cuts",
	"pierce": "Piercing", "edge": "Starts at the edge", "wet": "Wet air", "dry": "Dry air",
	"mild-steel": "Mild steel", "stainless": "Stainless", "aluminium": "Aluminium", "galvanised": "Galvanised metal",
	"copper": "Copper", "brass": "Brass", "cast-iron": "Cast iron",
}

// Cause is what the parts of the group had in common.
func (e Effect) Cause(slot string) string {
	switch {
	case e.Factor == "rig":
		return "Rig " + e.Level
	case e.Factor == "partner" && slot == "tip":
		return "A " + e.Level + " electrode beside it"
	case e.Factor == "partner":
		return "A " + e.Level + " tip beside it"
	}
	if word := causes[e.Level]; word != "" {
		return word
	}
	return e.Level
}

// Says is how long parts of the group last, no finer than is known.
func (e Effect) Says() string {
	times := func(x float64) string {
		if x < 1.95 {
			return unit.Figures(math.Round(10*x)/10, 2)
		}
		return unit.Figures(x, 1)
	}
	between := fmt.Sprintf("%s to %s times as long", times(e.Range.Low), times(e.Range.High))
	if !e.Sure {
		return "not enough to say (" + between + ")"
	}
	return between
}

// Wears is the one sentence about what wears the crew's parts fastest.
func (r PartLifeResult) Wears(slot string) string {
	if len(r.Effects) == 0 {
		return "not enough to say: note with each part what it cut, and some that cut otherwise"
	}
	if e := r.Effects[0]; e.Sure && e.Ratio < 1 {
		return fmt.Sprintf("%s wears them fastest: they last %s", e.Cause(slot), e.Says())
	}
	return fmt.Sprintf("not enough to say: %s so far", unit.Count(r.Model.Failures, "part is worn out", "parts are worn out"))
}
