package metrics

import (
	"bytes"
	"sync"
	"testing"
	"time"

	"github.com/prometheus/common/expfmt"
	"github.com/prometheus/common/model"

	dto "github.com/prometheus/client_model/go"
)

// read reads the text with the parser of Prometheus's own library.
func read(t *testing.T, text []byte) map[string]*dto.MetricFamily {
	t.Helper()
	p := expfmt.NewTextParser(model.LegacyValidation)
	all, err := p.TextToMetricFamilies(bytes.NewReader(text))
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	return all
}

func TestText(t *testing.T) {
	var s Set
	asked := s.Counter("shop_asked_total", "With a \\ and\na second line.", "route", "code")
	s.Counter("shop_plain_total", "None yet.")
	s.Counter("shop_never_total", "Has labels and was never counted.", "why")
	s.Gauge("shop_age_seconds", "Half.", func() (float64, bool) { return 0.5, true })
	s.Gauge("shop_unknown", "Cannot be read.", func() (float64, bool) { return 0, false })
	s.Grows("shop_cycles_total", "Of others.", func() (float64, bool) { return 7, true })
	const odd = "/a/\"b\\\n{c}"
	asked.Add(2, odd, "200")
	asked.Add(1, odd, "200")
	asked.Add(1, "/", "404")
	all := read(t, s.Text())
	if len(all) != 4 {
		t.Errorf("%d families: %v", len(all), all)
	}
	f := all["shop_asked_total"]
	if f.GetType() != dto.MetricType_COUNTER || f.GetHelp() != "With a \\ and\na second line." || len(f.Metric) != 2 {
		t.Fatalf("read %v", f)
	}
	got := map[string]float64{}
	for _, m := range f.Metric {
		if len(m.Label) != 2 || m.Label[0].GetName() != "route" {
			t.Errorf("labels %v", m.Label)
		}
		got[m.Label[0].GetValue()+" "+m.Label[1].GetValue()] = m.Counter.GetValue()
	}
	if got[odd+" 200"] != 3 || got["/ 404"] != 1 {
		t.Errorf("read %v", got)
	}
	if v := all["shop_plain_total"].Metric[0].Counter.GetValue(); v != 0 {
		t.Errorf("what was never counted is %v", v)
	}
	if v := all["shop_age_seconds"].Metric[0].Gauge.GetValue(); v != 0.5 {
		t.Errorf("the gauge is %v", v)
	}
	if v := all["shop_cycles_total"].Metric[0].Counter.GetValue(); v != 7 {
		t.Errorf("the counter of others is %v", v)
	}
}

func TestRuntime(t *testing.T) {
	var s Set
	started := time.UnixMilli(1760731116544)
	s.AddRuntime(started)
	all := read(t, s.Text())
	if v := all["process_start_time_seconds"].Metric[0].Gauge.GetValue(); v != 1760731116.544 {
		t.Errorf("it started at %v", v)
	}
	for _, name := range []string{"go_goroutines", "go_memstats_heap_alloc_bytes", "go_memory_bytes"} {
		if f := all[name]; f == nil || f.Metric[0].Gauge.GetValue() < 1 {
			t.Errorf("%s is %v", name, f)
		}
	}
	if all["go_gc_cycles_total"] == nil || all["go_cpu_seconds_total"] == nil {
		t.Errorf("counters of Go are missing: this Go calls them otherwise")
	}
}

func TestManyAtOnce(t *testing.T) {
	var s Set
	c := s.Counter("shop_asked_total", "", "code")
	var work sync.WaitGroup
	for i := range 8 {
		work.Go(func() {
			for range 1000 {
				c.Add(1, []string{"200", "404"}[i%2])
				if i == 0 {
					s.Text()
				}
			}
		})
	}
	work.Wait()
	sum := 0.0
	for _, m := range read(t, s.Text())["shop_asked_total"].Metric {
		sum += m.Counter.GetValue()
	}
	if sum != 8000 {
		t.Errorf("counted %v of 8000", sum)
	}
	var none *Counter
	none.Add(1, "200")
}
