package wear

import (
	"strings"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// parseReadings reads "starts:arc time:depth, …"; a semicolon parts entries
// too, which lets a decimal comma stand in the numbers.
func parseReadings(text string) ([]Reading, error) {
	return parseWorn(text, "Write starts, arc time and pit depth of each electrode, such as 120:25min:0.4mm, 300:30min:0.8mm.", func(text string) (float64, error) {
		depth, err := unit.Parse[unit.Length](text, "mm")
		if err != nil {
			return 0, err
		}
		if depth < 0 || depth > 10*unit.Millimetre {
			return 0, problem.Newf(problem.Range, "", "a pit of %s is outside what this can reckon with", strings.TrimSpace(text))
		}
		return float64(depth), nil
	})
}

// parseGrowth reads the same of tips, with a bore or what it has grown by in place of
// the pit.
func parseGrowth(text string, fresh unit.Length) ([]Reading, error) {
	return parseWorn(text, "Write starts, arc time and bore of each tip, such as 60:25min:1.02mm, or its growth: 60:25min:7%.", func(text string) (float64, error) {
		if strings.Contains(text, "%") {
			growth, err := unit.Parse[unit.Ratio](text, "%")
			if err == nil && (growth < -underNew || growth > 1) {
				err = problem.Newf(problem.Range, "", "a bore grown by %s is outside what this can reckon with", strings.TrimSpace(text))
			}
			return float64(growth), err
		}
		bore, err := unit.Parse[unit.Length](text, "mm")
		if err == nil && fresh > 0 {
			err = CheckReading(fresh, bore)
		}
		if err == nil && bore > 2*fresh {
			err = problem.Newf(problem.Range, "", "a bore of %s is more than twice a new one", strings.TrimSpace(text))
		}
		if err != nil || fresh <= 0 {
			return 0, err
		}
		return float64(bore/fresh - 1), nil
	})
}

// parseWorn reads readings whose last part is read by worn.
func parseWorn(text, hint string, worn func(string) (float64, error)) ([]Reading, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	between := ","
	if strings.Contains(text, ";") {
		between = ";"
	}
	var list []Reading
	for _, entry := range strings.Split(text, between) {
		parts := strings.Split(entry, ":")
		if len(parts) != 3 {
			return nil, problem.Newf(problem.Malformed, "readings", "%q is not starts, arc time and a reading", strings.TrimSpace(entry)).WithHint("%s", hint)
		}
		starts, err := unit.ReadNumber(parts[0])
		if err != nil {
			return nil, problem.From(err).WithField("readings").WithHint("%s", hint)
		}
		time, err := unit.Parse[unit.Duration](parts[1], "min")
		if err != nil {
			return nil, problem.From(err).WithField("readings").WithHint("%s", hint)
		}
		wear, err := worn(parts[2])
		if err != nil {
			return nil, problem.From(err).WithField("readings").WithHint("%s", hint)
		}
		if starts < 0 || starts > 1e6 || time < 0 || time > 2000*unit.Hour {
			return nil, problem.Newf(problem.Range, "readings", "%q is outside what this can reckon with", strings.TrimSpace(entry)).
				WithHint("Starts to 1,000,000, arc time to 2000 h, none below nothing.")
		}
		if starts == 0 && time == 0 {
			return nil, problem.Newf(problem.Malformed, "readings", "reading %d has neither starts nor minutes", len(list)+1).WithHint("%s", hint)
		}
		list = append(list, Reading{Starts: starts, Minutes: float64(time / unit.Minute), Depth: wear})
	}
	return list, nil
}
