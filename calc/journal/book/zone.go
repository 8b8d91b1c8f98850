package book

import (
	"fmt"
	"sort"
	"strconv"

	"kerfside/calc/day"
)

// Zone says what the phone's clock shows: from each of these moments on, rising, so many
// minutes ahead of UTC. The first holds before it too.
type Zone []Shift

// Shift is a change of the clock.
type Shift struct {
	From    int64 `json:"from"` // ms since 1970 UTC
	Minutes int64 `json:"minutes"`
}

const (
	minuteMs = 60_000
	hourMs   = 60 * minuteMs
	dayMs    = 24 * hourMs
)

// date is a day and a time of it as a clock on the wall shows them.
type date struct {
	Year, Month, Day int // Month and Day from 1
	Number           int64
	Minute           int // of the day
}

// at is what the clock shows at ms.
func (z Zone) at(ms int64) date {
	i := sort.Search(len(z), func(i int) bool { return z[i].From > ms })
	if len(z) > 0 {
		ms += z[max(i-1, 0)].Minutes * minuteMs
	}
	days := floorDiv(ms, dayMs)
	y, m, d := day.Civil(days)
	return date{Year: int(y), Month: int(m), Day: int(d), Number: days, Minute: int((ms - days*dayMs) / minuteMs)}
}

// ms is when the clock shows the begin of a day, counted from 1970; of two the first.
func (z Zone) ms(day int64) int64 {
	at := day * dayMs
	for range 2 { // the shift of the guess may be that before the clock was changed
		shift := int64(0)
		if i := sort.Search(len(z), func(i int) bool { return z[i].From > at }); len(z) > 0 {
			shift = z[max(i-1, 0)].Minutes
		}
		at = day*dayMs - shift*minuteMs
	}
	return at
}

// daysOf counts the days from 1970 to a date, by H. Hinnant, "chrono-Compatible Low-Level
// Date Algorithms" (2021), days_from_civil. A month may lie outside of 1 to 12.
func daysOf(year, month, day int) int64 {
	y, m := int64(year), int64(month)
	y += floorDiv(m-1, 12)
	m = m - 12*floorDiv(m-1, 12)
	if m <= 2 {
		y--
	}
	era := floorDiv(y, 400)
	ofEra := y - era*400
	shifted := m - 3
	if m <= 2 {
		shifted = m + 9
	}
	doy := (153*shifted+2)/5 + int64(day) - 1
	return era*146_097 + ofEra*365 + ofEra/4 - ofEra/100 + doy - 719_468
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

var months = [...]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

// day names a day: today, yesterday, 3 Nov, or with its year where that is another.
func (b *book) day(ms int64) string {
	d, now := b.Zone.at(ms), b.Zone.at(b.Now)
	switch {
	case d.Number == now.Number:
		return "today"
	case d.Number == now.Number-1:
		return "yesterday"
	case d.Number == now.Number+1:
		return "tomorrow"
	case d.Year == now.Year:
		return strconv.Itoa(d.Day) + " " + months[d.Month-1]
	}
	return dated(d)
}

// date is a day as it stands on paper: 3 Nov 2026.
func (b *book) date(ms int64) string { return dated(b.Zone.at(ms)) }

func dated(d date) string { return fmt.Sprintf("%d %s %d", d.Day, months[d.Month-1], d.Year) }

// clock is the time of day: 14:05.
func (b *book) clock(ms int64) string {
	m := b.Zone.at(ms).Minute
	return fmt.Sprintf("%02d:%02d", m/60, m%60)
}

// stamp is day and time for a file, as ISO 8601 writes them: 2026-11-03 14:05.
func (b *book) stamp(ms int64) string {
	if ms == 0 {
		return ""
	}
	d := b.Zone.at(ms)
	return fmt.Sprintf("%04d-%02d-%02d %02d:%02d", d.Year, d.Month, d.Day, d.Minute/60, d.Minute%60)
}
