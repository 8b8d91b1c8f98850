package life

import "math"

// pastHalf is the share of its life from which a part is changed along with its
// partner: a new tip on a pitted electrode is eaten. Common practice.
const pastHalf = 0.5

// never is past all of a life: what fails takes no partner with it.
const never = 2

// side is tip or electrode in a simulation.
type side struct {
	laws     Laws
	age, job Use
}

// odds are a law of a side with what it makes of the age and the job.
type odds struct {
	shape float64
	scale float64 // in shares of the job
	age   float64 // likewise
	aged  float64 // (age/scale)^shape
	ends  float64 // ((age+1)/scale)^shape
	whole float64 // ln (1/scale)^shape
}

func (s side) odds() []odds {
	list := make([]odds, len(s.laws))
	for i, l := range s.laws {
		age, job := s.age.Equivalent(l.PerStart), max(s.job.Equivalent(l.PerStart), 1e-9)
		list[i] = odds{shape: l.Shape, scale: l.Scale / job, age: age / job, aged: l.used(age), ends: l.used(age + job), whole: l.Shape * math.Log(job/l.Scale)}
	}
	return list
}

// inTorch is the part in the torch on one side of a run. Times are in shares of the
// job, which goes from 0 to 1.
type inTorch struct {
	*odds
	from  float64 // when it would have been new; below 0 for one with an age
	until float64 // when it fails
	open  bool    // it is not before until, which is past the job, and its life says when
	life  float64 // of the first part (life/scale)^shape, of others the logarithm of that
	used  int     // how many have failed or been taken out
}

// past reports whether more than such a share of its life is used at that time.
func (p *inTorch) past(share, at float64) bool {
	if at-p.from <= share*(p.until-p.from) {
		return false
	}
	p.settle()
	return at-p.from > share*(p.until-p.from)
}

// settle finds out when it fails.
func (p *inTorch) settle() {
	if !p.open {
		return
	}
	p.open = false
	ln := p.life
	if p.used == 0 {
		ln = math.Log(ln)
	}
	p.until = p.from + p.scale*math.Exp(ln/p.shape)
}

// fit puts in the first part, which has an age, with what its life is from now on.
func (p *inTorch) fit(left float64) {
	p.from, p.until, p.open, p.life = -p.age, 1, true, p.aged+left
	if !(left >= p.ends-p.aged) {
		p.settle()
	}
}

// renew puts in a new part with the logarithm of that life; see turn.lnLife.
func (p *inTorch) renew(at, lnLife float64) {
	p.used++
	p.from, p.until, p.open, p.life = at, at+1, true, lnLife
	if !(lnLife >= p.whole) {
		p.settle()
	}
}

// play runs one job and returns how many tips and electrodes it uses up. What fails
// takes its partner with it where that is past such a share of its life.
func play(now *[2]inTorch, past float64, d turn) [2]int {
	left := [2]float64{d.first(0), d.first(1)}
	if left[0] >= now[0].ends-now[0].aged && left[1] >= now[1].ends-now[1].aged {
		return [2]int{}
	}
	for s := range now {
		now[s].fit(left[s])
	}
	for {
		s := 0
		if now[1].until < now[0].until {
			s = 1
		}
		at := max(now[s].until, 0)
		if at >= 1 || now[0].used+now[1].used >= mostParts {
			return [2]int{now[0].used, now[1].used}
		}
		if other := &now[1-s]; other.past(past, at) {
			other.renew(at, d.lnLife(1-s, other.used+1))
		}
		now[s].renew(at, d.lnLife(s, now[s].used+1))
	}
}

// played is a simulation's outcome: in how many runs of each round so many tips and
// electrodes, or fewer, were enough.
type played struct {
	runs   int             // of a round
	atMost [rounds][][]int // by tips, then electrodes
	mean   [2]float64
}

// simulate plays the job in so many runs of each round, changing a partner past that share
// of its life.
func simulate(sides [2]side, past float64, runs int) *played {
	p := &played{runs: runs}
	each := [2][]odds{sides[0].odds(), sides[1].odds()}
	by := [2]shares{newShares(sides[0].laws), newShares(sides[1].laws)}
	var all [rounds][allRuns][2]uint8 // mostParts at most
	var most, sum [2]int
	for r := range all {
		for i := range runs {
			d := turnOf(r, i)
			now := [2]inTorch{{odds: &each[0][by[0].pick(d.which(0))]}, {odds: &each[1][by[1].pick(d.which(1))]}}
			for s, n := range play(&now, past, d) {
				all[r][i][s] = uint8(n)
				most[s] = max(most[s], n)
				sum[s] += n
			}
		}
	}
	for s, n := range sum {
		p.mean[s] = float64(n) / float64(rounds*runs)
	}
	for r := range all {
		table := make([][]int, most[0]+1)
		for t := range table {
			table[t] = make([]int, most[1]+1)
		}
		for _, used := range all[r][:runs] {
			table[used[0]][used[1]]++
		}
		for t := range table {
			for e := range table[t] {
				if e > 0 {
					table[t][e] += table[t][e-1]
				}
			}
			if t > 0 {
				for e := range table[t] {
					table[t][e] += table[t-1][e]
				}
			}
		}
		p.atMost[r] = table
	}
	return p
}

// chance is how likely so many tips and electrodes are enough.
func (p *played) chance(tips, electrodes int) float64 {
	sum := 0
	for r := range p.atMost {
		sum += p.enough(r, tips, electrodes)
	}
	return float64(sum) / float64(rounds*p.runs)
}

// enough is in how many runs of a round.
func (p *played) enough(round, tips, electrodes int) int {
	table := p.atMost[round]
	tips, electrodes = min(tips, len(table)-1), min(electrodes, len(table[0])-1)
	if tips < 0 || electrodes < 0 {
		return 0
	}
	return table[tips][electrodes]
}

// off is twice the standard error of chance, from how the rounds differ.
func (p *played) off(tips, electrodes int) float64 {
	mean, sum := p.chance(tips, electrodes), 0.0
	for r := range rounds {
		d := float64(p.enough(r, tips, electrodes))/float64(p.runs) - mean
		sum += d * d
	}
	return 2 * math.Sqrt(sum/(rounds*(rounds-1)))
}

// usedUp is how many tips and electrodes are used up on average.
func (p *played) usedUp() (tips, electrodes float64) { return p.mean[0], p.mean[1] }

// most is how many tips and electrodes were always enough.
func (p *played) most() (tips, electrodes int) {
	return len(p.atMost[0]) - 1, len(p.atMost[0][0]) - 1
}
