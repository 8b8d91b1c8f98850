package layout

import (
	"fmt"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// loads are what the holds carry in the end.
func (w releaseWords) loads() []*form.Row {
	kg := form.Number[unit.Mass]("kg", "lb")
	var rows []*form.Row
	for _, b := range w.res.Best[len(w.res.Best)-1].Bodies {
		for _, c := range b.Carry {
			row := w.a.NewRow()
			row.PutWord("hold", upper(w.hold(c.Hold)))
			form.PutCell(row, "least", kg, c.Low)
			form.PutCell(row, "most", kg, c.High)
			if c.Pull > 0 {
				form.PutCell(row, "pull", kg, c.Pull)
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// rows are the states of the best order, body by body.
func (w releaseWords) rows() []*form.Row {
	var rows []*form.Row
	for _, s := range w.res.Best {
		for _, b := range s.Bodies {
			row := w.a.NewRow()
			row.PutWord("cut", w.when(s))
			row.PutWord("piece", fmt.Sprintf("%s, %s, balances at %s", upper(w.piece(b)), w.kg(b.Weight), w.mm(b.At)))
			fate := map[Fate]string{Stays: "stays on what it is built into", Held: "is held", Dropped: "drops, as it may"}[b.Fate]
			if fate == "" {
				fate = w.happens(b)
			}
			row.PutWord("fate", upper(fate))
			if len(b.Carry) > 0 {
				row.PutWord("carried", w.carried(b))
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// carried says what each hold of a body carries.
func (w releaseWords) carried(b Body) string {
	var parts []string
	for _, c := range b.Carry {
		text := w.kg(c.High)
		if low := w.kg(c.Low); low != text {
			text = low + " to " + text
			if c.Low <= 0 {
				text = "up to " + w.kg(c.High) + ", or nothing"
			}
		}
		if c.Pull > c.High {
			text += ", pulled by " + w.kg(c.Pull)
		}
		parts = append(parts, w.hold(c.Hold)+" "+text)
	}
	return strings.Join(parts, "; ")
}

// working shows the sum of the last state of the best order.
func (w releaseWords) working() {
	for _, b := range w.res.Best[len(w.res.Best)-1].Bodies {
		w.a.Step("%s: %s, its balance point at %s", w.piece(b), w.kg(b.Weight), w.mm(b.At))
		for _, c := range b.Carry {
			if c.Low == c.High && len(b.Carry) == 2 {
				other := b.Carry[0]
				if other.Hold == c.Hold {
					other = b.Carry[1]
				}
				w.a.Step("%s carries %s × (%s from the other hold) ÷ (%s between both) = %s", w.hold(c.Hold), w.kg(b.Weight),
					w.mm(apart(b.At, w.in.Holds[other.Hold].At)), w.mm(apart(w.in.Holds[c.Hold].At, w.in.Holds[other.Hold].At)), w.kg(c.High))
			}
		}
	}
}

func apart(a, b unit.Length) unit.Length { return max(a-b, b-a) }
