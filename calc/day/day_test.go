package day

import (
	"fmt"
	"testing"
	"time"
)

// TestCivil holds each day from 1970 to 2500, and each century's turn beyond, to the
// standard library, which calc itself may not ask.
func TestCivil(t *testing.T) {
	check := func(days int64) {
		year, month, day := Civil(days)
		text := fmt.Sprintf("%04d-%02d-%02d", year, month, day)
		if want := time.Unix(days*24*3600, 0).UTC().Format("2006-01-02"); text != want {
			t.Fatalf("day %d is %s, want %s", days, text, want)
		}
		if y, m, d, ok := Read(text); !ok || y != year || m != month || d != day {
			t.Fatalf("%s is read as %d %d %d, %v", text, y, m, d, ok)
		}
	}
	for days := range int64(194_000) {
		check(days)
	}
	for year := 2500; year < 9999; year += 100 {
		turn := time.Date(year, 2, 27, 0, 0, 0, 0, time.UTC).Unix() / (24 * 3600)
		for days := turn; days < turn+4; days++ {
			check(days)
		}
	}
}

// TestRead: every text of that form is a day just if the standard library has it.
func TestRead(t *testing.T) {
	for _, year := range []int{0, 1, 1900, 1999, 2000, 2024, 2026, 9999} {
		for month := range 100 {
			for day := range 100 {
				text := fmt.Sprintf("%04d-%02d-%02d", year, month, day)
				_, err := time.Parse("2006-01-02", text)
				if _, _, _, ok := Read(text); ok != (err == nil) {
					t.Errorf("Read(%s): %v, want %v", text, ok, err == nil)
				}
			}
		}
	}
	for _, text := range []string{"", "2026-3-1", "2026-03-1 ", "2026/03/01", "+026-03-01", "2026-03-01T", "٢026-03-1"} {
		if _, _, _, ok := Read(text); ok {
			t.Errorf("Read(%q) reads a day", text)
		}
	}
}

func TestReadTime(t *testing.T) {
	for hour := range 100 {
		for minute := range 100 {
			text := fmt.Sprintf("%02d:%02d", hour, minute)
			h, m, ok := ReadTime(text)
			if want := hour < 24 && minute < 60; ok != want || ok && (h != int64(hour) || m != int64(minute)) {
				t.Errorf("ReadTime(%s) = %d, %d, %v", text, h, m, ok)
			}
		}
	}
	for _, text := range []string{"", "7:05", "17.05", "17:5x", "17:05:00", "-1:05"} {
		if _, _, ok := ReadTime(text); ok {
			t.Errorf("ReadTime(%q) reads a time", text)
		}
	}
}
