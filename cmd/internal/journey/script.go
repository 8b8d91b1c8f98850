package journey

import (
	"fmt"
	"slices"
	"strings"
)

// Script is a journey that has been read.
type Script struct {
	Name  string // of the file, for messages
	Steps []Step
}

// Step is one line of a script.
type Step struct {
	Line int
	Verb string
	Text string // what follows the verb
}

// String returns the step as it was written.
func (s Step) String() string { return strings.TrimSpace(s.Verb + " " + s.Text) }

// Parse reads a script. Every line is checked for its verb and its form, so
// that a slip is found before a browser has been started.
func Parse(name, text string) (Script, error) {
	script := Script{Name: name}
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		step, err := parseStep(line)
		if err != nil {
			return Script{}, fmt.Errorf("%s:%d: %w", name, i+1, err)
		}
		step.Line = i + 1
		script.Steps = append(script.Steps, step)
	}
	if len(script.Steps) == 0 {
		return Script{}, fmt.Errorf("%s: no steps", name)
	}
	return script, nil
}

// parseStep reads one line. A verb may have two words ("kill browser").
func parseStep(line string) (Step, error) {
	first, rest, _ := strings.Cut(line, " ")
	rest = strings.TrimSpace(rest)
	second, after, _ := strings.Cut(rest, " ")
	for _, name := range []string{first + " " + second, first} { // "at most" is not "at"
		i := slices.IndexFunc(verbs, func(v verb) bool { return v.name == name })
		if i < 0 {
			continue
		}
		step := Step{Verb: name, Text: rest}
		if name != first {
			step.Text = strings.TrimSpace(after)
		}
		return step, verbs[i].check(step)
	}
	return Step{}, fmt.Errorf("no verb %q; there are %s", first, verbNames())
}

// form is what has to follow a verb.
type form int

const (
	nothing form = iota
	text         // any text
	pair         // text = text
)

// check says whether the step's text has the form that the verb needs.
func (v verb) check(s Step) error {
	left, right, both := strings.Cut(s.Text, " = ")
	switch {
	case v.form == nothing && s.Text != "":
		return fmt.Errorf("%s takes nothing, but %q follows", s.Verb, s.Text)
	case v.form == text && s.Text == "":
		return fmt.Errorf("%s needs a text, as in: %s", s.Verb, v.example)
	case v.form == pair && (!both || strings.TrimSpace(left) == "" || strings.TrimSpace(right) == ""):
		return fmt.Errorf("%s needs two texts, as in: %s", s.Verb, v.example)
	}
	return nil
}

// sides returns both texts of a pair.
func (s Step) sides() (left, right string) {
	left, right, _ = strings.Cut(s.Text, " = ")
	return strings.TrimSpace(left), strings.TrimSpace(right)
}

// verbNames lists all verbs for a message.
func verbNames() string {
	var names []string
	for _, v := range verbs {
		names = append(names, v.name)
	}
	slices.Sort(names)
	return strings.Join(names, ", ")
}
