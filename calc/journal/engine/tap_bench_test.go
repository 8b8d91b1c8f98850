package engine

import (
	"fmt"
	"runtime"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
)

// histories are the journals that taps are measured on. A crew that cuts every day
// enters the largest in some five years.
var histories = []int{1_000, 10_000, 100_000}

// phone is an engine as the worker of a phone feeds it, in JSON both ways.
type phone struct {
	b      *testing.B
	engine *Engine
	l      int64
	ms     int64
	taps   int
}

// newPhone returns a phone that holds a journal of n events and has shown it.
func newPhone(b *testing.B, n int) *phone { return newPhoneOf(b, historyOf(b, n)) }

// newPhoneOf returns a phone that holds a journal and has shown it.
func newPhoneOf(b *testing.B, events []event.Event) *phone {
	p := &phone{b: b, engine: New()}
	p.foldAll(events)
	return p
}

// foldAll passes events on in portions, as a worker does.
func (p *phone) foldAll(events []event.Event) {
	for len(events) > 0 {
		portion := events[:min(1000, len(events))]
		events = events[len(portion):]
		p.fold(len(events) > 0, portion...)
	}
}

// fold passes events to the engine and returns the bytes that come back.
func (p *phone) fold(more bool, events ...event.Event) int {
	var list []event.Record
	for _, e := range events {
		p.l++
		list = append(list, event.Record{Raw: string(e.Raw), L: p.l})
	}
	text, err := jsonOf(map[string]any{"events": list, "more": more, "device": "phone-1"})
	if err != nil {
		p.b.Fatal(err)
	}
	return p.call("journal-fold", text)
}

func (p *phone) call(name, text string) int {
	out, err := p.engine.Reply(name, []byte(text))
	if err != nil {
		p.b.Fatal(err)
	}
	return len(out)
}

// later is after the end of any history, in ms after t0.
const later = 20 * 365 * 24 * 3600_000

// tap enters one event in the session that is open, and returns it and the bytes
// that the engine answers.
func (p *phone) tap(kind, body string) (event.Event, int) {
	p.ms += 20_000
	p.taps++
	s := &script{T: p.b}
	at := later + p.ms
	s.Add(fmt.Sprintf("tap-%d", p.taps), at, kind, body, in("session-now"), wall(at), device("phone-1"))
	return s.Events[0], p.fold(false, s.Events[0])
}

// BenchmarkArcTap is an arc started and stopped, each from the entry to the views,
// at the end of journals of several lengths. "x-first" is how many times as long a
// tap took as on the shortest of them in this run.
func BenchmarkArcTap(b *testing.B) {
	first := 0.0
	for _, n := range histories {
		b.Run(fmt.Sprintf("%d", n), func(b *testing.B) {
			p := newPhone(b, n)
			opened := &script{T: b}
			opened.Add("open-now", later+p.ms, "session.opened", `{'rig':'truck-1','title':'Now'}`, about("session-now"), device("phone-1"))
			p.fold(false, opened.Events...)
			bytes := 0
			b.ReportAllocs()
			b.ResetTimer()
			for b.Loop() {
				start, k := p.tap("arc.started", `{'rig':'truck-1'}`)
				_, m := p.tap("arc.stopped", `{'of':'`+start.ID+`','starts':1}`)
				bytes = k + m
			}
			b.StopTimer()
			ms := float64(b.Elapsed().Nanoseconds()) / 1e6 / float64(2*b.N)
			if n == histories[0] {
				first = ms
			}
			b.ReportMetric(ms, "ms/tap")
			b.ReportMetric(float64(bytes)/2, "viewbytes/tap")
			if first > 0 {
				b.ReportMetric(ms/first, "x-first")
			}
			b.ReportMetric(heap(), "heap-MB")
			runtime.KeepAlive(p)
		})
	}
}

// BenchmarkReopen is what a restart costs: the segments read, then one tap shown.
func BenchmarkReopen(b *testing.B) {
	for _, n := range histories {
		b.Run(fmt.Sprintf("%d", n), func(b *testing.B) {
			p := newPhone(b, n)
			f := fold.NewFold()
			for _, e := range historyOf(b, n) {
				f.Add(e, nil, 0)
			}
			segments, err := jsonOf(map[string]any{"rungs": f.ChangedSegments(p.l, true)})
			if err != nil {
				b.Fatal(err)
			}
			p.engine, f = nil, nil
			b.ReportAllocs()
			b.ResetTimer()
			for b.Loop() {
				p.engine = New()
				p.call("journal-restore", segments)
				p.tap("arc.started", `{'rig':'truck-1'}`)
			}
			b.StopTimer()
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/1e6/float64(b.N), "ms/restart")
			b.ReportMetric(float64(len(segments))/1e6, "segments-MB")
			b.ReportMetric(heap(), "heap-MB")
			runtime.KeepAlive(p)
		})
	}
}

// BenchmarkFoldAll is a journal folded from its events, as after an update of the
// app that drops the segments.
func BenchmarkFoldAll(b *testing.B) {
	for _, n := range histories {
		b.Run(fmt.Sprintf("%d", n), func(b *testing.B) {
			events := historyOf(b, n)
			b.ReportAllocs()
			b.ResetTimer()
			for b.Loop() {
				(&phone{b: b, engine: New()}).foldAll(events)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/1e6/float64(b.N), "ms/fold")
		})
	}
}

// heap is what is in use, in MB, after a collection.
func heap() float64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc) / 1e6
}
