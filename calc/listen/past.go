package listen

import "math"

// past holds the levels of the last frames, to find where a sound changed.
type past struct {
	frames [64]struct {
		at    int64
		level float64
	}
	n int
}

// reach is how many frames around the first evidence an edge is looked for.
const reach = 6

func (p *past) put(at int64, level float64) {
	f := &p.frames[p.n%len(p.frames)]
	f.at, f.level = at, level
	p.n++
}

// back returns the time and the power of the frame that many before the last one.
func (p *past) back(i int) (at int64, power float64) {
	f := p.frames[(p.n-1-i)%len(p.frames)]
	return f.at, math.Pow(10, f.level/10)
}

// held is how many frames there are.
func (p *past) held() int { return min(p.n, len(p.frames)) }

// mean is the power of the frames from that many before the last one to that many.
func (p *past) mean(from, to int) float64 {
	sum, n := 0.0, 0
	for i := from; i < min(to, p.held()); i++ {
		_, power := p.back(i)
		sum += power
		n++
	}
	return sum / float64(max(1, n))
}

// level is that of the last four frames.
func (p *past) level() float64 { return 10 * math.Log10(p.mean(0, 4)+1e-30) }

// index is how many frames before the last one that time lies.
func (p *past) index(at int64) int {
	for i := range p.held() {
		if then, _ := p.back(i); then <= at {
			return i
		}
	}
	return max(0, p.held()-1)
}

// rise returns when the sound that is heard now came up, near since or before it: a blow may
// have hidden what it is, and not how loud.
func (p *past) rise(since int64) int64 {
	first := p.index(since)
	_, least := p.back(first)
	for i := first; i < p.held(); i++ {
		_, power := p.back(i)
		least = math.Min(least, power)
	}
	half := (least + p.mean(0, 4)) / 2
	for i := max(1, first-reach); i < p.held(); i++ {
		if _, power := p.back(i); power < half {
			return p.between(i, half)
		}
	}
	return since
}

// fall returns when a sound of that level went, near since.
func (p *past) fall(since int64, level float64) int64 {
	first := p.index(since)
	half := (math.Pow(10, level/10) + p.mean(0, 4)) / 2
	for i := 1; i < min(first+reach, p.held()); i++ {
		if _, power := p.back(i); power >= half {
			return p.between(i, half)
		}
	}
	return since
}

// between is when the power passed half between that frame and the next. A frame at the very
// edge holds half of what changes.
func (p *past) between(i int, half float64) int64 {
	at, power := p.back(i)
	next, after := p.back(i - 1)
	if after == power {
		return at
	}
	return at + int64(float64(next-at)*between(0, (half-power)/(after-power), 1))
}
