package site

import (
	"encoding/json"
	"maps"
	"slices"
	"testing"

	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/margin"
	"kerfside/calc/unit"
)

// good is an invented site where all holds.
var good = map[string]any{
	"thickness": "6mm", "tips": "20:0.7mm,40:0.95mm", "min_current": "16A", "max_current": "40A", "pressure": "5bar", "air_need": "170l/min", "air_least": "5bar",
	"free_air": "300l/min", "tank": "100l", "compressor_duty": "80%", "hose_length": "10m", "bore": "9.5mm", "volts": "230V", "cord_length": "10m",
	"size": "6mm²", "breaker": "32A", "duty_points": "40A:50%", "share": "30%", "tip_reading": "1mm", "pit": "0.5mm", "generator": "20kVA",
}

// spoilt are changes that make one check fail.
var spoilt = map[string]map[string]any{
	"hose":       {"bore": "6mm", "hose_length": "60m"},
	"compressor": {"free_air": "60l/min"},
	"tank":       {"free_air": "130l/min", "tank": "10l", "longest_cut": "1500mm"},
	"cord":       {"size": "2.5mm²", "cord_length": "60m"},
	"volts":      {"least_volts": "228V", "cord_length": "30m"},
	"breaker":    {"breaker": "10A"},
	"generator":  {"generator": "4kVA"},
	"start":      {"compressor_power": "1.5kW", "generator": "18kVA"},
	"duty":       {"duty_points": "40A:20%"},
	"tip":        {"tip_reading": "1.2mm"},
	"electrode":  {"pit": "1.8mm"},
}

