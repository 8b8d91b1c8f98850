package lan

import (
	"strings"
	"testing"

	"kerfside/calc/problem"
)

func TestParseNames(t *testing.T) {
	for in, want := range map[string]string{
		"Shop.Local":            "shop.local",
		"192.168.1.20 shop.lan": "shop.lan 192.168.1.20",
		"[fd00::20] a.b.c-d.e":  "a.b.c-d.e fd00::20",
		"169.254.3.4":           "169.254.3.4",
	} {
		got, err := ParseNames(strings.Fields(in))
		if text := strings.Join(got.Hosts(), " "); err != nil || text != want {
			t.Errorf("ParseNames(%s) = %s, %v; want %s", in, text, err, want)
		}
	}
}

func TestParseNamesRefuses(t *testing.T) {
	for in, kind := range map[string]problem.Kind{
		"shop":            problem.Malformed, // as a constraint it would cover all of .shop
		"localhost":       problem.Malformed,
		"shop.local:8443": problem.Malformed,
		"*.local":         problem.Malformed,
		"a_b.local":       problem.Malformed,
		"shop.local.":     problem.Malformed,
		"https://a.local": problem.Malformed,
		"<b>.local":       problem.Malformed,
		"192.168.1":       problem.Malformed,
		"":                problem.Malformed,
		"8.8.8.8":         problem.Range,
		"127.0.0.1":       problem.Range,
		"2001:db8::1":     problem.Range,
		"0.0.0.0":         problem.Range,
	} {
		_, err := ParseNames([]string{in})
		if p := problem.From(err); err == nil || p.Kind != kind || p.Hint == "" {
			t.Errorf("ParseNames(%q) = %v, want kind %s with a hint", in, err, kind)
		}
	}
}
