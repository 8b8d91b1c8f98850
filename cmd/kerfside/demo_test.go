package main

import (
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"kerfside/calc/cutting"
	"kerfside/calc/journal/book"
	"kerfside/calc/journal/event"
	"kerfside/calc/journal/fold"
	"kerfside/calc/life"
	"kerfside/calc/material"
	"kerfside/calc/unit"
	"kerfside/server/store"
)

// foldedDemo is the demo and what a phone makes of it.
func foldedDemo(t *testing.T) (*demoCrew, *fold.Fold) {
	t.Helper()
	d := newDemo(time.Now())
	if d.err != nil {
		t.Fatal(d.err)
	}
	f := fold.NewFold()
	for i, e := range d.events {
		f.Add(e.Event, &e.O, int64(i+1))
	}
	return d, f
}

// TestDemoFolds: each entry is of a kind that the app knows, all of them are counted, and
// nothing about them is odd.
func TestDemoFolds(t *testing.T) {
	d, f := foldedDemo(t)
	if n := f.Len(); n != len(d.events) || n < 600 || n > 2500 {
		t.Errorf("%d entries are folded of %d", n, len(d.events))
	}
	var last event.Stamp
	kinds := map[string]int{}
	for _, e := range d.events {
		kinds[e.Event.Kind]++
		if !event.IsKnown(e.Event.Kind, e.Event.V) {
			t.Errorf("no app knows the kind %s", e.Event.Kind)
		}
		if e.O < last || e.O.Ms() > d.now.UnixMilli() {
			t.Errorf("%s stands at %d, after %d", e.Event.Kind, e.O.Ms(), last.Ms())
		}
		last = e.O
	}
	odd := func(where string, list []fold.Warning) {
		for _, w := range list {
			t.Errorf("%s: %s %s", where, w.What, w.Msg)
		}
	}
	odd("now", f.Now().Check)
	for _, p := range f.Parts() {
		odd("part", p.Check)
	}
	for before := ""; ; {
		book := f.Book(before, 0)
		for _, s := range book.Sessions {
			before = s.ID
			v, err := f.Session(s.ID)
			if err != nil {
				t.Fatal(err)
			}
			odd(s.Title, v.Check)
			for _, l := range v.Lines {
				odd(s.Title+", "+l.Kind, l.Check)
			}
		}
		if len(book.Sessions) == 0 {
			break
		}
	}
	for mark := (fold.DayMark{}); ; {
		days := f.Days(mark, 0)
		for _, item := range days.Items {
			if l := item.Line; l != nil {
				odd(l.Kind, l.Check)
				mark = fold.DayMark{At: l.At, ID: l.ID}
			} else {
				mark = fold.DayMark{At: item.Session.Opened, ID: item.Session.ID}
			}
		}
		if !days.More {
			break
		}
	}
	for _, j := range f.Jobs("", 1000).Jobs {
		v, err := f.Job(j.ID)
		if err != nil {
			t.Fatal(err)
		}
		odd(v.Name, v.Warnings)
		if len(v.Also) > 0 {
			t.Errorf("%s has what was overwritten: %v", v.Name, v.Also)
		}
	}
	for _, s := range f.Stocks().Lines {
		if s.N < 0 || s.Again {
			t.Errorf("%s has %d pieces", s.Fields.Fields["name"], s.N)
		}
	}
	for _, kind := range event.Kinds() {
		if kinds[kind] == 0 && !slices.Contains([]string{"same", "session.set", "void"}, kind) {
			t.Errorf("nothing in the demo is of kind %s", kind)
		}
	}
}

// TestDemoIsAlike: but for its dates the demo is the same each time.
func TestDemoIsAlike(t *testing.T) {
	now := time.Now()
	a, b, later := newDemo(now), newDemo(now), newDemo(now.AddDate(0, 0, 3))
	if len(a.events) != len(b.events) || len(a.events) != len(later.events) {
		t.Fatalf("%d, %d and %d entries", len(a.events), len(b.events), len(later.events))
	}
	for i := range a.events {
		if string(a.events[i].Event.Raw) != string(b.events[i].Event.Raw) {
			t.Fatalf("%s and %s", a.events[i].Event.Raw, b.events[i].Event.Raw)
		}
		if x, y := a.events[i].Event, later.events[i].Event; x.ID != y.ID || x.Kind != y.Kind {
			t.Fatalf("%s %s and, three days later, %s %s", x.Kind, x.ID, y.Kind, y.ID)
		}
	}
}

