// Package vector reads test vectors for the calculators: text files in
// testdata/calc, one for each calculator, that are run natively, over HTTP and
// as WebAssembly in a browser.
//
//	# A comment line.
//	case 30 A through 100 ft of 10 AWG
//	from nec-ch9-t8 worked with the table's 1.24 ohm/kft
//	in   supply {"current": "30A", "size": "10AWG", "length": "100ft", "volts": "240V"}
//	want drop 7.44 ±0.2%
//	want verdict is over
//	want rows.2.speed 0.0123 ±1e-4
//	says caution licensed electrician
//
//	case no length
//	from refusal
//	in   supply {"current": "30A"}
//	fail length missing
//
// A list field is written as the JSON that it is: {"cuts": [{"thickness": "6mm"}]}.
//
// want compares a number in SI: ±N% is relative, ±N absolute, ×N a factor up or
// down, exact means a relative 1e-12 (native code and WebAssembly may differ by
// 2e-13). miss, as in "miss speed 0.08 ×1.5 by 2.3", is a want that is known not to
// be met, by that factor: it fails once it is, or once the factor is another. is compares
// a word, true or false. A dotted key goes into a table by row number and key.
// says looks for words in the cautions or the working. fail wants an error
// with that field ("-" for none) and kind.
//
// from names where the expected values come from: the id of a source and,
// after it, where in it; or one of common-practice, from-memory, worked (by
// hand from a formula or from a table's figures), law (holds for any input),
// refusal. Two words may stand before the id of a source:
//
//	from lookup usc15-206 the law's inches
//	from run gnu-units wiregauge
//
// lookup says that a table was typed in and is compared with that same table,
// or that a rule is asked back; run, that a program was run for the value. A
// case is published only when it compares what was computed with what the
// source prints, be it a table's row or a worked example; then all that it
// wants is printed there, and what is our own sum stands in a case of its own.
package vector

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"kerfside/calc/source"
)

// Case is one vector.
type Case struct {
	Name  string
	Line  int // where it starts
	From  string
	Mark  string // lookup, run or nothing
	Where string
	Call  string          // calculator
	Input json.RawMessage // JSON object
	Wants []Want
	Miss  []Want // known not to be met
	Says  []Say
	Fail  *Fail
}

// Want is one expected result.
type Want struct {
	Key       string
	Number    float64
	Tolerance float64
	Relative  bool
	Factor    float64 // up or down that is allowed, in place of Tolerance; 0 for none
	By        float64 // factor by which a miss is off
	Word      string
	IsWord    bool
}

// Say is a text expected in the cautions or the working.
type Say struct{ In, Text string }

// Fail is the expected error.
type Fail struct{ Field, Kind string }

// Parse reads a vector file. An error names the line.
func Parse(text string) ([]Case, error) {
	var cases []Case
	for i, line := range strings.Split(text, "\n") {
		if j := strings.Index(line, " #"); j >= 0 && !strings.HasPrefix(line, "in") {
			line = line[:j]
		}
		word, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
		rest = strings.TrimSpace(rest)
		if word == "" || strings.HasPrefix(word, "#") {
			continue
		}
		if word == "case" {
			cases = append(cases, Case{Name: rest, Line: i + 1})
			continue
		}
		if len(cases) == 0 {
			return nil, fmt.Errorf("line %d: %q stands before the first case", i+1, word)
		}
		if err := cases[len(cases)-1].read(word, rest); err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
	}
	for _, c := range cases {
		if c.Call == "" || c.From == "" || (len(c.Wants) == 0 && len(c.Says) == 0 && len(c.Miss) == 0 && c.Fail == nil) {
			return nil, fmt.Errorf("line %d: case %q needs a from, an in and at least one want, says or fail", c.Line, c.Name)
		}
	}
	return cases, nil
}

func (c *Case) read(word, rest string) error {
	switch word {
	case "from":
		c.From, c.Where, _ = strings.Cut(rest, " ")
		if c.From == "lookup" || c.From == "run" {
			c.Mark = c.From
			c.From, c.Where, _ = strings.Cut(c.Where, " ")
		}
		if _, ok := source.ForCheck(source.ID(c.From)); !ok && (!origins[c.From] || c.Mark != "") {
			return fmt.Errorf("%q is neither a source nor worked, law or refusal", c.From)
		}
	case "in":
		name, input, _ := strings.Cut(rest, " ")
		if !json.Valid([]byte(input)) {
			return fmt.Errorf("the input of %s is not JSON: %s", name, input)
		}
		c.Call, c.Input = name, json.RawMessage(input)
	case "want":
		w, err := parseWant(rest)
		if err != nil {
			return err
		}
		c.Wants = append(c.Wants, w)
	case "miss":
		rest, by, _ := strings.Cut(rest, " by ")
		w, err := parseWant(rest)
		if err != nil {
			return err
		}
		if w.By, err = strconv.ParseFloat(by, 64); err != nil || w.Factor == 0 {
			return fmt.Errorf("miss %s: write such as 0.08 ×1.5 by 2.3", w.Key)
		}
		c.Miss = append(c.Miss, w)
	case "says":
		in, text, _ := strings.Cut(rest, " ")
		if in != "caution" && in != "working" {
			return fmt.Errorf("says looks in caution or working, not in %q", in)
		}
		c.Says = append(c.Says, Say{in, strings.TrimSpace(text)})
	case "fail":
		field, kind, _ := strings.Cut(rest, " ")
		c.Fail = &Fail{field, strings.TrimSpace(kind)}
	default:
		return fmt.Errorf("%q is none of case, from, in, want, says, fail", word)
	}
	return nil
}

func parseWant(s string) (Want, error) {
	key, rest, _ := strings.Cut(s, " ")
	rest = strings.TrimSpace(rest)
	if word, ok := strings.CutPrefix(rest, "is "); ok {
		return Want{Key: key, IsWord: true, Word: strings.TrimSpace(word)}, nil
	}
	number, tolerance, _ := strings.Cut(rest, " ")
	v, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return Want{}, fmt.Errorf("want %s: %q is not a number", key, number)
	}
	w := Want{Key: key, Number: v}
	tolerance = strings.TrimSpace(tolerance)
	if tolerance == "exact" {
		w.Tolerance, w.Relative = 1e-12, true
		return w, nil
	}
	if t, ok := strings.CutPrefix(tolerance, "×"); ok {
		if w.Factor, err = strconv.ParseFloat(t, 64); err != nil || w.Factor <= 1 {
			return Want{}, fmt.Errorf("want %s: factor %q is not a number above 1", key, t)
		}
		return w, nil
	}
	t, ok := strings.CutPrefix(tolerance, "±")
	if !ok {
		return Want{}, fmt.Errorf("want %s: give a tolerance, ±1%%, ±0.5, ×1.5 or exact", key)
	}
	t, w.Relative = strings.CutSuffix(t, "%")
	if w.Tolerance, err = strconv.ParseFloat(t, 64); err != nil {
		return Want{}, fmt.Errorf("want %s: tolerance %q is not a number", key, t)
	}
	if w.Relative {
		w.Tolerance /= 100
	}
	return w, nil
}
