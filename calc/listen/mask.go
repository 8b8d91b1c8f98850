package listen

// mask keeps account of the time in which an arc could have hidden.
type mask struct {
	on           bool
	count        int   // evidence, in frames
	since, last  int64 // first and last frame of it that hid
	sum          int64 // ms of finished stretches
	fromArc      bool  // it began where an arc was lost in it
	ended        int64
	endedFromArc bool
}

// step takes whether the frame at that time could hide an arc.
func (m *mask) step(at int64, hides bool) {
	if hides {
		if m.count == 0 {
			m.since = at
		}
		m.last = at
		m.count = min(m.count+1, maskFrames)
		m.on = m.on || m.count == maskFrames
		return
	}
	m.count = max(0, m.count-1)
	if m.count == 0 {
		m.end(m.last)
	}
}

// begin is a mask in which an arc was lost.
func (m *mask) begin(at int64) {
	m.on, m.count, m.since, m.last, m.fromArc = true, maskFrames, at, at, true
}

// end ends it at that time, if there is one.
func (m *mask) end(at int64) {
	if m.on {
		m.sum += max(0, at-m.since)
		m.ended, m.endedFromArc = at, m.fromArc && at-m.since < behind
	}
	m.on, m.count, m.fromArc = false, 0, false
}

// behind says whether an arc that begins at that time goes on behind the mask in which one was lost.
func (m *mask) behind(at int64) bool {
	if m.on {
		return m.fromArc && at-m.since < behind
	}
	return m.endedFromArc && at-m.ended < 500
}

// total is the time until now.
func (m *mask) total(now int64) int64 {
	if m.on {
		return m.sum + max(0, now-m.since)
	}
	return m.sum
}
