package metrics

import (
	"runtime"
	"runtime/metrics"
	"time"
)

// AddRuntime adds what Go tells of the program, under the names that the client
// library of Prometheus gives it where there is one.
func (s *Set) AddRuntime(started time.Time) {
	s.Gauge("process_start_time_seconds", "When the program started, in seconds since 1970 UTC.", func() (float64, bool) {
		return float64(started.UnixMilli()) / 1000, true
	})
	s.Gauge("go_goroutines", "Goroutines at this moment.", func() (float64, bool) { return float64(runtime.NumGoroutine()), true })
	for _, g := range []struct {
		name, help, sample string
		grows              bool
	}{
		{name: "go_memstats_heap_alloc_bytes", help: "Bytes in use on the heap, with those that nobody needs any more.", sample: "/memory/classes/heap/objects:bytes"},
		{name: "go_memory_bytes", help: "All memory that Go holds.", sample: "/memory/classes/total:bytes"},
		{name: "go_gc_cycles_total", help: "Collections of garbage so far.", sample: "/gc/cycles/total:gc-cycles", grows: true},
		{name: "go_cpu_seconds_total", help: "Time of processors that the program's own code took, as Go estimates it.", sample: "/cpu/classes/user:cpu-seconds", grows: true},
	} {
		read := func() (float64, bool) { return sample(g.sample) }
		if g.grows {
			s.Grows(g.name, g.help, read)
		} else {
			s.Gauge(g.name, g.help, read)
		}
	}
}

// sample reads one figure of the runtime; false if this Go has none of that name.
func sample(name string) (float64, bool) {
	one := []metrics.Sample{{Name: name}}
	metrics.Read(one)
	switch one[0].Value.Kind() {
	case metrics.KindUint64:
		return float64(one[0].Value.Uint64()), true
	case metrics.KindFloat64:
		return one[0].Value.Float64(), true
	}
	return 0, false
}
