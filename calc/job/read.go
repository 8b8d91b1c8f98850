package job

import (
	"kerfside/calc/cutting"
	"kerfside/calc/form"
	"kerfside/calc/handling"
	"kerfside/calc/money"
	"kerfside/calc/site"
	"kerfside/calc/unit"
)

// usualFuel is what an engine set burns for each kVA of its rating, at half load: from
// memory.
const usualFuel = 1.0 / 3 / 60 * float64(unit.LitrePerMinute) / 1000 // m³/s of a VA

func read(r *form.Reader) (Input, []*form.Reader, error) {
	minute := func(key string) unit.Duration { return form.Get[unit.Duration](r, key) }
	in := Input{
		Times: Times{Gate: minute("gate"), Inspect: minute("inspect"), Mark: minute("mark_out"), Row: minute("move_row"), Move: minute("move_piece"), Reset: minute("between_runs"),
			Change: minute("part_change"), Drain: minute("drain_stop"), Watch: minute("watch")},
		Own:     Own{Mark: form.GetCount(r, "mark_own"), Row: form.GetCount(r, "row_own"), Move: form.GetCount(r, "move_own"), Change: form.GetCount(r, "change_own"), Drain: form.GetCount(r, "drain_own")},
		Marking: Order(form.GetWord(r, "marking")), Every: minute("drain_every"), Trap: minute("trap_minutes"), Parts: readParts(r), Level: 0.95,
		Window: minute("window"), WithWatch: form.GetWord(r, "window_for") == "customer", Fuel: form.Get[unit.Flow](r, "fuel_rate"), Prices: readPrices(r),
	}
	setup := cutting.ReadSetup(r)
	place := readPlace(r, setup)
	switch {
	case place.Generator.Rated == 0:
		in.Fuel = 0
	case in.Fuel == 0:
		in.Fuel = unit.Flow(usualFuel * float64(place.Generator.Rated))
	}
	rows := r.Rows("cuts")
	in.Cuts = make([]Cut, len(rows))
	for i, row := range rows {
		in.Cuts[i] = readCut(row, place)
	}
	in.Done = readDone(r, len(rows))
	return in, rows, r.Err()
}

// readCut reads a row of the cut list.
func readCut(row *form.Reader, place site.Input) Cut {
	c := Cut{Name: form.GetText(row, "name"), Count: form.GetCount(row, "count"), Runs: form.GetCount(row, "pierces"), Place: place}
	plan, err := cutting.ReadCut(row, place.Plan)
	shape := handling.ReadCut(row, plan.Thickness)
	c.Length, c.Refused = shape.Length, err
	c.Runs = max(c.Runs, shape.Pierces)
	plan.Pierce = plan.Pierce || c.Runs > 0
	if shape.Pierces == 0 && form.GetWord(row, "start") == "edge" {
		c.Runs++ // begun at the edge
	}
	c.Runs, c.Place.Plan = max(c.Runs, 1), plan
	return c
}

// readPlace reads site and rig. How much of the time the arc burns, and how long in one
// go, is the job's to say, and nothing to guess.
func readPlace(r *form.Reader, setup cutting.PlanInput) site.Input {
	at := site.ReadPlace(r, setup)
	at.Given = func(key string) bool { return key == "share" || key == "longest_cut" || r.Given(key) }
	at.With = func(texts map[string]string) (site.Input, error) {
		with := r.With(texts)
		return readPlace(with, setup), with.Err()
	}
	return at
}

func readPrices(r *form.Reader) money.JobInput {
	in := money.JobInput{
		Labour: form.Get[unit.MoneyRate](r, "labour"), Overhead: form.Get[unit.MoneyRate](r, "overhead"), WatchRate: form.Get[unit.MoneyRate](r, "watch_rate"),
		SetPrice: form.Get[unit.Money](r, "set_price"), Material: form.Get[unit.Money](r, "material"), Energy: form.Get[unit.Money](r, "energy_price"),
		Compressor: form.Get[unit.Power](r, "compressor"), Margin: form.Get[unit.Ratio](r, "margin"), Efficiency: form.Get[unit.Ratio](r, "machine_efficiency"),
	}
	if !r.Given("watch_rate") {
		in.WatchRate = in.Labour + in.Overhead
	}
	return in
}
