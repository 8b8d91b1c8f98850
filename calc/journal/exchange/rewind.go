package exchange

import "kerfside/calc/problem"

// rewound makes the next request carry the marks.
func (c Change) rewound() Change {
	if c.Meta.Rewinding { // answered with marks in hand: the server contradicts itself
		return c.failed(nil)
	}
	c.Meta.Rewinding, c.Again = true, true
	return c
}

// rewind takes the replica back to m, the last mark that it has in common with
// the server. What has no n then is offered again, other phones' events too.
func (c Change) rewind(m Mark, now int64) Change {
	if m != (Mark{}) && !holds(c.Meta.Marks, m) {
		return c.failed(nil)
	}
	c.Meta.Rewinding = false
	c.Meta.Cursor, c.Meta.Head = m.N, m.H
	c.Meta.Marks = append([]Mark(nil), UpTo(c.Meta.Marks, m.N)...)
	c.Meta.Gen++
	c.Meta.PullOnly = false
	var recent []int64
	for _, at := range c.Meta.Rewinds {
		if at <= now && now-at < rewindWindow {
			recent = append(recent, at)
		}
	}
	c.Meta.Rewinds = append(recent, now)
	c.Forget, c.Again = &m.N, true
	if len(c.Meta.Rewinds) >= rewindLimit {
		c.Meta.Stopped = problem.New(problem.Rewound, "", "two servers seem to share this name: the history changed three times within an hour",
			"Nothing is lost. Have one of them taken off, then start the sync again.")
		c.Say, c.Again = c.Meta.Stopped, false
	}
	return c
}

// holds reports whether m is one of marks.
func holds(marks []Mark, m Mark) bool {
	for _, o := range marks {
		if o == m {
			return true
		}
	}
	return false
}
