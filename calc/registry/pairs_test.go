package registry

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

// values are what is entered into a calculator.
type values map[string]string

// with returns the values with others added; those that are empty are left out.
func (v values) with(more ...string) values {
	all := values{}
	for key, text := range v {
		all[key] = text
	}
	for i := 0; i < len(more); i += 2 {
		if more[i+1] != "" {
			all[more[i]] = more[i+1]
		}
	}
	return all
}

// take returns keys of v under other names: "bore", "cord_length>length".
func (v values) take(keys ...string) values {
	taken := values{}
	for _, key := range keys {
		from, to, renamed := strings.Cut(key, ">")
		if !renamed {
			to = from
		}
		if v[from] != "" {
			taken[to] = v[from]
		}
	}
	return taken
}

// told is what a calculator answered: its results and, by the name of its sum,
// those of each part.
type told map[string]json.RawMessage

// ask runs a calculator, which must answer.
func ask(t *testing.T, name string, v values) told {
	t.Helper()
	answer, refused := tryAsk(t, name, v)
	if refused != nil {
		t.Fatalf("%s %v: %v", name, v, refused)
	}
	return answer
}

func tryAsk(t *testing.T, name string, v values) (told, *problem.Error) {
	t.Helper()
	input, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var answer struct {
		Results told
		Parts   map[string]struct{ Results json.RawMessage }
		Error   *problem.Error
	}
	if err := json.Unmarshal(reply(name, input), &answer); err != nil {
		t.Fatal(err)
	}
	for part, of := range answer.Parts {
		answer.Results[part] = of.Results
	}
	return answer.Results, answer.Error
}

// number is the value of a result in SI, NaN if it was not told.
func (a told) number(key string) float64 {
	var v struct{ Value float64 }
	if a[key] == nil || json.Unmarshal(a[key], &v) != nil {
		return math.NaN()
	}
	return v.Value
}

// si writes a result of one calculator as an entry of another.
func (a told) si(key string) string {
	var v struct {
		Value float64
		Unit  string
	}
	if a[key] == nil || json.Unmarshal(a[key], &v) != nil {
		return ""
	}
	if v.Unit == "" || v.Unit == "1" { // a bare share would be read in per cent
		return fmt.Sprintf("%.17g%%", 100*v.Value)
	}
	return fmt.Sprintf("%.17g%s", v.Value, v.Unit)
}

func (a told) word(key string) string {
	var v string
	if json.Unmarshal(a[key], &v) != nil {
		return ""
	}
	return v
}

// part are the results of a part.
func (a told) part(name string) told {
	var part told
	if json.Unmarshal(a[name], &part) != nil {
		return nil
	}
	return part
}

// row is the row of a table whose cell under by is that word.
func (a told) row(table, by, word string) told {
	var rows []told
	if json.Unmarshal(a[table], &rows) == nil {
		for _, row := range rows {
			if row.word(by) == word {
				return row
			}
		}
	}
	return nil
}

// same holds two figures for one quantity equal.
func same(t *testing.T, what string, a, b float64) {
	t.Helper()
	if !(math.Abs(a-b) <= 1e-9*max(math.Abs(a), math.Abs(b))) {
		t.Errorf("%s: %v against %v", what, a, b)
	}
}

// pick returns one of the words.
func pick(r *rand.Rand, words ...string) string { return words[r.IntN(len(words))] }

// draw writes a number of a unit, drawn between two bounds.
func draw(r *rand.Rand, low, high float64, unit string) string {
	return fmt.Sprintf("%.3f%s", low+(high-low)*r.Float64(), unit)
}

// someSite is a rig, a metal and a site of which all is known, invented.
func someSite(r *rand.Rand) values {
	v := values{
		"metal": pick(r, "mild-steel", "stainless"), "thickness": draw(r, 1, 7, "mm"), "tips": "25:0.8mm,45:1.05mm", "pressure": draw(r, 3.5, 5, "bar"),
		"share": draw(r, 10, 60, "%"), "longest_cut": draw(r, 100, 1500, "mm"), "after_flow": draw(r, 3, 30, "s"), "hand": pick(r, "guided", "freehand"),
		"air_need": draw(r, 90, 200, "l/min"), "air_least": draw(r, 3.6, 5.5, "bar"), "duty_points": "45A:35%,28A:100%",
		"machine_efficiency": draw(r, 75, 90, "%"), "power_factor": draw(r, 0.6, 0.98, ""),
		"free_air": draw(r, 80, 300, "l/min"), "compressor_duty": draw(r, 50, 100, "%"), "tank": draw(r, 24, 270, "l"), "cut_in": draw(r, 6.5, 7.5, "bar"), "cut_out": draw(r, 8, 10, "bar"),
		"hose_length": draw(r, 3, 30, "m"), "bore": draw(r, 5, 13, "mm"), "couplers": pick(r, "0", "2", "4"), "coupler_c": draw(r, 2, 8, "l/(s·bar)"),
		"volts": draw(r, 200, 250, "V"), "size": pick(r, "2.5mm²", "4mm²", "10AWG", "12AWG"), "cord_length": draw(r, 5, 70, "m"), "least_volts": draw(r, 180, 199, "V"), "breaker": pick(r, "16A", "20A", "32A"),
		"altitude": draw(r, 0, 2500, "m"), "temperature": draw(r, -5, 45, "°C"), "humidity": draw(r, 20, 95, "%"),
		"tip_growth": "15%", "pit": draw(r, 0.2, 2, "mm"), "pit_limit": "1.5mm",
	}
	if r.IntN(2) == 0 {
		v = v.with("fitted", "45A", "tip_reading", draw(r, 1.06, 1.35, "mm"))
	}
	if r.IntN(2) == 0 {
		v = v.with("generator", draw(r, 4, 15, "kVA"), "headroom", draw(r, 0, 30, "%"), "stretch", draw(r, 1, 1.5, ""), "compressor_power", pick(r, "1.1kW", "1.5kW", "2hp"), "surge", pick(r, "", "16kVA"),
			"code_letter", pick(r, "", "G", "J"), "start_factor", draw(r, 4, 7, ""), "rated_power", pick(r, "", "3.5kW"))
	}
	return v
}

