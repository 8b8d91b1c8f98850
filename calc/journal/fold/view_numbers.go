package fold

import (
	"strconv"
	"strings"

	"kerfside/calc/order"
)

// Numbers are the numbers that jobs have on their papers.
type Numbers struct {
	Numbers []NumberOf `json:"numbers"`
	Next    string     `json:"next"` // one that is free
}

// NumberOf is a number with the jobs that have it; two phones may have given one to two.
type NumberOf struct {
	Number string   `json:"number"`
	Jobs   []string `json:"jobs"`
}

// longestCount is how many digits at the end of a number count on.
const longestCount = 15

// Numbers returns the numbers in use. The next one counts on from those that begin as the
// number does that was given last, and keeps its noughts: 2026-009 is followed by 2026-010.
func (f *Fold) Numbers() Numbers {
	x := f.settled()
	jobs := map[string][]string{}
	last, lastBy := "", (*entry)(nil)
	for _, id := range order.Keys(x.jobs) {
		w, ok := x.jobs[id].fields.winner("number")
		number := strings.TrimSpace(x.jobs[id].fields.text("number"))
		if id == "" || !ok || number == "" {
			continue
		}
		jobs[number] = append(jobs[number], id)
		if lastBy == nil || w.by.place.Written(lastBy.place) > 0 {
			last, lastBy = number, w.by
		}
	}
	v := Numbers{Numbers: []NumberOf{}}
	begin, width, most := "", 0, int64(0)
	if last != "" {
		begin, width, _ = counted(last)
	}
	for _, number := range order.Keys(jobs) {
		v.Numbers = append(v.Numbers, NumberOf{Number: number, Jobs: jobs[number]})
		if other, _, n := counted(number); other == begin {
			most = max(most, n)
		}
	}
	next := strconv.FormatInt(most+1, 10)
	v.Next = begin + strings.Repeat("0", max(0, width-len(next))) + next
	return v
}

// counted parts a number into what it begins with and the count at its end, of so many
// digits.
func counted(number string) (begin string, width int, n int64) {
	begin = strings.TrimRight(number, "0123456789")
	if len(number)-len(begin) > longestCount {
		begin = number[:len(number)-longestCount]
	}
	n, _ = strconv.ParseInt(number[len(begin):], 10, 64)
	return begin, len(number) - len(begin), n
}
