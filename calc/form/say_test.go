package form

import (
	"slices"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

func TestSayValues(t *testing.T) {
	tests := []struct {
		input string
		want  []string
	}{
		{`{"quantity": "length", "bare": "mm", "us": "in", "units": "us", "sort": "bore", "values": [6.35, 1.27, 0.95]}`, []string{"0.25 in", "0.05 in", "0.037 in"}},
		{`{"quantity": "length", "bare": "mm", "us": "in", "units": "us", "sort": "plate", "values": [6.35, 1.2]}`, []string{"1/4 in", "0.047 in"}},
		{`{"quantity": "length", "bare": "mm", "us": "in", "units": "metric", "values": [6.35, 0]}`, []string{"6.4 mm", "0 mm"}},
		{`{"quantity": "temperature", "bare": "°C", "us": "°F", "units": "us", "values": [100]}`, []string{"212 °F"}},
		{`{"quantity": "pressure", "in": "psi", "bare": "bar", "us": "psi", "units": "metric", "values": [90]}`, []string{"6.2 bar"}},
		{`{"quantity": "length", "bare": "mm", "us": "in"}`, []string{}},
	}
	for _, test := range tests {
		got, err := SayValues([]byte(test.input))
		if err != nil || !slices.Equal(got.Texts, test.want) {
			t.Errorf("SayValues(%s) = %q, %v, want %q", test.input, got.Texts, err, test.want)
		}
	}
	bad := []struct {
		input string
		kind  problem.Kind
	}{
		{`[1]`, problem.Malformed},
		{`{"quantity": "love"}`, problem.Unknown},
		{`{"quantity": "length", "bare": "psi", "us": "in"}`, problem.Unit},
		{`{"quantity": "length", "bare": "mm", "us": "in", "in": "V"}`, problem.Unit},
		{`{"quantity": "length", "bare": "mm", "us": "psi", "units": "us"}`, problem.Unit},
		{`{"quantity": "length", "bare": "mm", "us": "in", "values": [` + strings.Repeat("1,", 1000) + `1]}`, problem.Range},
	}
	for _, test := range bad {
		if _, err := SayValues([]byte(test.input)); problem.KindOf(err) != test.kind {
			t.Errorf("SayValues(%.60s) = %v, want kind %s", test.input, err, test.kind)
		}
	}
}
