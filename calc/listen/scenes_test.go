package listen

import (
	"math"
	"testing"

	"kerfside/calc/listen/listentest"
)

type span = listentest.Span

// family is a sort of scene: drawn from a seed.
type family struct {
	name    string
	draw    func(seed uint64) *listentest.Scene
	masks   bool // an arc can hide in it
	nothing bool // no arc burns
}

// cuts is a scene with arcs and their air after them.
func cuts(seed uint64, level, air, flow float64, arcs ...span) *listentest.Scene {
	s := listentest.New(45, seed)
	s.Faint(-75)
	for i, a := range arcs {
		s.Arc(a, level)
		to := a.To + flow
		if i+1 < len(arcs) {
			to = math.Min(to, arcs[i+1].From)
		}
		s.PostFlow(span{From: a.To, To: math.Min(to, 45)}, level+air)
	}
	return s
}

var usual = []span{{From: 4, To: 12}, {From: 15, To: 17}, {From: 22, To: 36}}

// families are the scenes that the limits were set on.
var families = []family{
	{name: "quiet yard", draw: func(seed uint64) *listentest.Scene { return cuts(seed, -30, -10, 3, usual...) }},
	{name: "compressor", draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Compressor(span{To: 45}, -50)
		return s
	}},
	{name: "loud compressor", draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Compressor(span{To: 45}, -25)
		return s
	}},
	{name: "speech", draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Speech(span{To: 45}, -55)
		return s
	}},
	{name: "shouting beside it", draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Speech(span{To: 45}, -38)
		return s
	}},
	{name: "hammer all the time", draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Hammer(span{To: 45}, -35, 0.7)
		return s
	}},
	{name: "wind", draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Wind(span{To: 45}, -20)
		return s
	}},
	{name: "long post-flow", draw: func(seed uint64) *listentest.Scene { return cuts(seed, -30, -10, 20, usual...) }},
	{name: "quiet post-flow", draw: func(seed uint64) *listentest.Scene { return cuts(seed, -30, -16, 8, usual...) }},
	{name: "loud post-flow", draw: func(seed uint64) *listentest.Scene { return cuts(seed, -30, -7.5, 8, usual...) }},
	{name: "air before each arc", draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		for _, a := range usual {
			s.PostFlow(span{From: a.From - 1, To: a.From}, -41)
		}
		return s
	}},
	{name: "gain drifts", draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 6, usual...)
		s.Drift(6, 25)
		return s
	}},
	{name: "clipped", draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -4, -10, 4, usual...)
		s.Clip()
		return s
	}},
	{name: "far phone", draw: func(seed uint64) *listentest.Scene { return cuts(seed, -45, -10, 3, usual...) }},
	{name: "16 kHz", draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Narrow()
		return s
	}},
	{name: "lost buffers", draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Drop(0.06, 4)
		return s
	}},
	{name: "pierces", draw: func(seed uint64) *listentest.Scene {
		s := listentest.New(40, seed)
		s.Faint(-75)
		for at := 3.0; at < 30; at += 9 {
			s.Pierce(span{From: at, To: at + 5}, -30, 0.8)
			s.PostFlow(span{From: at + 5, To: at + 8}, -40)
		}
		return s
	}},
	{name: "many short arcs", draw: func(seed uint64) *listentest.Scene {
		var arcs []span
		s := listentest.New(1, seed)
		for at := 2.0; at < 41; {
			long := 0.6 + 1.2*s.Random().Float64()
			arcs = append(arcs, span{From: at, To: at + long})
			at += long + 0.8 + 2*s.Random().Float64()
		}
		return cuts(seed, -30, -10, 2, arcs...)
	}},
	{name: "arcs right after another", draw: func(seed uint64) *listentest.Scene {
		var arcs []span
		for at := 2.0; at < 38; at += 4.5 {
			arcs = append(arcs, span{From: at, To: at + 4})
		}
		return cuts(seed, -30, -10, 3, arcs...)
	}},
	{name: "a long arc", draw: func(seed uint64) *listentest.Scene {
		s := listentest.New(120, seed)
		s.Faint(-75)
		s.Arc(span{From: 5, To: 110}, -30)
		s.PostFlow(span{From: 110, To: 118}, -40)
		s.Drift(3, 60)
		return s
	}},
	{name: "grinder between the cuts", masks: true, draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Grinder(span{From: 39, To: 45}, -30, 180)
		return s
	}},
	{name: "grinder over the cuts", masks: true, draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Grinder(span{From: 8, To: 16}, -30, 180)
		s.Grinder(span{From: 28, To: 40}, -30, 180)
		return s
	}},
	{name: "grinder all the time", masks: true, draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Grinder(span{To: 45}, -30, 180)
		return s
	}},
	{name: "far phone and a grinder", masks: true, draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -45, -10, 3, usual...)
		s.Grinder(span{From: 6, To: 30}, -35, 180)
		return s
	}},
	{name: "faint grinder", masks: true, draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, -30, -10, 3, usual...)
		s.Grinder(span{From: 6, To: 40}, -42, 180)
		return s
	}},
	{name: "grinder alone", nothing: true, masks: true, draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, 0, 0, 0)
		s.Grinder(span{From: 5, To: 40}, -30, 180)
		return s
	}},
	{name: "hammer, speech, compressor alone", nothing: true, draw: func(seed uint64) *listentest.Scene {
		s := cuts(seed, 0, 0, 0)
		s.Hammer(span{To: 45}, -30, 0.6)
		s.Speech(span{To: 45}, -50)
		s.Compressor(span{To: 45}, -35)
		return s
	}},
}

// TestScenes: arc time within 3 % where nothing hides it, nothing counted where no arc burns.
func TestScenes(t *testing.T) {
	for _, f := range families {
		for seed := uint64(1); seed <= 1; seed++ {
			s := f.draw(seed)
			h := hear(framesOf(s), Taught{})
			r := judge(f.name, s, h)
			r.log(t)
			switch {
			case f.nothing && r.told > 0:
				t.Errorf("%s, seed %d: counted %.2f s where no arc burns", f.name, seed, r.told)
			case !f.nothing && r.truth > 1 && math.Abs(r.off()) > 0.03:
				t.Errorf("%s, seed %d: %.2f s of %.2f s", f.name, seed, r.told, r.truth)
			case !f.masks && r.masked > 0.02*s.Seconds():
				t.Errorf("%s, seed %d: masked for %.1f s where nothing hides an arc", f.name, seed, r.masked)
			}
		}
	}
}
