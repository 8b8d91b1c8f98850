package exchange

import (
	"encoding/json"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

func TestAGapMeansRewound(t *testing.T) {
	c := Apply(Exchange{Status: 200, Reply: pageOf(Mark{N: 3}, 9, notes(t, "phone-b", 2)...)})
	if !c.Meta.Rewinding || len(c.Put) != 0 || !c.Again {
		t.Errorf("%+v", c)
	}
}

// TestRewind goes through a rewind: marks are asked for, the last common one is
// taken, everything above it is forgotten; the third within an hour stops.
func TestRewind(t *testing.T) {
	meta := Meta{Crew: "crew", Cursor: 300, Head: event.Chain{3}, Marks: []Mark{{100, event.Chain{1}}, {200, event.Chain{2}}, {300, event.Chain{3}}}}
	c := Apply(Exchange{Meta: meta, Status: 409, Reply: refusal(problem.Rewound, "at")})
	r := NextRequest(c.Meta, unsentRecords(t, 4), t0)
	var head RequestHead
	if err := json.Unmarshal([]byte(r.Body), &head); err != nil || len(head.Marks) != 4 || head.Count != 0 || len(r.Sent) != 0 || head.Marks[0].N != 0 {
		t.Fatalf("request while rewinding: %s, %v", r.Body, err)
	}
	answer := func(m Mark, now int64) string {
		return string(NewReply(ReplyHead{Crew: "crew", Now: now, Max: 150, Rewound: &m}).Bytes())
	}
	if forged := Apply(Exchange{Meta: c.Meta, Status: 200, Reply: answer(Mark{100, event.Chain{9}}, t0)}); forged.Forget != nil || forged.Meta.Cursor != 300 {
		t.Errorf("a mark that the phone does not hold was taken: %+v", forged)
	}
	meta = c.Meta
	for i := range 3 {
		meta.Rewinding = true
		c = Apply(Exchange{Meta: meta, Status: 200, Reply: answer(Mark{100, event.Chain{1}}, t0+int64(i)*20*minute)})
		if c.Forget == nil || *c.Forget != 100 || c.Meta.Cursor != 100 || c.Meta.Head != (event.Chain{1}) || len(c.Meta.Marks) != 1 || c.Meta.Gen != int64(i+1) {
			t.Fatalf("rewind %d: %+v", i, c)
		}
		if stopped := c.Meta.Stopped != nil; stopped != (i == 2) {
			t.Errorf("after rewind %d stopped = %t", i, stopped)
		}
		meta = c.Meta
	}
	if r := NextRequest(meta, nil, t0); r.Skip == nil || r.Body != "" {
		t.Errorf("a stopped replica sends %q", r.Body)
	}
	meta.Stopped, meta.Rewinding = nil, true
	if c = Apply(Exchange{Meta: meta, Status: 200, Reply: answer(Mark{}, t0+200*minute)}); c.Meta.Stopped != nil || c.Meta.Cursor != 0 || len(c.Meta.Marks) != 0 {
		t.Errorf("hours later: %+v", c)
	}
}
