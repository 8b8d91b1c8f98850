package book

import (
	"testing"
	"time"
	_ "time/tzdata" // so that no machine is without it
)

// TestZone: days, months and their begins are those of Go's time package in zones with a
// change of the clock, as it has them from the IANA time zone database.
func TestZone(t *testing.T) {
	for _, name := range []string{"Europe/Vienna", "America/Denver", "Australia/Lord_Howe", "Pacific/Apia", "UTC"} {
		where, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		var zone Zone
		begin := time.Date(2011, 1, 1, 0, 0, 0, 0, time.UTC)
		last := int64(1 << 40)
		for at := begin; at.Year() < 2013; at = at.Add(30 * time.Minute) {
			_, s := at.In(where).Zone()
			if m := int64(s / 60); m != last {
				zone, last = append(zone, Shift{From: at.UnixMilli(), Minutes: m}), m
			}
		}
		for at := begin; at.Year() < 2013; at = at.Add(97 * time.Minute) {
			want, got := at.In(where), zone.at(at.UnixMilli())
			if got.Year != want.Year() || got.Month != int(want.Month()) || got.Day != want.Day() || got.Minute != want.Hour()*60+want.Minute() {
				t.Fatalf("%s: %v is %+v", name, want, got)
			}
			if back := daysOf(got.Year, got.Month, got.Day); back != got.Number {
				t.Fatalf("%s: %+v is day %d", name, got, back)
			}
		}
		for m := 1; m <= 24; m++ {
			want := time.Date(2011, time.Month(m), 1, 0, 0, 0, 0, where).UnixMilli()
			if got := zone.ms(daysOf(2011, m, 1)); got != want {
				t.Errorf("%s: month %d begins at %d, want %d", name, m, got, want)
			}
		}
	}
}