func check(t *testing.T, values map[string]any) Result {
	t.Helper()
	in, err := readSite(form.NewReader(SiteCheck.Calculator(), values))
	if err != nil {
		t.Fatal(err)
	}
	res, err := Compute(in)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func with(change map[string]any) map[string]any {
	values := maps.Clone(good)
	maps.Copy(values, change)
	return values
}

// TestAnswerCarriesThePlan: what site-check carries of cut-plan is the whole
// answer that cut-plan gives to the same cut, in both systems.
func TestAnswerCarriesThePlan(t *testing.T) {
	for _, change := range []map[string]any{nil, {"units": "us"}, {"thickness": "1/4in", "metal": "aluminium", "start": "pierce"}, {"angle": "30°", "tips": "40:0.95mm"}} {
		values := with(change)
		site, err := SiteCheck.Calculator().CalculateValues(values)
		if err != nil {
			t.Fatal(err)
		}
		text, err := json.Marshal(site)
		if err != nil {
			t.Fatal(err)
		}
		var got struct{ Parts map[string]json.RawMessage }
		if err := json.Unmarshal(text, &got); err != nil {
			t.Fatal(err)
		}
		maps.DeleteFunc(values, func(key string, _ any) bool {
			return key != "units" && !slices.ContainsFunc(cutting.CutPlan.Calculator().Fields, func(f form.Field) bool { return f.Key == key })
		})
		plan, err := cutting.CutPlan.Calculator().CalculateValues(values)
		if err != nil {
			t.Fatal(err)
		}
		want, err := json.Marshal(plan)
		if err != nil {
			t.Fatal(err)
		}
		if len(got.Parts) != 1 || string(got.Parts["cut-plan"]) != string(want) {
			t.Errorf("%v: site-check carries %s, and cut-plan answers %s", change, got.Parts["cut-plan"], want)
		}
	}
}

func find(res Result, key string) (Check, bool) {
	for _, c := range res.Checks {
		if c.Key == key {
			return c, true
		}
	}
	return Check{}, false
}

func TestGoodSiteHolds(t *testing.T) {
	res := check(t, good)
	if res.Binding.Verdict() == margin.Fails || len(res.Remedies) > 0 {
		t.Errorf("a good site: %s %v, %d remedies, want none failing", res.Binding.Key, res.Binding.Margin, len(res.Remedies))
	}
}

// TestOneSpoiltThingBinds: what was spoilt is what gives out first, and no
// other group is blamed.
func TestOneSpoiltThingBinds(t *testing.T) {
	for key, change := range spoilt {
		res := check(t, with(change))
		binds := key
		if key == "start" {
			binds = "generator" // that its compressor starts during the cut
		}
		if res.Binding.Key != binds && !(key == "compressor" && res.Binding.Key == "tank") {
			t.Errorf("%s was spoilt, but %s binds with %v", key, res.Binding.Key, res.Binding.Margin)
		}
		for _, c := range res.Checks {
			if c.Verdict() == margin.Fails && c.Group != res.Binding.Group {
				t.Errorf("%s was spoilt, but %s fails too (%v): %s", key, c.Key, c.Margin, c.Say(unit.Metric))
			}
		}
	}
}

// TestRemediesTurnTheVerdict: each remedy that names a field and a value makes
// its check pass when it is followed.
func TestRemediesTurnTheVerdict(t *testing.T) {
	tried := 0
	for key, change := range spoilt {
		values := with(change)
		res := check(t, values)
		if len(res.Remedies) == 0 {
			t.Errorf("%s fails and nothing is said to help", key)
		}
		for _, m := range res.Remedies {
			if m.Field == "" {
				continue
			}
			tried++
			cured := maps.Clone(values)
			cured[m.Field] = m.Value
			after := check(t, cured)
			if c, ok := find(after, m.Check); ok && c.Verdict() == margin.Fails {
				t.Errorf("%s: %q (%s = %s) leaves %s at %v", key, m.Do(unit.Metric), m.Field, m.Value, m.Check, c.Margin)
			}
		}
	}
	if tried < 10 {
		t.Errorf("only %d remedies could be tried", tried)
	}
}

// TestStartFirst: on a set that cannot start the compressor during the cut,
// starting it first is one of the remedies, and it holds.
func TestStartFirst(t *testing.T) {
	values := with(spoilt["start"])
	offered := false
	for _, m := range check(t, values).Remedies {
		offered = offered || m.Field == "compressor_first"
	}
	if !offered {
		t.Error("starting the compressor first is not offered")
	}
	values["compressor_first"] = "yes"
	if c, _ := find(check(t, values), "generator"); c.Verdict() == margin.Fails {
		t.Errorf("started first, the generator still fails by %v: %s", c.Margin, c.Say(unit.Metric))
	}
}

// TestPressureIsNeverARemedy: a torch's pressure is not for bargaining.
func TestPressureIsNeverARemedy(t *testing.T) {
	for key, change := range spoilt {
		for _, m := range check(t, with(change)).Remedies {
			if m.Field == "pressure" || m.Field == "air_least" {
				t.Errorf("%s: the remedy changes %s", key, m.Field)
			}
		}
	}
}

// TestSiteLaws: less of anything never raises the margin that rests on it.
func TestSiteLaws(t *testing.T) {
	worse := []struct{ key, field, value string }{
		{key: "hose", field: "bore", value: "8mm"}, {key: "hose", field: "hose_length", value: "25m"}, {key: "hose", field: "couplers", value: "6"}, {key: "hose", field: "altitude", value: "2000m"},
		{key: "compressor", field: "free_air", value: "200l/min"}, {key: "compressor", field: "altitude", value: "2000m"}, {key: "compressor", field: "share", value: "60%"},
		{key: "cord", field: "size", value: "4mm²"}, {key: "cord", field: "cord_length", value: "20m"}, {key: "cord", field: "power_factor", value: "0.6"}, {key: "breaker", field: "breaker", value: "25A"},
		{key: "generator", field: "generator", value: "12kVA"}, {key: "generator", field: "altitude", value: "2500m"}, {key: "generator", field: "compressor_power", value: "1.5kW"}, {key: "duty", field: "temperature", value: "55°C"}, {key: "duty", field: "share", value: "40%"},
		{key: "thickness", field: "thickness", value: "10mm"}, {key: "tip", field: "tip_reading", value: "1.05mm"}, {key: "electrode", field: "pit", value: "0.9mm"},
	}
	before := check(t, good)
	for _, w := range worse {
		after := check(t, with(map[string]any{w.field: w.value}))
		was, _ := find(before, w.key)
		is, ok := find(after, w.key)
		if !ok || is.Margin > was.Margin || (is.Margin == was.Margin && was.Margin < margin.Most) {
			t.Errorf("%s = %s: margin of %s %v, was %v, want less", w.field, w.value, w.key, is.Margin, was.Margin)
		}
	}
}

// TestAnswerInBothSystems: every sentence prints, and the answer is whole JSON.
func TestAnswerInBothSystems(t *testing.T) {
	for key, change := range spoilt {
		for _, units := range []string{"metric", "us"} {
			values := with(change)
			values["units"] = units
			a, err := SiteCheck.Calculator().CalculateValues(values)
			if err != nil {
				t.Fatalf("%s in %s: %v", key, units, err)
			}
			if _, err := json.Marshal(a); err != nil {
				t.Errorf("%s in %s: %v", key, units, err)
			}
		}
	}
}
