package cutting

import (
	"cmp"
	"slices"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/material"
	"kerfside/calc/order"
	"kerfside/calc/problem"
	"kerfside/calc/safety"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// TableRow is the plan for one thickness, or the reason why there is none.
type TableRow struct {
	Thickness unit.Length
	Plan      PlanResult
	Refused   bool // past what the rig severs
}

// Grade says how good the cut will be.
func (row TableRow) Grade() Grade {
	if row.Refused {
		return WillNotCut
	}
	return row.Plan.Grade
}

// start says where the cut may begin.
func (row TableRow) start() string {
	if row.Plan.Path <= row.Plan.Band.Least.Pierce {
		return "edge or pierce"
	}
	return "edge"
}

// ComputeTable plans each thickness as ComputePlan does; in.Thickness is not
// read. A thickness past the sever limit is a row marked Refused; any other
// refusal ends the table.
func ComputeTable(in PlanInput, thicknesses []unit.Length) ([]TableRow, error) {
	var rows []TableRow
	for _, a := range thicknesses {
		in.Thickness = a
		res, err := ComputePlan(in)
		if p := problem.From(err); p != nil && !(p.Kind == problem.Refused && p.Field == "thickness") {
			return nil, err
		}
		rows = append(rows, TableRow{Thickness: a, Plan: res, Refused: err != nil})
	}
	return rows, nil
}

// The thicknesses of a table when none are asked for, and a row for US stock:
// sheet and plate as they are sold.
const (
	stock    = "1mm, 1.5mm, 2mm, 3mm, 4mm, 5mm, 6mm, 8mm, 10mm, 12mm, 15mm, 20mm, 25mm"
	stockUS  = "18ga, 16ga, 14ga, 12ga, 1/8in, 3/16in, 1/4in, 5/16in, 3/8in, 1/2in, 5/8in, 3/4in, 1in"
	gridMost = 40 // rows that still fit a printed page
)

// RigTable is the calculator rig-table.
var RigTable = form.Declaration{Name: "rig-table", Make: func() form.Calculator {
	return form.Calculator{
		Title: "Rig table",
		About: "The cut plan for a row of thicknesses, of one rig and metal. Print it and keep it in the truck.",
		Place: "ready",
		Terms: []string{"chart", "cut chart", "settings", "print", "speeds"},
		Fields: slices.Concat([]form.Field{metalField(), alloyField(), {Key: "thicknesses", Label: "Thicknesses",
			Help: "Parted by commas, such as 2mm, 16ga, 1/4in. Left empty: common plate and sheet", Takes: form.Text(), Optional: true, Chips: []string{stock}, ChipsUS: []string{stockUS}}}, rigFields(), wayFields(), figureFields()),
		Results: []form.Result{
			{Key: "rows", Label: "By thickness", Gives: form.Rows("thickness", "Thickness", "grade", "Grade", "start", "Start", "current", "Current", "tip", "Tip", "pressure", "Air", "speed", "Speed", "pace", "Pace", "kerf", "Kerf"), Main: true},
			{Key: "limit_clean", Label: "Cuts clean up to", Gives: form.Number[unit.Length]("mm", "in").As(unit.Plate), Main: true},
			{Key: "limit_sever", Label: "Severs up to", Gives: form.Number[unit.Length]("mm", "in").As(unit.Plate), Main: true},
			{Key: "limit_pierce", Label: "Pierces up to", Gives: form.Number[unit.Length]("mm", "in").As(unit.Plate), Main: true},
			{Key: "standing", Label: "It rests on", Gives: form.Text()},
			{Key: "confidence", Label: "How sure", Gives: form.Text()},
		},
		Sources: []source.ID{"kerf-balance", "iec-60974-1-load", source.CommonPractice, "from-memory"},
		Run:     runTable,
	}
}}

func runTable(r *form.Reader, a *form.Answer) error {
	in := readPlanButThickness(r)
	grid := readGrid(r, in.Metal)
	r.Sheets(func(number string) (unit.Length, error) { return material.Gauge(in.Metal, number) })
	if err := r.Err(); err != nil {
		return err
	}
	list, err := ComputeTable(in, grid)
	if err != nil {
		return err
	}
	rows := make([]*form.Row, len(list))
	for i, t := range list {
		rows[i] = a.NewRow()
		putTableRow(rows[i], in.Rig.Gas, t)
	}
	a.PutRows("rows", rows)
	putLimits(a, in.LimitBand())
	for _, t := range list {
		if !t.Refused {
			a.PutWord("confidence", confidence(in, t.Plan.Off)) // of the thinnest
			break
		}
	}
	if _, most := in.Rig.full(); !in.Calibrated {
		a.PutWord("standing", standing(in, most, true))
	}
	if slices.ContainsFunc(list, func(t TableRow) bool { return !t.Refused && !t.Plan.Settled }) {
		a.Caution("Between the ends of a limit the worse grade stands: a trial strip settles it.")
	}
	a.Step("each row is a cut plan of its own; open that one to see the working")
	cautionReach(a, in.Rig)
	cautionBores(a, in.Rig)
	for _, text := range metalCautions[in.Metal] {
		a.Caution("%s", text)
	}
	a.Caution("Try it on scrap of the same metal. Your torch's manual wins over every figure here.")
	a.Caution(safety.ArcOn)
	return nil
}

func putTableRow(row *form.Row, g Gas, t TableRow) {
	form.PutCell(row, "thickness", form.Number[unit.Length]("mm", "in").As(unit.Plate), t.Thickness)
	row.PutWord("grade", t.Grade().Words())
	if t.Refused {
		return
	}
	row.PutWord("start", t.start())
	form.PutCell(row, "current", form.Number[unit.Current]("A", "A"), t.Plan.Arc.Current)
	form.PutCell(row, "tip", form.Number[unit.Current]("A", "A"), t.Plan.Tip.Rated)
	if t.Plan.Pressure > 0 {
		form.PutCell(row, "pressure", form.Number[unit.Pressure]("bar", "psi"), t.Plan.Pressure)
	}
	form.PutCell(row, "speed", form.Number[unit.Speed]("mm/min", "in/min").InDoubt(), t.Plan.Speed)
	form.PutCell(row, "pace", form.Number[unit.Pace]("s per 100 mm", "s per 4 in").InDoubt(), t.Plan.Pace)
	form.PutCell(row, "kerf", form.Number[unit.Length]("mm", "in").As(unit.Kerf), t.Plan.Kerf)
}

// readGrid reads the thicknesses, thinnest first, each once.
func readGrid(r *form.Reader, metal material.Metal) []unit.Length {
	text := form.GetText(r, "thicknesses")
	if text == "" {
		text = stock
	}
	between := ","
	if strings.Contains(text, ";") {
		between = ";"
	}
	var list []unit.Length
	for _, entry := range strings.Split(text, between) {
		a, err := parseThickness(strings.TrimSpace(entry), metal, r.System())
		if err != nil {
			p := *problem.From(err)
			p.Field = "thicknesses"
			r.Fail("thicknesses", &p)
			return nil
		}
		list = append(list, a)
	}
	order.Sort(list, cmp.Compare)
	list = slices.Compact(list)
	if len(list) > gridMost {
		r.Fail("thicknesses", problem.Newf(problem.Range, "thicknesses", "%d thicknesses are more than a page holds", len(list)).WithHint("At most %d.", gridMost))
	}
	return list
}

// parseThickness reads a length or a gauge of that metal within what cut-plan
// allows.
func parseThickness(text string, metal material.Metal, system unit.System) (unit.Length, error) {
	var a unit.Length
	var err error
	field := thicknessField()
	if number, ok := form.CutGauge(text); ok {
		a, err = material.Gauge(metal, number)
	} else {
		var v float64
		v, err = field.Takes.Parse(text, system)
		a = unit.Length(v)
	}
	if err != nil {
		return 0, err
	}
	if l := field.Limits; float64(a) < l.Min || float64(a) > l.Max {
		return 0, problem.Newf(problem.Range, "", "%s is no thickness that this can reckon with", text).
			WithHint("From %s to %s; a bare number is in mm.", unit.In(unit.Length(l.Min), "mm"), unit.In(unit.Length(l.Max), "mm"))
	}
	return a, nil
}
