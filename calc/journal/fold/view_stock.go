package fold

import "kerfside/calc/order"

// Stocks is the view stock.
type Stocks struct {
	Lines []Stock `json:"lines"`
}

// Stocks returns the view stock, by id.
func (f *Fold) Stocks() Stocks {
	x := f.settled()
	v := Stocks{Lines: []Stock{}}
	for _, id := range order.Keys(x.stockLines) {
		l := x.stockLines[id]
		if s := l.stock(); len(s.By) > 0 || l.moved() {
			s.Same = x.aliases(id)
			v.Lines = append(v.Lines, s)
		}
	}
	return v
}
