package job

import (
	"math/rand/v2"
	"testing"

	"kerfside/calc/unit"
)

// TestNeverFasterWithLess: less of a tank, of a compressor or of duty cycle makes jobs
// slower, and never one faster but by an accident of phase. Such accidents are true to
// the switch: a compressor that happens to run is ahead of one that waits for its cut-in.
// Where both are next to each other, hardly any is left: those where a hand that waits
// to make a run in one go falls behind one that has to split it.
func TestNeverFasterWithLess(t *testing.T) {
	for _, gap := range []bool{false, true} {
		r := rand.New(rand.NewPCG(15, 4))
		compared, faster, most := 0, 0, 0.0
		var was, now unit.Duration
		for i := range 6000 {
			p := drawnPlay(r)
			if !p.air.Known {
				continue
			}
			if !gap {
				p.air.Compressor.CutIn = p.air.Compressor.CutOut - 0.001*unit.Bar
				p.air.Compressor.Duty, p.air.Least = 1, min(p.air.Least, p.air.Compressor.CutIn-unit.Bar)
				for k := range p.rows {
					p.rows[k].least = p.air.Least
				}
			}
			p.air.Start = p.air.Compressor.CutOut
			a, b := p.do(), less(p, i).do()
			if a.Stuck || b.Stuck {
				continue
			}
			compared++
			was, now = was+a.Work, now+b.Work
			if gone := a.Work - b.Work; gone > 1e-7*a.Work && (gap || gone > 2*unit.Second) { // a second of pumping is the least that is told apart
				faster++
				most = max(most, float64(1-b.Work/a.Work))
			}
		}
		t.Logf("gap %v: %d of %d faster with less, by %.1f %% at most; all together %.0f %% slower", gap, faster, compared, 100*most, 100*float64(now/was-1))
		share := 0.002
		if gap {
			share = 0.03
		}
		if compared < 4000 || float64(faster) > share*float64(compared) || now < 1.1*was {
			t.Errorf("gap %v: %d of %d faster with less, by up to %.1f %%, in all %v against %v", gap, faster, compared, 100*most, now, was)
		}
	}
}

// less is the same job with a smaller tank, a smaller compressor or a shorter duty cycle.
func less(p play, i int) play {
	p.rows = append([]row(nil), p.rows...)
	switch i % 3 {
	case 0:
		p.air.Tank.Volume *= 0.7
	case 1:
		p.air.Compressor.Delivery *= 0.8
	case 2:
		p.least = 1
		for k, row := range p.rows {
			duty := unit.Ratio(1)
			if row.heat > 0 {
				duty = unit.Ratio(1 / (row.heat * float64(cycle)))
			}
			duty *= 0.8
			p.rows[k].heat, p.least = taken(duty), min(p.least, duty)
		}
	}
	return p
}
