package fold

import "slices"

// Spread is how some amounts are spread: their median and their quartiles.
type Spread struct {
	N      int   `json:"n"`
	Low    int64 `json:"low"`
	Median int64 `json:"median"`
	High   int64 `json:"high"`
}

// spreadOf returns the spread of amounts. A quantile lies between two amounts as far as
// its rank does,
//
//	h = (n−1)·p    q = x[⌊h⌋] + (h−⌊h⌋)·(x[⌊h⌋+1] − x[⌊h⌋])
//
// rounded down; definition 7 of R. J. Hyndman and Y. Fan, Sample quantiles in statistical
// packages, The American Statistician 50 (1996) 361–365.
func spreadOf(list []int64) Spread {
	if len(list) == 0 {
		return Spread{}
	}
	slices.Sort(list)
	at := func(quarters int) int64 {
		h := (len(list) - 1) * quarters
		i, rest := h/4, int64(h%4)
		if rest == 0 {
			return list[i]
		}
		return list[i] + rest*(list[i+1]-list[i])/4
	}
	return Spread{N: len(list), Low: at(1), Median: at(2), High: at(3)}
}