// demoLives are the lives of a slot as the journal tells them.
func demoLives(f *fold.Fold, slot string) (parts []life.Part) {
	for _, v := range f.Lives("", slot, 1000).Lives {
		if v.Slot == slot {
			parts = append(parts, life.Part{Slot: slot, Failed: v.Failed, Use: life.Use{Minutes: float64(v.Ms) / 60_000, Starts: float64(v.Starts)}, Seen: life.Seen{Metal: v.Mostly.Metal, Rig: v.Mostly.Rig}})
		}
	}
	return parts
}

// TestDemoTeachesItsLaw: what is learnt of the lives in the journal holds the law that
// they were drawn from, within the doubt that it tells.
func TestDemoTeachesItsLaw(t *testing.T) {
	d, f := foldedDemo(t)
	for _, slot := range []string{"tip", "electrode"} {
		law, parts := demoLaws[slot], demoLives(f, slot)
		m := life.Learn(parts, life.PriorOf(slot))
		t.Logf("%s: %d parts, %d of them worn out", slot, m.Parts, m.Failures)
		if r := m.PerStartRange(); law.perStart < r.Low || law.perStart > r.High {
			t.Errorf("%s: a start is worth %.2f to %.2f min, and is worth %.2f", slot, r.Low, r.High, law.perStart)
		}
		for _, work := range []struct{ truck, metal string }{{"truck-1", "mild-steel"}, {"truck-2", "mild-steel"}, {"truck-2", "stainless"}} {
			scale := law.on(work.truck, work.metal)
			var same []life.Life
			for _, p := range parts {
				if p.Rig == d.id(work.truck) && p.Metal == work.metal {
					same = append(same, life.Life{T: p.Equivalent(law.perStart), Failed: p.Failed})
				}
			}
			w, err := life.Fit(same)
			if err != nil {
				t.Errorf("%s on %s: %v", slot, work, err)
				continue
			}
			if r := w.RatioScale(0.95); scale < r.Low || scale > r.High {
				t.Errorf("%s on %s: the scale is %.0f to %.0f min from %d parts, and is %.0f", slot, work, r.Low, r.High, len(same), scale)
			}
			if r := w.RatioShape(0.95); law.shape < r.Low || law.shape > r.High {
				t.Errorf("%s on %s: the shape is %.1f to %.1f from %d parts, and is %.1f", slot, work, r.Low, r.High, len(same), law.shape)
			}
			use := life.Use{Minutes: 0.5 * scale, Starts: 0.2 * scale}
			truth := math.Exp(-math.Pow(use.Equivalent(law.perStart)/scale, law.shape))
			if c := m.On(life.Seen{Rig: d.id(work.truck), Metal: work.metal}).Lasts(life.Use{}, use); truth < c.Low || truth > c.High {
				t.Errorf("%s on %s: a new one lasts that with %.2f to %.2f, and does with %.2f", slot, work, c.Low, c.High, truth)
			}
		}
	}
}

// TestDemoReadingsFollowTheirLaw: the bore has grown and the pit has deepened as the law
// says of what the part has done, but for what a reading is off.
func TestDemoReadingsFollowTheirLaw(t *testing.T) {
	d, f := foldedDemo(t)
	trucks := map[string]string{d.id("truck-1"): "truck-1", d.id("truck-2"): "truck-2"}
	for slot, key := range map[string]string{"tip": "dmax", "electrode": "pit"} {
		n, sum, squares, off := 0, 0.0, 0.0, map[string]float64{"tip": demoReadBore, "electrode": demoReadPit}[slot]
		for _, v := range f.Lives("", slot, 1000).Lives {
			truck := trucks[v.Rigs[0]]
			for _, r := range v.Readings {
				read, ok := event.ReadBody(r.Body).Int(key)
				if !ok || len(v.Metals) > 1 { // of two metals the minutes do not count alike
					continue
				}
				share := (float64(r.Ms)/60_000 + demoLaws[slot].perStart*float64(r.Starts)) / demoLaws[slot].on(truck, v.Mostly.Metal)
				want := demoPit * share
				if slot == "tip" {
					want = float64(demoTips[truck].bore) * (1 + demoGrowth*share)
				}
				n, sum, squares = n+1, sum+float64(read)-want, squares+(float64(read)-want)*(float64(read)-want)
			}
		}
		mean, spread := sum/float64(n), math.Sqrt(squares/float64(n))
		if n < 20 || math.Abs(mean) > off || spread > 1.5*off {
			t.Errorf("%s: %d readings lie %.1f µm off the law, and %.1f µm apart from it", slot, n, mean, spread)
		}
	}
}

