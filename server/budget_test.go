package server

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
	"kerfside/server/store"
)

// entry is an event of a phone, stamped at ms.
func entry(i int, ms int64) string {
	return line(fmt.Sprintf("bdgt%018d", i), event.StampOf(ms), ms, "phone-a", "note.added", "", map[string]any{"text": i})
}

// budgetShop is a shop whose phones may send ten entries a day, and a hundred
// that they bring along.
func budgetShop(t *testing.T) (*shop, client, client) {
	p := newShop(t)
	p.server.budgets.day, p.server.budgets.brought = Budget{Events: 10, Bytes: 5000}, Budget{Events: 100}
	return p, p.join(crewID, store.Owner, "boss"), p.join(crewID, store.Member, "phone-a")
}

// TestBudget: what a phone sends beyond its day's share is refused, whole, with
// the time to wait; it goes on fetching, others are not slowed, its owner and the
// log are told, and a day later it may send as much again.
func TestBudget(t *testing.T) {
	p, boss, a := budgetShop(t)
	push := func(c client, list ...string) problem.Kind {
		t.Helper()
		out := c.send("POST", "/api/journal/sync", syncOf(crewID, list...))
		if slow := kind(out) == problem.SlowDown; slow != (out.Code == 429) || slow != (out.Header().Get("Retry-After") == "60") {
			t.Errorf("%d %v %s", out.Code, out.Header(), out.Body)
		}
		return kind(out)
	}
	now := func() int64 { return p.now.UnixMilli() }
	for i := range 10 {
		if got := push(a, entry(i, now())); got != "" {
			t.Fatalf("entry %d: %s", i, got)
		}
	}
	for range 3 {
		if got := push(a, entry(10, now())); got != problem.SlowDown {
			t.Errorf("entry 11: %q", got)
		}
	}
	if state, _ := p.server.store.State(crewID); state.Max != 10 {
		t.Errorf("%d are stored, want 10", state.Max)
	}
	if got := push(a); got != "" {
		t.Errorf("it cannot fetch: %s", got)
	}
	if got := push(boss, entry(500, now())); got != "" {
		t.Errorf("another phone: %s", got)
	}
	type list struct {
		Devices []struct {
			ID   string
			Over int64
		}
	}
	for _, d := range told[list](t, boss.send("GET", "/api/devices", "")).Devices {
		if over := d.Over == now(); over != (d.ID == "phone-a") {
			t.Errorf("of %s the owner is told %d", d.ID, d.Over)
		}
	}
	if log := p.log.String(); strings.Count(log, "used up its budget") != 1 || !strings.Contains(log, "device=phone-a entries=10") {
		t.Errorf("the log: %s", log)
	}
	p.now = p.now.Add(24 * time.Hour)
	for i := range 10 {
		if got := push(a, entry(10+i, now())); got != "" {
			t.Fatalf("a day later, entry %d: %s", i, got)
		}
	}
	if got := push(a, entry(30, now())); got != problem.SlowDown {
		t.Errorf("a day later, entry 11: %q", got)
	}
}

// TestBudgetLetsHealing: a journal that is brought to a crew, and what is offered
// again after a restore, do not use up the day, nor does what is there already;
// and whoever lies about the age of entries is bounded all the same.
func TestBudgetLetsHealing(t *testing.T) {
	p, _, a := budgetShop(t)
	now := p.now.UnixMilli()
	send := func(list ...string) problem.Kind {
		return kind(a.send("POST", "/api/journal/sync", syncOf(crewID, list...)))
	}
	var old, again, fresh []string
	for i := range 45 {
		old = append(old, entry(i, now-48*3600_000))
		again = append(again, fmt.Sprintf(`{"o":%q,"raw":%s}`, event.StampOf(now), entry(100+i, now)))
	}
	for i := range 10 {
		fresh = append(fresh, entry(200+i, now))
	}
	for _, list := range [][]string{old, again, fresh, old, again, fresh[:9]} {
		if got := send(list...); got != "" && len(list) != 9 {
			t.Fatalf("%s: %s", list[0], got)
		}
	}
	if got := send(entry(300, now)); got != problem.SlowDown {
		t.Errorf("one more of today: %q", got)
	}
	if got := send(append(old, entry(50, now-48*3600_000))...); got != "" {
		t.Errorf("an older one beyond the day's share: %q", got)
	}
	var more []string
	for i := range 9 {
		more = append(more, entry(60+i, now-48*3600_000))
	}
	if got := send(more...); got != "" {
		t.Errorf("up to a hundred: %q", got)
	}
	if got := send(entry(80, now-48*3600_000)); got != problem.SlowDown {
		t.Errorf("older ones without end: %q", got)
	}
}

