package main

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"time"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
	"kerfside/server/store"
)

// demo runs "kerfside demo": it fills an empty store with invented data of
// Osier Ford Repair, a crew of two trucks that does not exist. All figures in
// it are made up and prove nothing.
func demo(args []string, out io.Writer) error {
	flags := flag.NewFlagSet("kerfside demo", flag.ContinueOnError)
	path := flags.String("db", "kerfside.db", "file of the database; must be empty")
	if err := readOnlyFlags(flags, args, out); err != nil {
		return err
	}
	s, err := store.Open(*path, store.Options{})
	if err != nil {
		return err
	}
	defer s.Close()
	state, _ := s.State(s.Crew())
	if state.Max > 0 {
		return problem.Newf(problem.Conflict, "db", "%s already holds %s", *path, unit.Count(state.Max, "entry", "entries")).
			WithHint("Invented data never mixes with real: give an empty file with -db demo.db.")
	}
	now := time.Now()
	d := &demoCrew{at: now.Add(-21 * 24 * time.Hour).UnixMilli(), device: "demo"}
	d.write()
	if d.err != nil {
		return d.err
	}
	acks, err := s.Append(context.Background(), store.Batch{Crew: s.Crew(), Now: now.UnixMilli(), Events: d.events})
	if err != nil {
		return err
	}
	if err := s.RenameCrew(s.Crew(), "Osier Ford Repair", now.UnixMilli()); err != nil {
		return err
	}
	fmt.Fprintf(out, "%d invented entries of Osier Ford Repair in %s.\nkerfside serve -db %s shows them to a phone that joins.\n", len(acks), *path, *path)
	return nil
}

// demoCrew writes the invented journal, moving its own clock along.
type demoCrew struct {
	at     int64 // ms since 1970
	device string
	events []exchange.Push
	err    error
}

// id makes the id of a thing or an event from a name; the same name gives the
// same id, so the demo is the same each time but for its dates.
func (d *demoCrew) id(name string) string {
	sum := sha256.Sum256([]byte("Osier Ford Repair " + name))
	return base64.RawURLEncoding.EncodeToString(sum[:16])
}

// tap adds one event a few seconds after the last. keys holds about and in.
func (d *demoCrew) tap(kind string, keys, body map[string]any) string {
	d.at += 7000
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

// body is short for the many literals below.
type body = map[string]any

// job is one invented day: what was cut, and each arc's seconds and starts.
type demoJob struct {
	truck, title string
	arcs         [][2]int64 // seconds, starts
	verdict      string
	drain        bool
	note         string
}

var demoJobs = []demoJob{
	{truck: "truck-1", title: "Field gate, hinge side", arcs: [][2]int64{{40, 1}, {75, 2}, {30, 1}}, verdict: "good", note: "Galvanised: zinc ground back 100 mm from the cut first."},
	{truck: "truck-1", title: "Hopper patch, 6 mm", arcs: [][2]int64{{120, 2}, {180, 3}, {95, 1}, {140, 2}}, verdict: "good", drain: true},
	{truck: "truck-2", title: "Trailer ramp, 10 mm", arcs: [][2]int64{{210, 3}, {260, 4}}, verdict: "too-fast", drain: true, note: "Ramp springs taken off and put aside before the cut."},
	{truck: "truck-1", title: "Bucket lip, 16 mm", arcs: [][2]int64{{300, 2}, {320, 3}}, verdict: "too-slow", drain: true},
	{truck: "truck-2", title: "Rack uprights, 3 mm", arcs: [][2]int64{{35, 6}, {50, 8}, {45, 7}}, verdict: "good", note: "Both ends of each tube opened before heat."},
	{truck: "truck-1", title: "Drawbar, 12 mm", arcs: [][2]int64{{150, 2}, {200, 2}}, verdict: "good", drain: true},
}

// demoBores are the new bores of the tips in the torches, in µm.
var demoBores = map[string]int64{"truck-1": 1050, "truck-2": 1200}

func (d *demoCrew) write() {
	rigs := map[string]body{
		"truck-1": {"name": "Truck 1, 45 A", "min_current": "15A", "max_current": "45A", "tips": "25A:0.8mm,45A:1.05mm", "fitted": "45A", "pressure_kind": "fixed", "pressure": "5bar"},
		"truck-2": {"name": "Truck 2, 60 A", "min_current": "20A", "max_current": "60A", "tips": "40A:1mm,60A:1.2mm", "fitted": "60A", "pressure_kind": "fixed", "pressure": "5.2bar"},
	}
	for _, truck := range []string{"truck-1", "truck-2"} {
		d.tap("rig.set", body{"about": d.id(truck)}, rigs[truck])
		for _, slot := range []string{"cup", "tip", "diffuser", "electrode", "o-ring"} {
			d.tap("part.fitted", body{"about": d.id(truck + slot)}, body{"slot": slot, "rig": d.id(truck)})
		}
	}
	for i, job := range demoJobs {
		d.at += 3 * 24 * 3600 * 1000 // every third day
		d.day(fmt.Sprint("session ", i), job)
	}
}

// day writes one job: session, arcs, drain, verdict and a reading at the end.
func (d *demoCrew) day(name string, job demoJob) {
	session, rig := d.id(name), d.id(job.truck)
	d.tap("session.opened", body{"about": session}, body{"rig": rig, "title": job.title})
	if job.note != "" {
		d.tap("note.added", body{"in": session}, body{"text": job.note})
	}
	for _, arc := range job.arcs {
		started := d.tap("arc.started", body{"in": session}, body{"rig": rig})
		d.at += arc[0]*1000 - 7000 // tap itself takes 7 s
		d.tap("arc.stopped", body{"in": session}, body{"of": started, "starts": arc[1]})
		d.at += 90_000
	}
	if job.drain {
		d.tap("trap.drained", body{"in": session}, body{"rig": rig})
	}
	d.tap("cut.tried", body{"in": session}, body{"rig": rig, "metal": "mild-steel", "verdict": job.verdict})
	wear := int64(len(d.events)) / 3 * 10 // µm, only ever growing
	d.tap("part.reading", body{"in": session, "about": d.id(job.truck + "tip")}, body{"dmax": demoBores[job.truck] + wear, "dmin": demoBores[job.truck] + wear/2})
	d.tap("watch.started", body{"in": session}, body{"ms": 3600_000})
	d.at += 3600_000
	d.tap("session.closed", body{"about": session}, body{})
}
