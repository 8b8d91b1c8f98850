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
	Law
	upTo float64 // its weight and that of all before it
	age  float64 // equivalent minutes
	job  float64
	aged float64 // (age/scale)^shape
	ends float64 // ((age+job)/scale)^shape
}

func (s side) odds() []odds {
	list, upTo := make([]odds, len(s.laws)), 0.0
	for i, l := range s.laws {
		upTo += l.Weight
		o := odds{Law: l, upTo: upTo, age: s.age.Equivalent(l.PerStart), job: max(s.job.Equivalent(l.PerStart), 1e-9)}
		o.aged, o.ends = l.used(o.age), l.used(o.age+o.job)
		list[i] = o
	}
	return list
}

// pick returns the law at the share u of the weights.
func pick(list []odds, u float64) *odds {
	low, high := 0, len(list)-1
	for low < high {
		if mid := (low + high) / 2; u < list[mid].upTo {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return &list[low]
}

// inTorch is the part in the torch on one side of a run. Times are in shares of the
// job, which goes from 0 to 1.
type inTorch struct {
	*odds
	from  float64 // when it would have been new; below 0 for one with an age
	until float64 // when it fails
	used  int     // how many have failed or been taken out
}

// share is how much of its life is used at that time.
func (p *inTorch) share(at float64) float64 { return (at - p.from) / (p.until - p.from) }

// renew puts in a new part with that life; see turn.life.
func (p *inTorch) renew(at, life float64) {
	p.used++
	p.from = at
	p.until = at + p.Scale*math.Exp(math.Log(life)/p.Shape)/p.job
}

// play runs one job and returns how many tips and electrodes it uses up. What fails
// takes its partner with it where that is past such a share of its life.
func play(sides *[2][]odds, past float64, d turn) [2]int {
	var now [2]inTorch
	for s := range now {
		now[s].odds = pick(sides[s], d.at(s))
	}
	tip, electrode := d.life(0, 0), d.life(1, 0)
	if tip >= now[0].ends-now[0].aged && electrode >= now[1].ends-now[1].aged {
		return [2]int{}
	}
	for s, life := range [2]float64{tip, electrode} {
		p := &now[s]
		p.from = -p.age / p.job
		p.until = p.from + p.Scale*math.Exp(math.Log(p.aged+life)/p.Shape)/p.job
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
		if other := &now[1-s]; other.share(at) > past {
			other.renew(at, d.life(1-s, other.used+1))
		}
		now[s].renew(at, d.life(s, now[s].used+1))
	}
}

// played is a simulation's outcome: in how many runs of each round so many tips and
// electrodes, or fewer, were enough.
type played struct {
	atMost [rounds][][]int // by tips, then electrodes
	mean   [2]float64
}

// simulate plays the job in all runs, changing a partner past that share of its life.
func simulate(sides [2]side, past float64) *played {
	p := &played{}
	each := [2][]odds{sides[0].odds(), sides[1].odds()}
	var all [rounds][runs][2]int
	var most [2]int
	for r := range all {
		for i := range all[r] {
			used := play(&each, past, turn{round: uint64(r), run: uint64(i)})
			all[r][i] = used
			for s, n := range used {
				most[s] = max(most[s], n)
				p.mean[s] += float64(n) / (rounds * runs)
			}
		}
	}
	for r := range all {
		table := make([][]int, most[0]+1)
		for t := range table {
			table[t] = make([]int, most[1]+1)
		}
		for _, used := range all[r] {
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
	return float64(sum) / (rounds * runs)
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
		d := float64(p.enough(r, tips, electrodes))/runs - mean
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