// TestPairs: two calculators that state the same quantity state the same
// figure, and the same judgement where they judge. Each draw is a rig on a
// site; what the site check finds is asked of the sum that has the quantity as
// its own.
func TestPairs(t *testing.T) {
	rounds := 60
	if testing.Short() {
		rounds = 10
	}
	for seed := range rounds {
		t.Run(fmt.Sprintf("seed %d", seed), func(t *testing.T) {
			v := someSite(rand.New(rand.NewPCG(uint64(seed), 5)))
			answer := ask(t, "site-check", v)
			margins := func(check string) float64 { return answer.row("checks", "check", check).number("margin") }
			answer["planned"] = answer.part("cut-plan")["current"] // what is judged; current itself is what holds
			for _, compare := range pairsOfSite {
				compare(t, v, answer, margins)
			}
			pairsOfPlan(t, v, answer)
		})
	}
}

// plan are the keys that the sums of a plan share, but for the thickness.
var plan = []string{"metal", "tips", "pressure", "hand", "max_current", "min_current", "arc_volts", "fitted"}

var pairsOfSite = []func(t *testing.T, v values, site told, margin func(string) float64){
	func(t *testing.T, v values, site told, margin func(string) float64) { // air-hose and air-tank
		inlet := v["cut_in"]
		hose := ask(t, "air-hose", v.take("bore", "couplers", "coupler_c", "temperature", "altitude", "hose_length>length", "air_least>needed").with("pressure", inlet, "flow", site.si("demand")))
		same(t, "air to spare in the hose", hose.number("margin"), margin("hose"))
		if short := hose.word("verdict") == "fails"; short != (margin("hose") < 0) {
			t.Errorf("the hose is %s in air-hose and has a margin of %v on the site", hose.word("verdict"), margin("hose"))
		}
		same(t, "the valve is open", ask(t, "air-flow", v.take("air_need>plate", "after_flow").
			with("arc", site.si("cut_time"), "pause", fmt.Sprintf("%.17gs", site.number("cut_time")*(1/percent(v["share"])-1)))).number("open_share"), site.number("valve_open"))
	},
	func(t *testing.T, v values, site told, margin func(string) float64) { // air-tank
		tank := ask(t, "air-tank", v.take("free_air", "tank", "cut_in", "cut_out", "altitude", "temperature", "compressor_duty>duty").with("share", site.si("valve_open"), "needed", "1bar", "demand", site.si("demand")))
		same(t, "the compressor's air to spare", tank.number("margin"), margin("compressor"))
	},
	func(t *testing.T, v values, site told, margin func(string) float64) { // air-water
		water := ask(t, "air-water", v.take("humidity", "altitude", "temperature>inlet", "cut_out>pressure", "cut_in>machine_pressure").with("flow", site.si("demand")))
		same(t, "drain", water.number("drain"), site.number("drain"))
		if water.word("class") != site.word("water_class") {
			t.Errorf("water of class %q and %q", water.word("class"), site.word("water_class"))
		}
	},
	func(t *testing.T, v values, site told, margin func(string) float64) { // supply
		cord := v.take("volts", "size", "power_factor", "breaker", "least_volts", "cord_length>length", "machine_efficiency>efficiency", "arc_volts>output_volts", "share>duty").with("output_current", site.si("planned"))
		supply, refused := tryAsk(t, "supply", cord)
		if refused != nil {
			if margin("cord") >= 0 || margin("volts") >= 0 {
				t.Errorf("supply says %v, and the site's margins are %v and %v", refused, margin("cord"), margin("volts"))
			}
			return
		}
		same(t, "volts to spare", supply.number("volts_margin"), margin("volts"))
		if within := supply.number("percent") <= 0.05; within != (margin("cord") >= 0) {
			t.Errorf("the cord loses %v and has a margin of %v on the site", supply.number("percent"), margin("cord"))
		}
		if short := supply.word("breaker_verdict") == "fails"; short != (margin("breaker") < 0) {
			t.Errorf("the breaker is %s in supply and has a margin of %v on the site", supply.word("breaker_verdict"), margin("breaker"))
		}
	},
	func(t *testing.T, v values, site told, margin func(string) float64) { // generator
		if v["generator"] == "" {
			return
		}
		set := ask(t, "generator", v.take("generator>rating", "rated_power", "surge", "headroom", "stretch", "compressor_power>compressor", "code_letter", "start_factor", "power_factor", "machine_efficiency>efficiency", "arc_volts>output_volts", "altitude", "temperature").
			with("output_current", site.si("planned")))
		if set.word("start_while_cutting") == "fails" || set.word("verdict") == "fails" {
			if margin("generator") >= 0 {
				t.Errorf("generator: %s, starting %s; the site has %v to spare", set.word("verdict"), set.word("start_while_cutting"), margin("generator"))
			}
		} else if margin("generator") < 0 {
			t.Errorf("generator: %s, starting %s; the site lacks %v", set.word("verdict"), set.word("start_while_cutting"), margin("generator"))
		}
		if margin("generator") > set.number("margin")+1e-9 {
			t.Errorf("generator has %v to spare, the site %v", set.number("margin"), margin("generator"))
		}
	},
	func(t *testing.T, v values, site told, margin func(string) float64) { // duty
		duty := ask(t, "duty", v.take("duty_points>points", "temperature").with("current", site.si("planned")))
		same(t, "duty", duty.number("duty")/percent(v["share"])-1, margin("duty"))
	},
	func(t *testing.T, v values, site told, margin func(string) float64) { // tip, and the air that a worn one takes
		orifice := site.part("cut-plan").si("orifice")
		if v["tip_reading"] == "" || !strings.HasPrefix(site.part("cut-plan").word("tip"), "45") {
			same(t, "air need", site.number("demand"), ask(t, "air-flow", v.take("air_need>plate")).number("demand"))
			return
		}
		tip := ask(t, "tip-wear", v.take("tip_reading>largest", "tip_growth>growth_limit").with("new", orifice, "nick", "no"))
		if change := tip.word("verdict") == "change"; change != (margin("tip") < 0) {
			t.Errorf("a tip of %s is judged %q and has a margin of %v on the site", v["tip_reading"], tip.word("verdict"), margin("tip"))
		}
		flow := ask(t, "air-flow", v.take("air_need>plate", "tip_reading>measured", "pressure>tip_pressure", "temperature", "altitude").with("orifice", orifice))
		same(t, "air need of the worn tip", flow.number("worn_demand"), site.number("demand"))
	},
	func(t *testing.T, v values, site told, margin func(string) float64) { // electrode
		worn := ask(t, "electrode-wear", v.take("pit>depth", "pit_limit>limit").with("off_centre", "no"))
		if change := worn.word("verdict") == "change"; change != (margin("electrode") < 0) {
			t.Errorf("the electrode is judged %q and has a margin of %v on the site", worn.word("verdict"), margin("electrode"))
		}
	},
}

