package form

import (
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Description is a calculator's declaration as the phone reads it.
type Description struct {
	Name    string              `json:"name"`
	Title   string              `json:"title"`
	About   string              `json:"about"`
	Place   string              `json:"place"`
	Terms   []string            `json:"terms,omitempty"`
	Fields  []FieldDescription  `json:"fields"`
	Results []ResultDescription `json:"results"`
	Sources []string            `json:"sources"`

	Together []Together `json:"together,omitempty"`
}

// FieldDescription is a field as the phone reads it.
type FieldDescription struct {
	Key      string   `json:"key"`
	Label    string   `json:"label"`
	Help     string   `json:"help,omitempty"`
	Kind     Kind     `json:"kind"`
	Bare     string   `json:"bare,omitempty"`
	US       string   `json:"us,omitempty"`
	Right    *Half    `json:"right,omitempty"`
	Choices  []Choice `json:"choices,omitempty"`
	Default  string   `json:"default,omitempty"`
	Usual    *Usual   `json:"usual,omitempty"` // the default as it is shown, if it is a number with a unit
	Optional bool     `json:"optional,omitempty"`
	Allowed  string   `json:"allowed"`
	Chips    []string `json:"chips,omitempty"`
	ChipsUS  []string `json:"chips_us,omitempty"` // on a device with US units, where they are others
	Gauge    bool     `json:"gauge,omitempty"`
	Basis    string   `json:"basis,omitempty"`
	Only     *Only    `json:"only,omitempty"`
	Fine     bool     `json:"fine,omitempty"`
	Hazard   bool     `json:"hazard,omitempty"`
	Owner    Owner    `json:"owner,omitempty"`
	Item     string   `json:"item,omitempty"`
	Known    string   `json:"known,omitempty"`

	Rows *RowsDescription `json:"rows,omitempty"` // of a list
}

// RowsDescription is how the rows of a list are entered and shown.
type RowsDescription struct {
	EachRow
	Fields []FieldDescription `json:"fields"`
}

// Usual is a default as it is shown in each system.
type Usual struct {
	Metric string `json:"metric"`
	US     string `json:"us"`
}

// usual says a field's default in both systems.
func (c *Calculator) usual(f *Field) *Usual {
	if f.Takes.Kind != KindNumber || f.Default == "" {
		return nil
	}
	said := func(system unit.System) string {
		v, err := c.ReadValue(f.Key, ValueInput{Text: f.Default, Units: string(system)})
		if err != nil {
			return f.Default
		}
		return v.Text
	}
	return &Usual{said(unit.Metric), said(unit.US)}
}

// Half is the right half of a pair.
type Half struct {
	Bare string `json:"bare"`
	US   string `json:"us"`
	Each
}

// ResultDescription is a result as the phone reads it.
type ResultDescription struct {
	Key   string `json:"key"`
	Label string `json:"label"`
	Kind  Kind   `json:"kind"`
	Main  bool   `json:"main,omitempty"`

	Choices []Choice `json:"choices,omitempty"` // how the words of a result, or the columns of a table, are shown
}

// Describe returns the declaration for the phone and for help texts.
func (c *Calculator) Describe() Description {
	d := Description{Name: c.Name, Title: c.Title, About: c.About, Place: c.Place, Terms: c.Terms, Together: c.Together, Fields: c.describeFields()}
	for _, r := range c.Results {
		d.Results = append(d.Results, ResultDescription{Key: r.Key, Label: r.Label, Kind: r.Gives.Kind, Main: r.Main, Choices: r.Gives.Choices})
	}
	for _, id := range c.Sources {
		s, _ := source.Get(id)
		d.Sources = append(d.Sources, s.Cite())
	}
	return d
}

func (c *Calculator) describeFields() (list []FieldDescription) {
	for i := range c.Fields {
		f := &c.Fields[i]
		fd := FieldDescription{
			Key: f.Key, Label: f.Label, Help: f.Help, Kind: f.Takes.Kind, Bare: f.Takes.Bare, US: f.Takes.US,
			Choices: f.Takes.Choices, Default: f.Default, Usual: c.usual(f), Optional: f.Optional, Allowed: c.written(f),
			Chips: f.Chips, ChipsUS: f.ChipsUS, Gauge: f.Gauge, Only: f.Only, Fine: f.Fine, Hazard: f.Hazard, Owner: f.Owner, Item: f.Item, Known: f.Known,
		}
		if f.Takes.Right != nil {
			fd.Right = &Half{Bare: f.Takes.Right.Bare, US: f.Takes.Right.US, Each: *f.Takes.Each}
		}
		if s, ok := source.Get(f.Basis); ok {
			fd.Basis = s.Cite()
		}
		if l := f.Takes.List; l != nil {
			fd.Rows = &RowsDescription{EachRow: l.EachRow, Fields: l.Row.describeFields()}
			fd.Default = l.canonical(f.Default)
		}
		list = append(list, fd)
	}
	return list
}
