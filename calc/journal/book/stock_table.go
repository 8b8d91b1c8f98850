package book

import "strconv"

// stockTable is the stock as a table, and the file of it. What it has is read again from
// a file, by these keys: see readStock.
func (b *book) stockTable() Table {
	t := Table{Columns: []Column{
		{Key: "part", Title: "Part"}, {Key: "rating", Title: "Rating"}, {Key: "name", Title: "Name"}, {Key: "truck", Title: "Truck"},
		{Key: "pieces", Title: "Pieces", Number: true}, {Key: "least", Title: "Lowest count", Number: true}, {Key: "price", Title: "Price", Unit: b.setting("currency"), Number: true}, {Key: "counted", Title: "Counted", Number: true},
	}}
	places, lines := b.stockByPlace()
	for _, at := range places {
		for _, l := range lines[at] {
			row := []Cell{{Text: capital(slot(l.Slot)), Plain: l.Slot, Href: "/book/line/" + l.ID}, {Text: l.Rating}, {Text: l.Name}, {Text: b.place(at), Plain: b.truckWord(at)},
				number(l.N), {}, {}, {}}
			if l.Slot == "" {
				row[0].Text, row[0].Plain = "Something else", other
			}
			if l.Least > 0 {
				row[5] = number(l.Least)
			}
			if l.Price > 0 {
				row[6] = Cell{Text: b.money(l.Price), Value: float64(l.Price), Plain: strconv.FormatFloat(float64(l.Price)/100, 'f', 2, 64)}
			}
			if l.Counted > 0 {
				row[7] = Cell{Text: b.day(l.Counted), Value: float64(l.Counted), Plain: b.stamp(l.Counted)}
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

func number(n int64) Cell { return Cell{Text: strconv.FormatInt(n, 10), Value: float64(n)} }