// TestDemoTeachesItsCalibration: the cuts that were tried hold what each truck severs.
func TestDemoTeachesItsCalibration(t *testing.T) {
	d, _ := foldedDemo(t)
	for _, truck := range demoTrucks {
		tip := demoTips[truck]
		var cuts []cutting.CutTried
		for _, e := range d.events {
			b := event.ReadBody(e.Event.Body)
			if e.Event.Kind != "cut.tried" || b.Text("rig") != d.id(truck) {
				continue
			}
			plate, _ := b.Int("thickness")
			speed, _ := b.Int("speed")
			amps, _ := b.Int("amps")
			cuts = append(cuts, cutting.CutTried{Metal: material.Metal(b.Text("metal")), Thickness: unit.Length(plate) * unit.Micrometre,
				Current: unit.Current(amps), Speed: unit.Speed(speed) * unit.Speed(unit.Micrometre), Verdict: cutting.Verdict(b.Text("verdict"))})
		}
		rig := cutting.Rig{Tips: []cutting.Tip{{Rated: unit.Current(tip.amps), Orifice: unit.Length(tip.bore) * unit.Micrometre}}}
		tries, err := cutting.Expect(cuts, "", rig, cutting.Balance{Efficiency: cutting.DefaultEfficiency, Calibration: 1})
		if err != nil {
			t.Fatal(err)
		}
		got := cutting.Learn(tries)
		if is := unit.Ratio(demoSevers[truck]); is < got.Low || is > got.High || got.High-got.Low > 0.3 {
			t.Errorf("%s severs %.2f to %.2f times the reckoning by %d cuts, and does %.2f", truck, got.Low, got.High, got.Cuts, is)
		}
	}
}

// TestDemoStands: what the screens are to show is there: a session of today, a job under
// way, one done and one not begun, a line below its lowest count, and no trouble left open.
func TestDemoStands(t *testing.T) {
	d, f := foldedDemo(t)
	now := f.Now()
	if now.Session == nil || now.Session.Title != "Hill gate, new latch post" || len(now.Open) != 1 {
		t.Errorf("open is %+v of %d", now.Session, len(now.Open))
	}
	if site := string(f.Things().Sites[0].Fields.Fields["name"]); site != `"Hill gate, far socket"` {
		t.Errorf("a phone that has picked no site is at %s", site)
	}
	if len(now.Fails) > 0 || len(now.Gate.Stops) > 0 || len(now.Faults) > 0 {
		t.Errorf("left open: %v %v %v", now.Fails, now.Gate.Stops, now.Faults)
	}
	for _, r := range now.Rigs {
		for _, p := range r.Parts {
			if worn := r.Rig == d.id("truck-1") && (p.Slot == "tip" || p.Slot == "electrode"); worn && (p.Ms < 4*time.Minute.Milliseconds() || p.Reading == nil) {
				t.Errorf("the %s of %s has %d min of arc and was read %s", p.Slot, r.Name, p.Ms/60_000, p.Reading)
			}
		}
	}
	if look, err := book.Make(f, book.Look{Report: "front", Now: d.now.UnixMilli()}); err != nil || !strings.HasPrefix(look.Sections[0].Rows[0].Says[0], "Most worn: ") {
		t.Errorf("the Book begins with %+v, %v", look.Sections[0].Rows[0], err)
	}
	begun := map[string]string{}
	for _, j := range f.Jobs("", 1000).Jobs {
		switch {
		case j.Open != "":
			begun[j.Name] = "open"
		case j.Done == j.Pieces:
			begun[j.Name] = "done"
		case j.Done == 0:
			begun[j.Name] = "not begun"
		default:
			begun[j.Name] = fmt.Sprintf("%d of %d", j.Done, j.Pieces)
		}
	}
	for name, is := range begun {
		want := "done"
		switch name {
		case "Hill gate, new latch post":
			want = "open"
		case "Stair stringers":
			want = "not begun"
		}
		if is != want {
			t.Errorf("%s is %s, want %s", name, is, want)
		}
	}
	due := 0
	for _, r := range f.Upkeep(d.now.UnixMilli()).Rigs {
		for _, task := range r.Tasks {
			if task.Limits.Days > 0 && d.now.UnixMilli()-task.At > task.Limits.Days*24*time.Hour.Milliseconds() {
				due++
				if task.Task != "filter" || r.Name != "Truck 1, 45 A" {
					t.Errorf("%s is due on %s", task.Task, r.Name)
				}
			}
		}
	}
	if due != 1 {
		t.Errorf("%d tasks of upkeep are due by the calendar", due)
	}
	low := 0
	for _, s := range f.Stocks().Lines {
		least, _ := event.ReadInt(s.Fields.Fields["least"])
		if s.N < least {
			low++
		}
	}
	if low != 1 {
		t.Errorf("%d stock lines are below their lowest count", low)
	}
	if at := d.events[len(d.events)-1].O.Ms(); d.now.UnixMilli()-at > 2*time.Hour.Milliseconds() {
		t.Errorf("the last entry is of %s", time.UnixMilli(at))
	}
}

