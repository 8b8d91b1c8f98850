package book

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/order"
	"kerfside/calc/unit"
)

// parts reports what is in each torch, and all parts that were.
func (b *book) parts() (Report, error) {
	r := Report{Title: "Parts"}
	for _, rig := range b.fold.Now().Rigs {
		if len(rig.Parts) == 0 && len(rig.Name) == 0 {
			continue
		}
		s := Section{Title: b.rig(rig.Rig)}
		for _, slot := range slotOrder {
			for _, p := range rig.Parts {
				if p.Slot == slot {
					s.Rows = append(s.Rows, b.fittedRow(rig.Rig, p))
				}
			}
		}
		if len(s.Rows) == 0 {
			s.Says = []string{"Nobody has said what is in this torch."}
		}
		s.Actions = []Action{{Label: "Fitted a new part", Act: "new-part", With: map[string]string{"rig": rig.Rig}, Ask: b.asksOfNew(rig.Rig, "")}}
		r.Sections = append(r.Sections, s)
	}
	r.Says = []string{b.partsLine().Says[0] + "."}
	if len(r.Sections) == 0 {
		r.Says = []string{"No torch is known yet. Enter a rig, then say what is fitted."}
		r.Actions = []Action{{Label: "Rigs", Href: "/rigs"}}
	}
	if t := b.lifeTable(); len(t.Rows) > 0 {
		r.Sections = append(r.Sections, Section{Title: "All parts", Folded: true, Table: &t})
	}
	return r, nil
}

// fittedRow is a part that is in a torch.
func (b *book) fittedRow(rig string, p fold.PartNow) Row {
	row := Row{Title: capital(slot(p.Slot)), Href: "/book/part/" + p.Part, Says: []string{span(p.Ms) + " of arc · " + starts(p.Starts) + " · in since " + b.day(p.At)}}
	if said := b.reading(p.Slot, event.ReadBody(p.Reading), b.newBore(rig)); said != "" {
		row.Says = append(row.Says, "Read "+b.day(p.ReadAt)+": "+said)
	}
	if used, ok := b.used(rig, p); ok {
		row.Tag = wornWord(used)
	}
	for _, w := range p.Check {
		row.Says = append(row.Says, "Check: "+w.Msg+".")
	}
	return row
}

// wornWord says how much of a part's limit its last reading has used.
func wornWord(used unit.Ratio) string {
	switch {
	case used >= 1-1e-9:
		return "change"
	case used >= 0.5:
		return "look often"
	}
	return ""
}

// reading says what a reading told, and of a bore how much that is over new.
func (b *book) reading(slot string, body event.Body, fresh unit.Length) string {
	var said []string
	for _, k := range [...]struct {
		key, word string
		sort      unit.Sort
	}{{key: "dmax", word: "largest", sort: unit.Bore}, {key: "dmin", word: "smallest", sort: unit.Bore}, {key: "pit", word: "pit", sort: unit.Kerf}} {
		if um, ok := body.IntIn(k.key, 0, 20_000); ok {
			said = append(said, k.word+" "+b.length(unit.Length(um)*unit.Micrometre, k.sort))
		}
	}
	if bore := boreOf(body); slot == "tip" && fresh > 0 && bore > 0 {
		over := unit.Say(unit.Ratio(max(bore/fresh-1, 0)), "%", unit.Doubt{})
		said = append(said, over+" over new")
	}
	return strings.Join(said, ", ")
}

// boreOf is the largest width that a reading has; 0 for none.
func boreOf(body event.Body) unit.Length {
	for _, key := range [...]string{"dmax", "dmin"} {
		if um, ok := body.IntIn(key, 1, 20_000); ok {
			return unit.Length(um) * unit.Micrometre
		}
	}
	return 0
}

// length prints a length in the person's units.
func (b *book) length(l unit.Length, sort unit.Sort) string {
	name := "mm"
	if b.Units == unit.US {
		name = "in"
	}
	return unit.Say(l, name, unit.Doubt{Sort: sort})
}

