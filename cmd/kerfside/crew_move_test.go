package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/journal/journaltest"
	"kerfside/calc/problem"
	"kerfside/server/backup"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// mover carries a crew to and fro between two servers that run, by commands that are
// killed on the way.
type mover struct {
	*testing.T
	crew   string
	apps   [2]*App
	chance *rand.Rand
	took   map[string]time.Duration // how long a step takes that is let go
	killed int
	steps  int
}

func newMover(t *testing.T, entries int) *mover {
	m := &mover{T: t, chance: rand.New(rand.NewPCG(7, 7)), took: map[string]time.Duration{}}
	for i := range m.apps {
		m.apps[i] = openApp(t, t.TempDir())
		t.Cleanup(func() { m.apps[i].Close() })
	}
	m.crew = m.apps[0].store.Crew()
	link, err := m.apps[0].Invite("owner")
	if err != nil {
		t.Fatal(err)
	}
	enrolAt(t, m.apps[0], link)
	m.push(0, journaltest.Notes(t, "phone-a", entries))
	for i := range 3 {
		picture := fmt.Appendf(nil, "picture %d", i)
		file := filepath.Join(m.apps[0].store.Pictures(), store.PictureFile(m.crew, store.PictureName(picture)))
		if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, picture, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return m
}

// push stores entries on a server.
func (m *mover) push(app int, list []event.Event) {
	m.Helper()
	for len(list) > 0 {
		part := list[:min(500, len(list))]
		list = list[len(part):]
		b := store.Batch{Crew: m.crew, Now: time.Now().UnixMilli()}
		for _, e := range part {
			b.Events = append(b.Events, exchange.Push{Event: e, O: e.T, Sum: event.SumOf(e.Raw)})
		}
		if _, err := m.apps[app].store.Append(context.Background(), b); err != nil {
			m.Fatal(err)
		}
	}
}

// serving counts the servers that take entries and answer phones of the crew.
func (m *mover) serving() (count, which int) {
	for i, app := range m.apps {
		if app.store.IsHere(context.Background(), m.crew) == nil {
			count, which = count+1, i
		}
	}
	return count, which
}

// step runs a command on a server, is killed at any moment some times, and in the end
// let go. Never do two servers serve the crew.
func (m *mover) step(app int, words ...string) moved {
	m.Helper()
	program, err := built()
	if err != nil {
		m.Fatal(err)
	}
	m.steps++
	for kills := m.chance.IntN(4); ; kills-- {
		c := exec.Command(program, append(append([]string{"crew"}, words...), "-json", "-db", m.apps[app].DB)...)
		var out, said bytes.Buffer
		c.Stdout, c.Stderr = &out, &said
		began := time.Now()
		if err := c.Start(); err != nil {
			m.Fatal(err)
		}
		if kills > 0 {
			usual := max(m.took[words[0]], 80*time.Millisecond)
			time.Sleep(time.Duration(m.chance.Int64N(int64(usual))))
			c.Process.Kill() // it may have ended, which is as good
		}
		err := c.Wait()
		if count, _ := m.serving(); count > 1 {
			m.Fatalf("after %s, killed or not, two servers serve the crew", words[0])
		}
		if kills > 0 {
			if err != nil && said.Len() > 0 {
				m.Fatalf("%s after a kill: %s", words[0], said.String())
			}
			m.killed++
			continue
		}
		if err != nil {
			m.Fatalf("%s: %v %s", words[0], err, said.String())
		}
		m.took[words[0]] = time.Since(began)
		var v moved
		if err := json.Unmarshal(out.Bytes(), &v); err != nil || v.Crew != m.crew {
			m.Fatalf("%s prints %s", words[0], out.String())
		}
		return v
	}
}

// The commands of a move, each killed at any moment and run again, while both servers
// run: all entries are on the one that took the crew up, in one chain.
func TestMoveKilled(t *testing.T) {
	rounds, entries := 2, 6000
	if os.Getenv("KERFSIDE_LONG") != "" {
		rounds = 8
	}
	m := newMover(t, entries)
	for round := range rounds {
		from, to := round%2, 1-round%2
		before, _ := m.apps[from].store.State(m.crew)
		file := filepath.Join(t.TempDir(), "crew.kerfside")
		packed := m.step(from, "pack", "-crew", m.crew, file)
		if packed.Entries != before.Max || packed.Pictures != 3 || packed.Phones != 1 {
			t.Fatalf("packed: %+v of %d entries", packed, before.Max)
		}
		if round == 1 { // called off once
			m.step(from, "keep", "-crew", m.crew)
			if count, which := m.serving(); count != 1 || which != from {
				t.Fatal("kept, and not served")
			}
			m.step(from, "pack", "-crew", m.crew, file)
		}
		received := m.step(to, "unpack", file)
		key := m.step(from, "hand-over", received.Receipt).Key
		if count, _ := m.serving(); count != 0 {
			t.Fatal("served between hand-over and take-up")
		}
		m.step(to, "take-up", key)
		if count, which := m.serving(); count != 1 || which != to {
			t.Fatalf("%d serve it, %d", count, which)
		}
		m.step(from, "drop", "-crew", m.crew)
		m.push(to, journaltest.Notes(t, fmt.Sprintf("round-%d", round), 10))
		s := m.apps[to].store
		var chain event.Chain
		n := int64(0)
		for {
			rows, err := s.After(t.Context(), m.crew, n, 1000, 1<<20)
			if err != nil {
				t.Fatal(err)
			}
			if len(rows) == 0 {
				break
			}
			for _, r := range rows {
				if n++; r.N != n {
					t.Fatalf("arrival %d stands after %d", r.N, n-1)
				}
				chain = chain.Next(r.ID, r.O, r.Sum)
			}
			if n == before.Max && chain != before.Head {
				t.Fatal("the chain is another one")
			}
		}
		if n != before.Max+10 {
			t.Errorf("round %d: %d entries of %d", round, n, before.Max+10)
		}
	}
	t.Logf("tally: %d commands of moves killed", m.killed)
	if m.killed < m.steps/2 {
		t.Errorf("%d kills in %d steps", m.killed, m.steps)
	}
}

// What is said to whoever moves a crew: what was done and what comes next, and how the
// crews stand.
func TestMoveSays(t *testing.T) {
	m := newMover(t, 1)
	file := filepath.Join(t.TempDir(), "crew.kerfside")
	says := func(app int, want string, words ...string) string {
		t.Helper()
		said, err := crewSays(t, m.apps[app], words...)
		if err != nil || !strings.Contains(said, want) {
			t.Fatalf("%v: %q, %v; want %q", words, said, err, want)
		}
		return said
	}
	last := func(said string) string { f := strings.Fields(said); return f[len(f)-1] }
	says(0, "1 entry, 1 phone, 3 pictures", "pack", file)
	says(0, "frozen", "list")
	if _, err := crewSays(t, m.apps[0], "invite"); problem.KindOf(err) != problem.Busy || strings.Contains(err.Error(), "phone") {
		t.Errorf("an invitation to a frozen crew: %v", err)
	}
	receipt := last(says(1, "kerfside crew hand-over", "unpack", file))
	says(1, "held", "list")
	key := last(says(0, "kerfside crew take-up", "hand-over", receipt))
	says(0, "moved", "list")
	says(1, "served here now", "take-up", key)
	says(1, "here", "list")
	says(0, "no backup in", "drop")
	says(0, "gone", "list")
	says(1, "taken-up", "audit", "-crew", m.crew)
}

// A backup from before a crew moved, restored on its old server, does not make that
// serve it again; one that is made while a crew is being unpacked or dropped is sound.
func TestMoveAndBackups(t *testing.T) {
	m := newMover(t, 7_000)
	file := filepath.Join(t.TempDir(), "crew.kerfside")
	at := time.Now()
	save := func(app int) backup.Backup {
		t.Helper()
		at = at.Add(time.Second)
		b, err := backup.Make(t.Context(), m.apps[app].DB, t.TempDir(), at) // of one day the newest alone would stay
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	early := save(0)
	m.step(0, "pack", "-crew", m.crew, file)
	frozen := save(0)
	half := m.killedHalfWay(1, store.CrewArriving, "unpack", file)
	if b := save(1); half && b.Events == 0 {
		t.Error("a backup amid an unpacking holds nothing of it")
	}
	key := m.step(0, "hand-over", m.step(1, "unpack", file).Receipt).Key
	m.step(1, "take-up", key)
	for i, b := range []backup.Backup{early, frozen, early} {
		app := m.apps[0]
		if err := app.Close(); err != nil {
			t.Fatal(err)
		}
		if i == 2 { // the former database is no help
			if err := os.WriteFile(app.DB, []byte("no database"), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		at = at.Add(time.Second)
		r, err := backup.Restore(t.Context(), app.DB, b.File, at)
		if err != nil || r.Access == (i == 2) {
			t.Fatalf("restored: %+v, %v", r, err)
		}
		if err := app.Open(); err != nil {
			t.Fatal(err)
		}
		if count, which := m.serving(); count != 1 || which != 1 {
			t.Fatalf("after a restore of %s the crew is served %d times", b.File, count)
		}
	}
	m.killedHalfWay(0, store.CrewGone, "drop", "-crew", m.crew)
	save(0)
	m.step(0, "drop", "-crew", m.crew)
	if state, _ := m.apps[1].store.State(m.crew); state.Max != 7_000 {
		t.Errorf("the new server holds %d", state.Max)
	}
}

// killedHalfWay kills a command once the crew is in that state.
func (m *mover) killedHalfWay(app int, state store.CrewState, words ...string) bool {
	m.Helper()
	program, err := built()
	if err != nil {
		m.Fatal(err)
	}
	c := exec.Command(program, append(append([]string{"crew"}, words...), "-db", m.apps[app].DB)...)
	if err := c.Start(); err != nil {
		m.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- c.Wait() }()
	db := storetest.Raw(m, m.apps[app].DB)
	for {
		if crew, err := m.apps[app].store.CrewByID(context.Background(), m.crew); err == nil && crew.State == state {
			var events int
			if err := db.QueryRow(`SELECT max FROM crew WHERE id = ?`, m.crew).Scan(&events); err == nil && events > 0 {
				c.Process.Kill()
				<-ended
				return true
			}
		}
		select {
		case <-ended:
			return false // it was faster
		case <-time.After(time.Millisecond):
		}
	}
}
