package registry

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/problem"
)

// TestSweep enters the ends of what each field allows, values between them, its
// chips and nothing, in every mixture that a seed gives, into every
// calculator; every other round it spoils a vector in a field or two instead,
// so that free texts and lists are reached as well. What comes back is an answer without NaN or infinity, in results
// and in words, or a problem that says what to do.
func TestSweep(t *testing.T) {
	const seed, rounds = 7, 400
	cases := load(t)
	for _, c := range All() {
		t.Run(fmt.Sprintf("%s/seed %d", c.Name, seed), func(t *testing.T) {
			r := rand.New(rand.NewSource(seed))
			answers := 0
			for round := range rounds {
				values, often := map[string]any{}, 1
				if list := cases[c.Name]; round%2 == 1 && len(list) > 0 {
					if err := json.Unmarshal(list[r.Intn(len(list))].Input, &values); err != nil {
						t.Fatal(err)
					}
					often = len(c.Fields)
				}
				for i := range c.Fields {
					if r.Intn(often) > 0 {
						continue
					}
					if v, ok := entry(r, &c.Fields[i]); ok {
						values[c.Fields[i].Key] = v
					}
				}
				a, err := c.CalculateValues(values)
				if err != nil {
					if p := problem.From(err); p.Kind == problem.Internal || p.Msg == "" || p.Hint == "" {
						t.Fatalf("%v: %v", values, cause(err))
					}
					continue
				}
				answers++
				b, err := json.Marshal(a) // refuses NaN and infinities in results
				if err != nil {
					t.Fatalf("%v: %v", values, err)
				}
				for _, bad := range []string{"NaN", "Inf", "%!"} {
					if strings.Contains(string(b), bad) {
						t.Fatalf("%v: the answer says %s: %s", values, bad, b)
					}
				}
			}
			if answers < rounds/50 {
				t.Errorf("only %d answers in %d rounds: the sweep hardly reached the sum", answers, rounds)
			}
		})
	}
}

// entry draws something to enter into a field, or nothing.
func entry(r *rand.Rand, f *form.Field) (any, bool) {
	if (f.Optional || f.Default != "") && r.Intn(3) == 0 {
		return nil, false
	}
	if chips := slices.Concat(f.Chips, f.ChipsUS); len(chips) > 0 && r.Intn(3) == 0 {
		return chips[r.Intn(len(chips))], true
	}
	switch f.Takes.Kind {
	case form.KindChoice:
		return f.Takes.Choices[r.Intn(len(f.Takes.Choices))].Word, true
	case form.KindYesNo:
		return r.Intn(2) == 0, true
	case form.KindText, form.KindPairs:
		return nil, false
	case form.KindList:
		rows := make([]any, 1+r.Intn(4))
		for n := range rows {
			row := map[string]any{}
			for i := range f.Takes.List.Row.Fields {
				cell := &f.Takes.List.Row.Fields[i]
				if v, ok := entry(r, cell); ok {
					row[cell.Key] = v
				}
			}
			rows[n] = row
		}
		return rows, true
	}
	if !f.Limits.Set {
		return 1 + r.Intn(9), true
	}
	v := between(r, f.Limits)
	if f.Takes.Quantity == nil {
		if f.Takes.Kind == form.KindCount {
			v = math.Round(v)
		}
		return fmt.Sprintf("%.17g", v), true
	}
	for _, u := range f.Takes.Quantity.Units {
		if u.Size == 1 && u.Zero == 0 {
			return fmt.Sprintf("%.17g %s", v, u.Name), true
		}
	}
	u := f.Takes.Quantity.Units[0]
	return fmt.Sprintf("%.17g %s", (v-u.Zero)/u.Size, u.Name), true
}

// between draws an end of the limits, or a value between them on a scale of
// equal ratios where they allow it.
func between(r *rand.Rand, l form.Limits) float64 {
	switch r.Intn(5) {
	case 0:
		return l.Min
	case 1:
		return l.Max
	}
	if l.Min > 0 {
		return l.Min * math.Pow(l.Max/l.Min, r.Float64())
	}
	return l.Min + (l.Max-l.Min)*r.Float64()*r.Float64()
}

func cause(err error) error {
	if p := problem.From(err); p.Unwrap() != nil {
		return p.Unwrap()
	}
	return err
}