// TestBudgetOfPictures: they count by their bytes, those that are here already
// do not.
func TestBudgetOfPictures(t *testing.T) {
	p, _, a := budgetShop(t)
	p.server.budgets.day.Bytes = 4000
	put := func(shade uint8) (int, int) {
		picture := asJPEG(t, gray(40, 40, shade))
		return a.send("PUT", photoPath(picture), string(bytes.Clone(picture))).Code, len(picture)
	}
	sum, shade := 0, uint8(0)
	for sum < 4000 {
		code, size := put(shade)
		if code != 204 {
			t.Fatalf("after %d bytes: %d", sum, code)
		}
		sum, shade = sum+size, shade+16 // those too alike give the same bytes
	}
	if code, _ := put(shade); code != 429 {
		t.Errorf("after %d bytes: %d", sum, code)
	}
	if code, _ := put(0); code != 204 {
		t.Errorf("one that is here: %d", code)
	}
	if out := a.send("POST", "/api/journal/sync", syncOf(crewID, entry(1, p.now.UnixMilli()))); kind(out) != problem.SlowDown {
		t.Errorf("an entry: %d %s", out.Code, out.Body)
	}
}

// TestBudgetOfHealing: the pictures of a journal that a phone brings along, and those
// that a restored server has lost, do not use up the day, and are bounded all the
// same; those of another phone count as ever.
func TestBudgetOfHealing(t *testing.T) {
	for name, begin := range map[string]func(p *shop, a client){
		"joined with a journal": func(p *shop, a client) {
			old := p.now.UnixMilli() - 48*3600_000
			told := line("olderpicture0000000000", event.StampOf(old), old, "phone-a", "photo.added", "", map[string]any{"sha256": strings.Repeat("a", 64)})
			if out := a.send("POST", "/api/journal/sync", syncOf(crewID, told)); out.Code != 200 {
				t.Fatalf("%d %s", out.Code, out.Body)
			}
		},
		"after a restore": func(p *shop, a client) {
			head := fmt.Sprintf(`{"proto":1,"crew":%q,"marks":[{"n":0,"h":"%032d"},{"n":9,"h":"%032d"}]}`, crewID, 0, 9)
			if out := a.send("POST", "/api/journal/sync", head+"\n"); out.Code != 200 || !strings.Contains(out.Body.String(), "rewound") {
				t.Fatalf("%d %s", out.Code, out.Body)
			}
		},
	} {
		t.Run(name, func(t *testing.T) {
			p, _, a := budgetShop(t)
			b := p.join(crewID, store.Member, "phone-b")
			p.server.budgets.day.Bytes, p.server.budgets.brought.Bytes = 1000, 4000
			sum, width := 0, 40
			put := func(c client) int {
				picture := asJPEG(t, gray(width, 40, 90))
				sum, width = sum+len(picture), width+8 // each another one
				return c.send("PUT", photoPath(picture), string(picture)).Code
			}
			begin(p, a)
			for sum < 4000-1000 {
				if code := put(a); code != 204 {
					t.Fatalf("after %d bytes: %d", sum, code)
				}
			}
			if got := kind(a.send("POST", "/api/journal/sync", syncOf(crewID, entry(1, p.now.UnixMilli())))); got != "" {
				t.Errorf("today's work: %s", got)
			}
			for sum < 5000 {
				put(a)
			}
			if code := put(a); code != 429 {
				t.Errorf("after %d bytes: %d", sum, code)
			}
			for sum = 0; sum < 2000; {
				put(b)
			}
			if code := put(b); code != 429 {
				t.Errorf("of another phone after %d bytes: %d", sum, code)
			}
			p.now = p.now.Add(8 * 24 * time.Hour)
			for sum = 0; sum < 2000; {
				put(a)
			}
			if code := put(a); code != 429 {
				t.Errorf("a week later, after %d bytes: %d", sum, code)
			}
		})
	}
}
