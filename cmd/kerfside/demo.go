package main

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
	"kerfside/cmd/internal/command"
	"kerfside/server/store"
)

var demoCommand = command.Command{
	Name: "demo", About: "fill an empty store with invented data of Osier Ford Repair",
	Declare: func(flags *flag.FlagSet) command.Action {
		var db string
		dbFlag(flags, &db, "; must be empty")
		return func(_ []string, out io.Writer) error { return demo(db, out) }
	},
	Examples: []command.Example{{Line: "kerfside demo -db demo.db", Does: "make it in a file of its own"}},
}

// demo fills an empty store with invented data of Osier Ford Repair, a crew of
// two trucks that does not exist. All figures in it are made up and prove nothing.
func demo(db string, out io.Writer) error {
	s, err := store.Open(db, store.Options{})
	if err != nil {
		return err
	}
	defer s.Close()
	state, _ := s.State(s.Crew())
	if state.Max > 0 {
		return problem.Newf(problem.Conflict, "db", "%s already holds %s", db, unit.Count(state.Max, "entry", "entries")).
			WithHint("Invented data never mixes with real: give an empty file with -db demo.db.")
	}
	n, err := fillDemo(s, photoFolder(db), time.Now())
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%s of Osier Ford Repair in %s, all of them invented.\nkerfside serve -db %s shows them to a phone that joins; kerfside serve -demo shows the same at once, without a file.\n", unit.Count(int64(n), "entry", "entries"), db, db)
	return nil
}

// demoName is what the crew is called, so that nobody takes it for a real one.
const demoName = "Osier Ford Repair (invented)"

// fillDemo writes the invented journal into a store and its pictures into their folder,
// and returns how many entries there are.
func fillDemo(s *store.Store, photos string, now time.Time) (int, error) {
	d := newDemo(now)
	if d.err != nil {
		return 0, d.err
	}
	for _, picture := range d.photos {
		path := filepath.Join(photos, store.PictureFile(s.Crew(), store.PictureName(picture)))
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			return 0, err
		}
		if err := os.WriteFile(path, picture, 0o600); err != nil {
			return 0, err
		}
	}
	acks, err := s.Append(context.Background(), store.Batch{Crew: s.Crew(), Now: now.UnixMilli(), Events: d.events})
	if err != nil {
		return 0, err
	}
	return len(acks), s.RenameCrew(s.Crew(), demoName, now.UnixMilli())
}

// newDemo tells all of the invented crew up to an hour ago.
func newDemo(now time.Time) *demoCrew {
	d := &demoCrew{demoChance: newDemoChance(), now: now}
	d.write()
	return d
}

// demoCrew writes the invented journal, moving its own clock along.
type demoCrew struct {
	demoChance
	now    time.Time
	at     int64 // ms since 1970
	device string
	events []exchange.Push
	photos [][]byte
	err    error
}

// demoStep is how long after one tap the next comes, ms.
const demoStep = 7000

// id makes the id of a thing or an event from a name; the same name gives the
// same id, so the demo is the same each time but for its dates.
func (d *demoCrew) id(name string) string {
	sum := sha256.Sum256([]byte("Osier Ford Repair " + name))
	return base64.RawURLEncoding.EncodeToString(sum[:16])
}

// tap adds one event a few seconds after the last. keys holds about and in.
func (d *demoCrew) tap(kind string, keys, body map[string]any) string {
	d.at += demoStep
	id := d.id(fmt.Sprint(len(d.events), kind))
	e := map[string]any{
		"id": id, "t": event.StampOf(d.at), "wall": [2]int64{d.at, 0}, "device": d.device, "kind": kind, "v": 1, "body": body,
	}
	for k, v := range keys {
		e[k] = v
	}
	raw, err := json.Marshal(e)
	if err == nil {
		var read event.Event
		if read, err = event.Decode(raw); err == nil {
			d.events = append(d.events, exchange.Push{Event: read, O: read.T, Sum: event.SumOf(raw)})
		}
	}
	if err != nil && d.err == nil {
		d.err = fmt.Errorf("demo %s: %w", kind, err)
	}
	return id
}

// morning sets the clock to the morning of so many days ago; today is an hour ago.
func (d *demoCrew) morning(ago int) {
	d.at = d.now.Add(-70 * time.Minute).UnixMilli()
	if ago > 0 {
		d.at = time.Date(d.now.Year(), d.now.Month(), d.now.Day()-ago, 8, 10, 0, 0, d.now.Location()).UnixMilli()
	}
}

// wait moves the clock along.
func (d *demoCrew) wait(t time.Duration) { d.at += t.Milliseconds() }
