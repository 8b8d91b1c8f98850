package registry

import (
	"encoding/json"

	"kerfside/calc/drawing"
	"kerfside/calc/drawing/paper"
	"kerfside/calc/form"
	"kerfside/calc/problem"
)

// Print asks for the templates of a layout as a file.
type Print struct {
	Calculator string          `json:"calculator"`
	Input      json.RawMessage `json:"input"`              // what is entered, as for the calculator
	Template   string          `json:"template,omitempty"` // its key; all of them without one, on paper alone
	As         string          `json:"as"`                 // "pdf", "dxf" or "svg"
	Paper      string          `json:"paper,omitempty"`    // of a pdf: "a4" or "letter"
	Name       string          `json:"name,omitempty"`     // whose it is, on paper
	Date       string          `json:"date,omitempty"`     // as people write it
}

// Printed is a file: all of it is text, a PDF in ASCII.
type Printed struct {
	Name string `json:"name"` // "pipe-saddle-branch.dxf"
	Type string `json:"type"`
	Data string `json:"data"`
}

// templates makes the file of a layout's templates.
func templates(input []byte) (Printed, error) {
	var in Print
	if err := json.Unmarshal(input, &in); err != nil {
		return Printed{}, problem.New(problem.Malformed, "", "this is no wish for a template", `Send {"calculator", "input", "as"}.`)
	}
	c, err := Get(in.Calculator)
	if err != nil {
		return Printed{}, err
	}
	if in.Input == nil {
		in.Input = json.RawMessage("{}")
	}
	answer, err := c.Calculate(in.Input) // a trouble of what is entered is the calculator's own
	if err != nil {
		return Printed{}, err
	}
	return in.Of(answer)
}

// Of makes the file of an answer's templates.
func (in Print) Of(answer *form.Answer) (Printed, error) {
	all := answer.Templates()
	name := in.Calculator
	if in.Template != "" || len(all) == 0 {
		one, err := answer.Template(in.Template)
		if err != nil {
			return Printed{}, err
		}
		all = []drawing.Template{one}
	}
	if in.As != "pdf" && len(all) == 1 {
		name += "-" + all[0].Key
	}
	switch {
	case in.As == "pdf":
		data, err := paper.PDF(all, paper.Sheet{Size: in.Paper, Name: in.Name, Date: in.Date})
		return Printed{Name: name + ".pdf", Type: "application/pdf", Data: data}, err
	case in.As != "dxf" && in.As != "svg":
		return Printed{}, problem.Newf(problem.Unknown, "as", "a template is not written as %q", in.As).WithHint("Take pdf, dxf or svg.")
	case len(all) > 1:
		return Printed{}, problem.New(problem.Missing, "template", "a "+in.As+" holds one template", "Say which one.")
	case in.As == "dxf":
		return Printed{Name: name + "-mm.dxf", Type: "image/vnd.dxf", Data: drawing.DXF(all[0])}, nil
	}
	return Printed{Name: name + ".svg", Type: "image/svg+xml", Data: drawing.SVG(all[0])}, nil
}
