package server

import (
	"bytes"
	"net/http"
	"net/http/httptest"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/prometheus/common/expfmt"
	"github.com/prometheus/common/model"

	"kerfside/server/metrics"
	"kerfside/server/store"
)

// watchedShop is a shop whose server counts, and what those who watch it ask.
func watchedShop(t *testing.T, local bool) (*shop, http.Handler) {
	t.Helper()
	p, set := newShop(t), &metrics.Set{}
	p.server.newFigures(set)
	p.server.handler = p.server.figures.counted(p.server.guarded())
	return p, p.server.Watch(set, local)
}

func watch(h http.Handler, url string) *httptest.ResponseRecorder {
	out := httptest.NewRecorder()
	h.ServeHTTP(out, httptest.NewRequest("GET", url, nil))
	return out
}

// figuresOf reads /metrics with the parser of Prometheus's own library, as
// `name label label` → value.
func figuresOf(t *testing.T, h http.Handler) map[string]float64 {
	t.Helper()
	out := watch(h, "http://localhost:9480/metrics")
	p := expfmt.NewTextParser(model.LegacyValidation)
	families, err := p.TextToMetricFamilies(bytes.NewReader(out.Body.Bytes()))
	if err != nil || out.Code != 200 || out.Header().Get("Content-Type") != string(expfmt.NewFormat(expfmt.TypeTextPlain)) {
		t.Fatalf("/metrics: %d %s, %v\n%s", out.Code, out.Header().Get("Content-Type"), err, out.Body)
	}
	all := map[string]float64{}
	for name, f := range families {
		for _, m := range f.Metric {
			words := []string{name}
			for _, l := range m.Label {
				words = append(words, l.GetValue())
			}
			all[strings.Join(words, " ")] = m.GetCounter().GetValue() + m.GetGauge().GetValue()
		}
	}
	return all
}

func TestFigures(t *testing.T) {
	p, h := watchedShop(t, true)
	phone := p.join(crewID, store.Owner, "truck-1")
	phone.send("POST", "/api/journal/sync", syncOf(crewID, note(1), note(2)))
	phone.send("POST", "/api/journal/sync", syncOf(crewID, note(2), note(3)))
	phone.send("GET", "/", "")
	phone.send("GET", "/sum/air-tank", "")
	phone.send("GET", "/nowhere/"+phone.token, "")
	phone.send("PROPFIND", "/", "")
	client{shop: p}.send("POST", "/api/journal/sync", syncOf(crewID))
	client{shop: p}.send("POST", "/api/enrol", `{"code":"00000-00000","name":"Nobody Anyone"}`)
	sum, file := "", asJPEG(t, gray(40, 30, 9))
	sum = store.PictureName(file)
	for range 2 {
		phone.send("PUT", "/api/photos/"+sum, string(file))
	}
	got := figuresOf(t, h)
	for name, want := range map[string]float64{
		"kerfside_http_requests_total /api/enrol POST 201":          1,
		"kerfside_http_requests_total /api/enrol POST 404":          1,
		"kerfside_http_requests_total /api/journal/sync POST 200":   2,
		"kerfside_http_requests_total /api/journal/sync POST 401":   1,
		"kerfside_http_requests_total / GET 200":                    1,
		"kerfside_http_requests_total /sum/{name} GET 200":          1,
		"kerfside_http_requests_total /api/photos/{sha256} PUT 204": 2,
		"kerfside_http_requests_total none GET 404":                 1,
		"kerfside_http_requests_total none other 404":               1,
		"kerfside_refusals_total no-token":                          1,
		"kerfside_entries_stored_total":                             3,
		"kerfside_pictures_stored_total":                            1,
		"kerfside_pictures_bytes":                                   float64(len(file)),
		"kerfside_phones":                                           1,
		"kerfside_phones_seen":                                      1,
		"kerfside_waits":                                            0,
		"kerfside_writing":                                          1,
	} {
		if v, ok := got[name]; !ok || v != want {
			t.Errorf("%s is %v, want %v; there is %v", name, v, want, got)
		}
	}
	if got["kerfside_database_bytes"] < 4096 {
		t.Errorf("the database takes %v bytes", got["kerfside_database_bytes"])
	}
	text := watch(h, "http://localhost/metrics").Body.String()
	for _, secret := range append(slices.Clone(p.secret), crewID, p.other, phone.id, sum, "Nobody", "Weir", "nowhere") {
		if strings.Contains(text, secret) {
			t.Errorf("the figures tell %q", secret)
		}
	}
}

// A phone that waits is counted while it does.
func TestFiguresOfWaits(t *testing.T) {
	p, h := watchedShop(t, true)
	p.server.holdFor = holdFor
	p.server.ending = make(chan struct{})
	phone := p.join(crewID, store.Owner, "truck-1")
	done := make(chan *httptest.ResponseRecorder)
	go func() { done <- phone.send("GET", "/api/journal/news?after=0", "") }()
	for figuresOf(t, h)["kerfside_waits"] != 1 {
		select {
		case out := <-done:
			t.Fatalf("it did not wait: %d %s", out.Code, out.Body)
		default:
		}
	}
	phone.send("POST", "/api/journal/sync", syncOf(crewID, note(1)))
	<-done
	got := figuresOf(t, h)
	if got["kerfside_waits"] != 0 || got["kerfside_http_requests_total /api/journal/news GET 200"] != 1 {
		t.Errorf("after the answer: %v", got)
	}
}

func TestHealth(t *testing.T) {
	p, h := watchedShop(t, true)
	ask := func(want int, says string) {
		t.Helper()
		if out := watch(h, "http://127.0.0.1:9480/healthz"); out.Code != want || !strings.Contains(out.Body.String(), says) {
			t.Errorf("/healthz: %d %q, want %d that says %q", out.Code, out.Body, want, says)
		}
	}
	ask(200, "ok")
	inTheWay := p.path + ".probe" // where the disk is tried: as on a full disk, nothing can be written
	if err := os.Mkdir(inTheWay, 0o700); err != nil {
		t.Fatal(err)
	}
	ask(503, "database")
	if err := os.Remove(inTheWay); err != nil {
		t.Fatal(err)
	}
	ask(200, "ok")
	if _, err := os.Stat(inTheWay); err == nil {
		t.Error("the try has left its file")
	}
	if err := os.Rename(p.path, p.path+".gone"); err != nil {
		t.Fatal(err)
	}
	ask(503, "disk")
	if got := figuresOf(t, h); got["kerfside_writing"] != 0 {
		t.Errorf("with its database gone it tells that it is writing: %v", got)
	}
}

// Where only this machine is meant to ask, no page of another name can; and nothing else lies there.
func TestWatchIsApart(t *testing.T) {
	p, local := watchedShop(t, true)
	_, open := watchedShop(t, false)
	for _, c := range []struct {
		h    http.Handler
		url  string
		want int
	}{
		{h: local, url: "http://other.example/metrics", want: 403},
		{h: local, url: "http://[::1]:9480/metrics", want: 200},
		{h: open, url: "http://other.example/metrics", want: 200},
		{h: local, url: "http://localhost/", want: 404},
		{h: local, url: "http://localhost/api/status", want: 404},
	} {
		if out := watch(c.h, c.url); out.Code != c.want {
			t.Errorf("%s = %d, want %d", c.url, out.Code, c.want)
		}
	}
	for _, path := range []string{"/metrics", "/healthz"} {
		if out := (client{shop: p}).send("GET", path, ""); out.Code != 404 {
			t.Errorf("phones are given %s: %d", path, out.Code)
		}
	}
}