// lifeTable is the table of parts, the one fitted last first.
func (b *book) lifeTable() Table {
	t := Table{Columns: []Column{
		{Key: "part", Title: "Part"}, {Key: "rig", Title: "Rig"}, {Key: "fitted", Title: "Fitted", Number: true},
		{Key: "arc", Title: "Arc", Unit: "min", Number: true}, {Key: "starts", Title: "Starts", Number: true}, {Key: "came_out", Title: "Came out", Number: true}, {Key: "why", Title: "Why"},
	}}
	for _, l := range b.fold.PartsPage("", mostRows, "", "").Parts {
		out, why := "in the torch", ""
		if l.To > 0 {
			out, why = b.day(l.To), "nobody said"
			if l.Ended != "not-told" {
				why = reason(l.Ended)
			}
		}
		t.Rows = append(t.Rows, []Cell{
			{Text: capital(slot(l.Slot)), Href: "/book/part/" + l.Part}, {Text: b.rig(l.Rig)}, {Text: b.day(l.At), Value: float64(l.At), Plain: b.stamp(l.At)},
			minutesCell(l.Ms), {Text: strconv.FormatInt(l.Starts, 10), Value: float64(l.Starts)},
			{Text: out, Value: float64(cmp.Or(l.To, b.Now)), Plain: b.stamp(l.To)}, {Text: why},
		})
	}
	return t
}

// mostRows is how many rows of a list a report has.
const mostRows = 200

// newPart answers "Fitted a new one": what was in the seat comes out, for the reason
// that was told.
func (b *book) newPart(in Act) (Done, error) {
	rig, slot := in.of("rig"), in.of("slot")
	d := Done{Said: "New " + slotName(slot) + " fitted."}
	if p, ok := b.seated(rig, slot); ok {
		d.Entries = append(d.Entries, pull(p, in.of("why"), rig))
	}
	body := map[string]any{"slot": slot, "rig": rig}
	line, said := in.of("line"), b.fold.Stocks().Of(rig, slot)
	if line == "" && len(said) == 1 {
		line = said[0].Word
	}
	if line != "" && line != fold.NoLine {
		body["line"] = line
	}
	d.Entries = append(d.Entries, Entry{Kind: "part.fitted", About: NewThing, Body: body})
	return d, nil
}

// pulled answers "Taken out": nothing goes in.
func (b *book) pulled(in Act) (Done, error) {
	return Done{Said: capital(slotName(in.of("slot"))) + " taken out.", Entries: []Entry{pull(in.of("part"), in.of("why"), in.of("rig"))}}, nil
}

func slotName(word string) string { return slot(word) }

func pull(part, why, rig string) Entry {
	body := map[string]any{"rig": rig}
	if why != "" {
		body["why"] = why
	}
	return Entry{Kind: "part.pulled", About: part, Body: body}
}

// asksOfNew asks what has to be known of a part that is fitted: which, unless slot says
// so; why the old one came out, if there is one; from which stock line, where it may be
// one of several.
func (b *book) asksOfNew(rig, slotWord string) []Ask {
	var asks []Ask
	stock := b.fold.Stocks()
	from := func(word string, only *form.Only) {
		if picks := stock.Of(rig, word); len(picks) > 1 {
			ask := Ask{Key: "line", Label: "From where?", Only: only}
			for _, p := range picks {
				ask.Options = append(ask.Options, Option{Word: p.Word, Label: p.Label})
			}
			asks = append(asks, ask)
		}
	}
	if slotWord == "" {
		which := Ask{Key: "slot", Label: "Which part is new?"}
		for _, word := range slotOrder[:5] {
			which.Options = append(which.Options, Option{Word: word, Label: capital(slot(word))})
		}
		asks = []Ask{which}
		var full []string // seats from which something comes out
		for _, word := range slotOrder[:5] {
			if _, ok := b.seated(rig, word); ok {
				full = append(full, word)
			}
		}
		if len(full) > 0 {
			why := whyAsk()
			why.Only = form.When("slot", full...)
			asks = append(asks, why)
		}
		for _, o := range which.Options {
			from(o.Word, form.When("slot", o.Word))
		}
		return asks
	}
	if _, ok := b.seated(rig, slotWord); ok {
		asks = append(asks, whyAsk())
	}
	from(slotWord, nil)
	return asks
}

func whyAsk() Ask { return Ask{Key: "why", Label: "Why did the old one come out?", Options: reasons} }

// seated is the part that is in that seat.
func (b *book) seated(rig, slot string) (string, bool) {
	for _, r := range b.fold.Now().Rigs {
		if r.Rig != rig {
			continue
		}
		if i := slices.IndexFunc(r.Parts, func(p fold.PartNow) bool { return p.Slot == slot }); i >= 0 {
			return r.Parts[i].Part, true
		}
	}
	return "", false
}

// rigIDs are the crew's rigs by name.
func (b *book) rigIDs() []string {
	var ids []string
	for _, t := range b.known().Rigs {
		ids = append(ids, t.ID)
	}
	order.Sort(ids, func(x, y string) int { return cmp.Or(cmp.Compare(b.rig(x), b.rig(y)), cmp.Compare(x, y)) })
	return ids
}