// percent is a share written in per cent.
func percent(text string) float64 {
	var v float64
	if _, err := fmt.Sscanf(text, "%g%%", &v); err != nil {
		panic(err)
	}
	return v / 100
}

// pairsOfPlan compares the sums that state figures of one plan.
func pairsOfPlan(t *testing.T, v values, site told) {
	one := ask(t, "cut-plan", v.take(slices.Concat(plan, []string{"thickness"})...))
	part := site.part("cut-plan")
	for key := range one {
		if string(one[key]) != string(part[key]) {
			t.Errorf("%s is %s in the plan and %s on the site", key, one[key], part[key])
		}
	}
	if one.word("grade") == "" || one.word("grade") != site.word("grade") {
		t.Errorf("graded %q by the plan and %q on the site", one.word("grade"), site.word("grade"))
	}
	table := ask(t, "rig-table", v.take(slices.Concat(plan, []string{"thickness>thicknesses"})...))
	var rows []told
	if err := json.Unmarshal(table["rows"], &rows); err != nil || len(rows) != 1 {
		t.Fatalf("rig-table has %d rows, %v", len(rows), err)
	}
	for _, key := range []string{"current", "speed"} {
		same(t, key+" in rig-table", rows[0].number(key), one.number(key))
	}
	for _, key := range []string{"limit_clean", "limit_sever", "limit_pierce"} {
		same(t, key, table.number(key), one.number(key))
	}
	pace := ask(t, "travel-pace", values{"speed": one.si("speed"), "marks": "100mm"})
	same(t, "pace", pace.number("beat"), 0.1*one.number("pace"))
	machine := v.take("machine_efficiency>efficiency", "arc_volts")
	energy := ask(t, "job-cost", machine.with("arc_time", "10min", "labour", "50", "current", one.si("current"))).number("energy")
	arc := ask(t, "generator", values{"efficiency": v["machine_efficiency"], "output_current": one.si("current"), "rating": "20kVA", "stretch": "1"})
	same(t, "what ten minutes of arc take", energy, 600*arc.number("power"))
}
