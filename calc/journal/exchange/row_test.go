package exchange

import (
	"runtime"
	"strings"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// TestOverlongLineIsNotRead: what is longer than an event with its o can be is
// refused for its length, whatever stands in it: nothing was scanned.
func TestOverlongLineIsNotRead(t *testing.T) {
	for name, line := range map[string]string{
		"120,000 keys":          manyKeys(120_000),
		"offered again":         `{"o":"0199f3c0b4000000","raw":` + manyKeys(120_000) + `}`,
		"no JSON at all":        strings.Repeat("\x00{[", 1<<18),
		"one byte too long":     strings.Repeat("x", event.MaxEvent+maxAround+1),
		"an event that is long": strings.Replace(worked, "tip changed", strings.Repeat("x", event.MaxEvent), 1),
	} {
		if _, err := ReadPush([]byte(line)); problem.KindOf(err) != problem.TooLarge {
			t.Errorf("%s: as a line %v, want too-large", name, err)
		}
		if _, err := event.Decode([]byte(line)); problem.KindOf(err) != problem.TooLarge {
			t.Errorf("%s: as an event %v, want too-large", name, err)
		}
		body := `{"proto":1,"count":1}` + "\n" + line + "\n"
		if _, _, err := ReadRequest([]byte(body)); problem.KindOf(err) != problem.TooLarge {
			t.Errorf("%s: in a request %v, want too-large", name, err)
		}
	}
	longest := strings.Replace(worked, "tip changed", strings.Repeat("x", event.MaxEvent-len(worked)+len("tip changed")), 1)
	for name, line := range map[string][]byte{"bare": []byte(longest), "offered again": AppendEvent(nil, longest, new(event.Stamp(7)))[:len(longest)+len(`{"o":"0000000000000007","raw":}`)]} {
		if p, err := ReadPush(line); err != nil || string(p.Event.Raw) != longest {
			t.Errorf("the longest event, %s: %v", name, err)
		}
	}
}

// TestHungryRequests: what a body takes in memory follows from what it may hold, not
// from what somebody fills it with.
func TestHungryRequests(t *testing.T) {
	const size = MaxBody + 256<<10
	fill := func(head, filling, tail string) []byte {
		return []byte(head + strings.Repeat(filling, (size-len(head)-len(tail))/len(filling)) + tail)
	}
	for name, c := range map[string]struct {
		body []byte
		want problem.Kind
	}{
		"empty lines":         {fill(`{"proto":1,"count":0}`, "\n", ""), problem.Cut},
		"empty lines of many": {fill(`{"proto":1,"count":500}`, "\n", ""), problem.Cut},
		"marks":               {fill(`{"proto":1,"marks":[{}`, ",{}", "]}\n"), problem.Malformed},
		"arrays in arrays":    {fill(`{"proto":1,"x":`, "[", "\n"), problem.Malformed},
		"no end of a line":    {fill(`{"proto":1`, " ", ""), problem.Cut},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, _, err := ReadRequest(c.body)
		runtime.ReadMemStats(&after)
		if problem.KindOf(err) != c.want {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
		if took := after.TotalAlloc - before.TotalAlloc; took > size {
			t.Errorf("%s: %d bytes took %d of memory", name, len(c.body), took)
		}
	}
	many := Meta{Rewinding: true}
	for n := range int64(10_000_000 / marksStretch) { // as Remember leaves them
		many.Marks = append(many.Marks, Mark{n * marksStretch, event.Chain{9}})
	}
	if head, _, err := ReadRequest([]byte(NextRequest(many, nil, t0).Body)); err != nil || len(head.Marks) != len(many.Marks)+1 {
		t.Errorf("of a replica of ten million arrivals: %d marks, %v", len(head.Marks), err)
	}
}
