package process

import (
	"testing"
	"time"
)

// noted is a program that notes what it is told; it ends its turns after three.
type noted struct {
	said []string
	end  chan struct{}
}

func (n *noted) pause() { n.said = append(n.said, "stop") }

func (n *noted) resume() {
	if n.said = append(n.said, "go"); len(n.said) == 6 {
		close(n.end)
	}
}

func (*noted) used() (d, lost time.Duration, known bool) { return 0, 0, false }

// A program takes turns with standing still, and always ends running.
func TestTurns(t *testing.T) {
	p := &noted{end: make(chan struct{})}
	turns(4, p, p.end)
	said := p.said
	if len(said) < 6 || said[0] != "stop" || said[len(said)-1] != "go" {
		t.Errorf("the turns were %v, want stop, go, … ending with go", said)
	}
	for i, word := range said {
		if want := []string{"stop", "go"}[i%2]; word != want {
			t.Errorf("turn %d is %s, want %s", i, word, want)
		}
	}
}

// A program that is six times slower has stood still, once its account is even,
// for five times what it used, however late it was stopped and let go.
func TestAccount(t *testing.T) {
	const ms = time.Millisecond
	for _, c := range []struct {
		name                    string
		ran, used, stood, still time.Duration // still: used although it was to stand
		owed                    time.Duration
	}{
		{name: "on time", ran: ms, used: ms, stood: 5 * ms, still: 0, owed: 0},
		{name: "let go early", ran: ms, used: ms, stood: 2 * ms, still: 0, owed: 3 * ms},
		{name: "let go late", ran: ms, used: ms, stood: 7 * ms, still: 0, owed: -2 * ms},
		{name: "stopped late", ran: 3 * ms, used: 3 * ms, stood: 5 * ms, still: 0, owed: 10 * ms},
		{name: "idle", ran: 20 * ms, used: 0, stood: 0, still: 0, owed: 0},
		{name: "half idle", ran: 20 * ms, used: ms, stood: 5 * ms, still: 0, owed: 0},
		{name: "on two processors", ran: ms, used: 2 * ms, stood: 5 * ms, still: 0, owed: 0},
		{name: "a thread heard of the stop late", ran: ms, used: ms, stood: 5 * ms, still: 2 * ms, owed: 12 * ms},
		{name: "none heard of it", ran: ms, used: ms, stood: 5 * ms, still: 10 * ms, owed: 30 * ms},
	} {
		a := account{times: 6}
		a.ran(c.ran, c.used)
		a.stood(c.stood, c.still)
		if a.owed != c.owed {
			t.Errorf("%s: it owes %v, want %v", c.name, a.owed, c.owed)
		}
	}
}
