package cutting

import (
	"slices"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// Gas is how the torch's air pressure is found. The pressure belongs to the
// torch: nothing here advises one that its own plate or book does not state.
type Gas struct {
	Kind   string        // "fixed", "automatic", "table" or "line"
	Fixed  unit.Pressure // of a fixed one; 0 if not entered
	Points []GasPoint    // of a table or line, by current
	Unused string        // what was entered although an automatic machine needs none
}

// GasPoint is a pressure at a current: of the tip of that rating in a table, a
// corner of a line.
type GasPoint struct {
	Current  unit.Current
	Pressure unit.Pressure
}

// span is the range of currents over which a line gives pressures.
func (g Gas) span() (first, last unit.Current, bound bool) {
	if g.Kind != "line" || len(g.Points) == 0 {
		return 0, 0, false
	}
	return g.Points[0].Current, g.Points[len(g.Points)-1].Current, true
}

// At returns the pressure for a tip at a current; false if the rig does not say.
// Between the points of a line it is interpolated, beyond them it is not known.
func (g Gas) At(t Tip, i unit.Current) (unit.Pressure, bool) {
	switch g.Kind {
	case "fixed":
		return g.Fixed, g.Fixed > 0
	case "table":
		for _, p := range g.Points {
			if p.Current == t.Rated {
				return p.Pressure, true
			}
		}
	case "line":
		for k := 1; k < len(g.Points); k++ {
			a, b := g.Points[k-1], g.Points[k]
			if i >= a.Current && i <= b.Current {
				return a.Pressure + (b.Pressure-a.Pressure)*unit.Pressure((i-a.Current)/(b.Current-a.Current)), true
			}
		}
	}
	return 0, false
}

const (
	gasLowest  = 0.3 * unit.Bar
	gasHighest = 15 * unit.Bar
)

// readGas reads pressure_kind and pressure.
func readGas(r *form.Reader) Gas {
	g := Gas{Kind: form.GetWord(r, "pressure_kind")}
	text := form.GetText(r, "pressure")
	if g.Kind == "automatic" {
		g.Unused = text
	}
	if text == "" || g.Kind == "automatic" {
		if g.Kind == "table" || g.Kind == "line" {
			r.Fail("pressure", problem.New(problem.Missing, "pressure", "a "+g.Kind+" of pressures needs its points", gasHint))
		}
		return g
	}
	if g.Kind == "fixed" {
		p, err := unit.Parse[unit.Pressure](text, "bar")
		if err == nil {
			err = checkGas(p, text)
		}
		if err != nil {
			r.Fail("pressure", err)
		}
		g.Fixed = p
		return g
	}
	points, err := parseGas(text)
	if err == nil && g.Kind == "line" && len(points) < 2 {
		err = problem.New(problem.Malformed, "pressure", "a line needs two points", gasHint)
	}
	if err != nil {
		r.Fail("pressure", err)
		return g
	}
	g.Points = points
	return g
}

const gasHint = "Write current:pressure, parted by commas, such as 15A:1.6bar,45A:4.6bar, as the machine's own book gives them."

// parseGas reads 15A:1.6bar,45A:4.6bar; a semicolon parts entries too.
func parseGas(text string) ([]GasPoint, error) {
	between := ","
	if strings.Contains(text, ";") {
		between = ";"
	}
	var points []GasPoint
	for _, entry := range strings.Split(text, between) {
		left, right, ok := strings.Cut(entry, ":")
		if !ok {
			return nil, problem.Newf(problem.Malformed, "pressure", "%q has no colon between current and pressure", strings.TrimSpace(entry)).WithHint(gasHint)
		}
		i, err := unit.Parse[unit.Current](left, "A")
		if err != nil {
			return nil, err
		}
		p, err := unit.Parse[unit.Pressure](right, "bar")
		if err != nil {
			return nil, err
		}
		if err := checkGas(p, right); err != nil {
			return nil, err
		}
		if i < 5 || i > 1000 {
			return nil, problem.Newf(problem.Range, "pressure", "%s is no cutting current", unit.In(i, "A")).WithHint("From 5 to 1000 A.")
		}
		if slices.ContainsFunc(points, func(q GasPoint) bool { return q.Current == i }) {
			return nil, problem.Newf(problem.Conflict, "pressure", "two pressures are given for %s", unit.In(i, "A")).WithHint(gasHint)
		}
		points = append(points, GasPoint{i, p})
	}
	order.Sort(points, func(a, b GasPoint) int {
		if a.Current < b.Current {
			return -1
		}
		return 1
	})
	return points, nil
}

func checkGas(p unit.Pressure, text string) error {
	if p < gasLowest || p > gasHighest {
		return problem.Newf(problem.Range, "pressure", "%s is no torch's working pressure", strings.TrimSpace(text)).
			WithHint("From %s to %s; a bare number is in bar.", unit.In(gasLowest, "bar"), unit.In(gasHighest, "bar"))
	}
	return nil
}