// TestDemoPictures: each picture that is told of lies where the server looks for it, and
// its small one is one that a phone shows.
func TestDemoPictures(t *testing.T) {
	path := filepath.Join(t.TempDir(), "kerfside.db")
	if err := demo(path, io.Discard); err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	d, n := newDemo(time.Now()), 0
	for _, e := range d.events {
		if e.Event.Kind != "photo.added" {
			continue
		}
		n++
		b := event.ReadBody(e.Event.Body)
		file, err := os.ReadFile(filepath.Join(photoFolder(path), store.PictureFile(s.Crew(), b.Text("sha256"))))
		if bytes, _ := b.Int("bytes"); err != nil || store.PictureName(file) != b.Text("sha256") || bytes != int64(len(file)) {
			t.Errorf("a picture of %d bytes: %v", len(file), err)
		}
		if thumb := b.Text("thumb"); !strings.HasPrefix(thumb, "data:image/jpeg;base64,") || len(thumb) > 4096 {
			t.Errorf("a small picture of %d characters: %.40s", len(thumb), thumb)
		}
	}
	if n < 3 {
		t.Errorf("%d pictures", n)
	}
}

// TestServeDemoRefuses: invented data mix with no real ones, and are shown under no name
// of a real server.
func TestServeDemoRefuses(t *testing.T) {
	for line, names := range map[string]string{
		"-demo -db real.db":                                           "-db",
		"-db kerfside.db -demo":                                       "-db",
		"-demo -backups there":                                        "-backups",
		"-demo -begin-anew":                                           "-begin-anew",
		"-demo -cert c -key k -host shop.example":                     "-cert",
		"-demo -acme -host shop.example.com":                          "-acme",
		"-demo -behind-proxy -host shop.example":                      "-behind-proxy",
		"-demo -lan":                                                  "-lan",
		"-demo -addr :8480":                                           ":8480",
		"-demo -addr 192.168.1.20:8480":                               "192.168.1.20",
		"-demo -plain-http :8480":                                     "-plain-http",
		"-demo -plain-http :8480 -host shop.lan -on-backup-failure x": "-on-backup-failure",
	} {
		a, err := serveOf(t, line)
		if err == nil {
			err = a.check(a.Addr)
		}
		if err == nil || !strings.Contains(err.Error(), names) {
			t.Errorf("serve %s: %v", line, err)
		}
	}
	for line, addr := range map[string]string{
		"-demo":                      "localhost:0",
		"-demo -addr localhost:9000": "localhost:9000",
		"-demo -plain-http :8481 -host 192.0.2.7": ":8481",
		"": "localhost:8480",
	} {
		a, err := serveOf(t, line)
		if err == nil {
			err = a.check(a.Addr)
		}
		if err != nil || a.Addr != addr || a.Demo != strings.Contains(line, "-demo") || (a.Backups == "") != a.Demo {
			t.Errorf("serve %s: at %s, demo %v, backups in %q, %v", line, a.Addr, a.Demo, a.Backups, err)
		}
	}
}

// serveOf reads the flags of "kerfside serve".
func serveOf(t *testing.T, line string) (*serveRun, error) {
	t.Helper()
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	a := declareServe(flags)
	if err := flags.Parse(strings.Fields(line)); err != nil {
		t.Fatal(err)
	}
	return a, a.settle()
}

// TestOnlyDemoIsFilled: a server that shows no demo begins empty.
func TestOnlyDemoIsFilled(t *testing.T) {
	for _, shown := range []bool{false, true} {
		app := shippedApp(t.TempDir())
		app.Addr, app.Demo = "localhost:0", shown
		if err := app.Open(); err != nil {
			t.Fatal(err)
		}
		state, _ := app.store.State(app.store.Crew())
		if err := app.Close(); err != nil || (state.Max > 0) != shown {
			t.Errorf("demo %v: %d entries, %v", shown, state.Max, err)
		}
		if err := app.Open(); err != nil { // what is there stays as it is
			t.Fatal(err)
		}
		again, _ := app.store.State(app.store.Crew())
		if err := app.Close(); err != nil || again.Max != state.Max {
			t.Errorf("demo %v: %d entries, opened again %d, %v", shown, state.Max, again.Max, err)
		}
	}
}
