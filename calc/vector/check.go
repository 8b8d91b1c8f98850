package vector

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Check compares the reply to a case, as JSON (an answer or an error
// envelope), with what it wants. It returns one line for each difference.
func (c Case) Check(reply []byte) []string {
	var got struct {
		Results  map[string]any `json:"results"`
		Cautions []string       `json:"cautions"`
		Working  []string       `json:"working"`
		Error    *struct {
			Kind, Field, Msg string
		} `json:"error"`
	}
	if err := json.Unmarshal(reply, &got); err != nil {
		return []string{fmt.Sprintf("the reply is not JSON: %v", err)}
	}
	if c.Fail != nil {
		return c.checkFail(got.Error != nil, func() (string, string) { return got.Error.Field, got.Error.Kind })
	}
	if got.Error != nil {
		return []string{fmt.Sprintf("error %s %s: %s", got.Error.Kind, got.Error.Field, got.Error.Msg)}
	}
	var wrong []string
	for _, w := range c.Wants {
		if s := w.check(got.Results); s != "" {
			wrong = append(wrong, s)
		}
	}
	for _, w := range c.Miss {
		if s := w.check(got.Results); s != "" {
			wrong = append(wrong, s)
		}
	}
	for _, s := range c.Says {
		lines := got.Cautions
		if s.In == "working" {
			lines = got.Working
		}
		if !strings.Contains(strings.Join(lines, "\n"), s.Text) {
			wrong = append(wrong, fmt.Sprintf("%s does not say %q: %q", s.In, s.Text, lines))
		}
	}
	return wrong
}

func (c Case) checkFail(failed bool, got func() (field, kind string)) []string {
	if !failed {
		return []string{fmt.Sprintf("no error, want %s %s", c.Fail.Field, c.Fail.Kind)}
	}
	field, kind := got()
	if field == "" {
		field = "-"
	}
	if field != c.Fail.Field || kind != c.Fail.Kind {
		return []string{fmt.Sprintf("error %s %s, want %s %s", field, kind, c.Fail.Field, c.Fail.Kind)}
	}
	return nil
}

func (w Want) check(results map[string]any) string {
	v, ok := dig(results, strings.Split(w.Key, "."))
	if !ok {
		return fmt.Sprintf("no result %s", w.Key)
	}
	if m, isValue := v.(map[string]any); isValue {
		v = m["value"]
	}
	if w.IsWord {
		if got := fmt.Sprint(v); got != w.Word {
			return fmt.Sprintf("%s = %q, want %q", w.Key, got, w.Word)
		}
		return ""
	}
	n, ok := v.(float64)
	if !ok {
		return fmt.Sprintf("%s = %v, want a number", w.Key, v)
	}
	if w.Factor > 0 {
		return w.checkFactor(n)
	}
	allowed := w.Tolerance
	if w.Relative {
		allowed *= math.Abs(w.Number)
	}
	if !(math.Abs(n-w.Number) <= allowed) {
		return fmt.Sprintf("%s = %.12g, want %.12g ± %.3g", w.Key, n, w.Number, allowed)
	}
	return ""
}

// checkFactor is check of a factor up or down, or of a known miss.
func (w Want) checkFactor(n float64) string {
	off := max(n/w.Number, w.Number/n)
	switch near := off > 0 && off <= w.Factor; {
	case w.By == 0 && !near:
		return fmt.Sprintf("%s = %.6g, want %.6g ×%v, is off by %.2f", w.Key, n, w.Number, w.Factor, off)
	case w.By > 0 && near:
		return fmt.Sprintf("%s = %.6g is a miss no more: want %.6g ×%v", w.Key, n, w.Number, w.Factor)
	case w.By > 0 && !(math.Abs(off/w.By-1) <= 0.02):
		return fmt.Sprintf("%s = %.6g misses %.6g by %.2f, not by %v", w.Key, n, w.Number, off, w.By)
	}
	return ""
}

// dig follows a dotted key into objects and arrays.
func dig(v any, path []string) (any, bool) {
	for _, p := range path {
		switch at := v.(type) {
		case map[string]any:
			next, ok := at[p]
			if !ok {
				return nil, false
			}
			v = next
		case []any:
			i, err := strconv.Atoi(p)
			if err != nil || i < 0 || i >= len(at) {
				return nil, false
			}
			v = at[i]
		default:
			return nil, false
		}
	}
	return v, true
}
