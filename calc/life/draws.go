package life

import (
	"math"
	"sync"
)

// A simulation is played in rounds of runs each; how far the rounds disagree says
// how far the whole may be off.
const (
	rounds  = 8
	allRuns = 1024

	// fewRuns are played where several needs are told in one list: the first of each round,
	// which lie evenly as well. The doubt that this adds is counted as all of it is.
	fewRuns = allRuns / 8
)

// turns are what the first numbers of a run step by, in parts of 2⁶⁴: the powers of
// 1/x, x⁹ = x + 1, which fill eight dimensions evenly (the golden ratio is what fills
// one). Whole numbers, so that all machines draw alike.
var turns = [8]uint64{
	0xebedeed9d803c815, 0xd96eb1a810caaf5f, 0xc862b36daf790dd5, 0xb8acd90c142fe10b,
	0xaa324f90ded86b69, 0x9cda5e693fea10af, 0x908e3d2c82567a73, 0x8538ecb5bd456ea3,
}

// turn hands out numbers between 0 and 1 for one run of one round: always the same
// ones.
type turn struct {
	round, run uint64
	even       []float64 // of evenDraws
}

// turnOf is the turn of a run.
func turnOf(round, run int) turn {
	return turn{round: uint64(round), run: uint64(run), even: evenDraws()[(round*allRuns+run)*len(turns):][:len(turns)]}
}

// at is number i of this run, in (0, 1). The first ones lie evenly over all runs of a
// round, which begins at a place of its own; the others are as good as random.
func (d turn) at(i int) float64 {
	var bits uint64
	if i < len(turns) {
		bits = mixed(d.round<<32|uint64(i)) + d.run*turns[i]
	} else {
		bits = mixed(d.round<<48 | d.run<<24 | uint64(i))
	}
	return (float64(bits>>11) + 0.5) / (1 << 53)
}

// which is a number for the law of a side.
func (d turn) which(side int) float64 { return d.even[side] }

// first is what the part in the torch on a side has left, in units of its law's,
// (life/scale)^shape. It has the exponential distribution.
func (d turn) first(side int) float64 { return d.even[2+side] }

// lnLife is the logarithm of such a life of part i of a side, from 1 on.
func (d turn) lnLife(side, part int) float64 {
	i := 2 + 2*part + side
	if i < len(turns) {
		return d.even[i]
	}
	return math.Log(-math.Log(d.at(i)))
}

// evenDraws is what lies evenly over the runs, made once.
var evenDraws = sync.OnceValue(func() []float64 {
	list := make([]float64, 0, rounds*allRuns*len(turns))
	for round := range uint64(rounds) {
		for run := range uint64(allRuns) {
			for i := range turns {
				x := turn{round: round, run: run}.at(i)
				if i >= 2 {
					x = -math.Log(x)
				}
				if i >= 4 {
					x = math.Log(x)
				}
				list = append(list, x)
			}
		}
	}
	return list
})

// mixed makes of a number one that looks random: the finalizer of SplitMix64
// (Steele, Lea and Flood, OOPSLA 2014).
func mixed(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}
