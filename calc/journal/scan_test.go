package journal

import (
	"encoding/json"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

// manyKeys is an object with n keys, none twice.
func manyKeys(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, `,"%x":0`, i)
	}
	return "{" + b.String()[1:] + "}"
}

// TestScanIsLinear: twice as many keys are at most some more than twice the work,
// in an object where each is new and in one where all are the same.
func TestScanIsLinear(t *testing.T) {
	looks := func(text string) int {
		o, err := members([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		return o.looks
	}
	for name, text := range map[string]func(n int) string{
		"new keys": func(n int) string {
			var b strings.Builder
			for i := range n {
				fmt.Fprintf(&b, `,"%x":0`, i)
			}
			return "{" + b.String()[1:] + "}"
		},
		"one key": func(n int) string { return "{" + strings.Repeat(`"a":0,`, n-1) + `"a":0}` },
	} {
		for n := 500; n <= 64_000; n *= 2 {
			once, double := looks(text(n)), looks(text(2*n))
			if once < n/2 || float64(double) > 2.5*float64(once) {
				t.Errorf("%s: %d keys are compared %d times, twice as many %d times", name, n, once, double)
			}
		}
	}
}

// TestOverlongLineIsNotRead: what is longer than an event with its o can be is
// refused for its length, whatever stands in it: nothing was scanned.
func TestOverlongLineIsNotRead(t *testing.T) {
	for name, line := range map[string]string{
		"120,000 keys":          manyKeys(120_000),
		"offered again":         `{"o":"0199f3c0b4000000","raw":` + manyKeys(120_000) + `}`,
		"no JSON at all":        strings.Repeat("\x00{[", 1<<18),
		"one byte too long":     strings.Repeat("x", MaxEvent+maxAround+1),
		"an event that is long": strings.Replace(worked, "tip changed", strings.Repeat("x", MaxEvent), 1),
	} {
		if _, err := readPush([]byte(line)); problem.KindOf(err) != problem.TooLarge {
			t.Errorf("%s: as a line %v, want too-large", name, err)
		}
		if _, err := Decode([]byte(line)); problem.KindOf(err) != problem.TooLarge {
			t.Errorf("%s: as an event %v, want too-large", name, err)
		}
		body := `{"proto":1,"count":1}` + "\n" + line + "\n"
		if _, _, err := ReadRequest([]byte(body)); problem.KindOf(err) != problem.TooLarge {
			t.Errorf("%s: in a request %v, want too-large", name, err)
		}
	}
	longest := strings.Replace(worked, "tip changed", strings.Repeat("x", MaxEvent-len(worked)+len("tip changed")), 1)
	for name, line := range map[string][]byte{"bare": []byte(longest), "offered again": appendEvent(nil, longest, new(Stamp(7)))[:len(longest)+len(`{"o":"0000000000000007","raw":}`)]} {
		if p, err := readPush(line); err != nil || string(p.Event.Raw) != longest {
			t.Errorf("the longest event, %s: %v", name, err)
		}
	}
}

// TestOverlongLineOfAFile: nor is one of a file, and it keeps no other out.
func TestOverlongLineOfAFile(t *testing.T) {
	for name, line := range map[string]string{
		"120,000 keys":          manyKeys(120_000),
		"offered again":         `{"o":"0199f3c0b4000000","raw":` + manyKeys(120_000) + `}`,
		"no JSON at all":        strings.Repeat("\x00{[", 1<<18),
		"an event that is long": strings.Replace(worked, "tip changed", strings.Repeat("x", MaxEvent), 1),
	} {
		file, _ := jsonOf(map[string]string{"text": `{"kerfside":1,"count":3}` + "\n" + worked + "\n" + line + "\n" + strings.Replace(worked, "Qk3v", "Qk4v", 1) + "\n"})
		v, err := NewDesk().Call("journal-import", json.RawMessage(file))
		if err != nil {
			t.Fatal(err)
		}
		if in := v.(Imported); len(in.Events) != 2 || len(in.Refused) != 1 || in.Refused[0].Error.Kind != problem.TooLarge || in.Refused[0].Line != 3 {
			t.Errorf("%s: of a file %d came in, refused %+v", name, len(in.Events), in.Refused)
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
		many.Marks = append(many.Marks, Mark{n * marksStretch, Chain{9}})
	}
	if head, _, err := ReadRequest([]byte(NextRequest(many, nil, t0).Body)); err != nil || len(head.Marks) != len(many.Marks)+1 {
		t.Errorf("of a replica of ten million arrivals: %d marks, %v", len(head.Marks), err)
	}
}

// TestHungryFiles: nor does a file that somebody chose by mistake; what is good in it
// comes in all the same.
func TestHungryFiles(t *testing.T) {
	for name, c := range map[string]struct {
		filling string
		told    int
	}{"empty lines": {"\n", 0}, "one letter": {"x\n", maxRefused + 1}, "arrays in arrays": {strings.Repeat("[", 9000) + "\n", 116}} {
		in, err := jsonOf(map[string]string{"text": `{"kerfside":1,"count":2}` + "\n" + worked + "\n" + strings.Repeat(c.filling, 1<<20/len(c.filling)) + strings.Replace(worked, "Qk3v", "Qk4v", 1)})
		if err != nil {
			t.Fatal(err)
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		v, err := NewDesk().Call("journal-import", json.RawMessage(in))
		runtime.ReadMemStats(&after)
		if err != nil {
			t.Fatal(err)
		}
		got := v.(Imported)
		if len(got.Events) != 2 || len(got.Refused) != c.told {
			t.Errorf("%s: %d came in, %d refused, want 2 and %d", name, len(got.Events), len(got.Refused), c.told)
		}
		out, err := jsonOf(got)
		if held := len(out); err != nil || held > 1<<19 {
			t.Errorf("%s: the answer has %d bytes, %v", name, held, err)
		}
		if took := after.TotalAlloc - before.TotalAlloc; c.told == 0 && took > 16<<20 {
			t.Errorf("%s: it took %d bytes of memory", name, took)
		}
	}
}

// TestKeyTwice: at the top of an event no key may stand twice, or two readers would
// see two events. Below, the last counts, as it does for every reader of JSON.
func TestKeyTwice(t *testing.T) {
	for _, key := range []string{`"id":"Qk3vZ0mJ8cW1xT5rLb2hYB"`, `"v":2`, `"body":{}`, `"mood":1,"mood":1`, `"m\u006fod":1,"mood":1`} {
		raw := strings.Replace(worked, `"v":1`, `"v":1,`+key, 1)
		if _, err := Decode([]byte(raw)); problem.KindOf(err) != problem.Malformed {
			t.Errorf("%s twice: %v, want malformed", key, err)
		}
	}
	for _, body := range []string{`{"n":7,"n":3}`, `{"n":{"n":7},"\u006e":3}`, `{"n":3,"x":{"y":1,"y":2}}`, `{` + strings.Repeat(`"n":8,`, 100) + `"n":3}`} {
		s := (&script{t: t}).add("a", 0, "stock.counted", `{"n":0}`, about("line-1"))
		s.events[0].Body = json.RawMessage(body)
		var read map[string]any
		if err := json.Unmarshal([]byte(body), &read); err != nil || read["n"] != 3. {
			t.Fatalf("%s: encoding/json reads %v, %v", body, read, err)
		}
		if lines := s.fold().Stocks().Lines; len(lines) != 1 || lines[0].N != 3 {
			t.Errorf("%s: stock %+v, want 3", body, lines)
		}
	}
}
