package main

import (
	"cmp"
	"fmt"
	"maps"
	"time"
)

// body is short for the many literals below.
type body = map[string]any

// demoRigs are the two trucks, each with its machine, compressor, hose and cord.
var demoRigs = map[string]body{
	"truck-1": {
		"name": "Truck 1, 45 A", "min_current": "15A", "max_current": "45A", "tips": "25A:0.8mm,45A:1.05mm", "fitted": "45A",
		"pressure_kind": "fixed", "pressure": "5bar", "plate_volts": "230V", "duty_points": "45A:40%,35A:60%", "power_factor": "0.95", "machine_efficiency": "85%", "least_volts": "207V",
		"air_need": "170l/min", "air_least": "4.5bar", "free_air": "220l/min", "tank": "50l", "cut_in": "6bar", "cut_out": "8bar",
		"hose_length": "15m", "bore": "9.5mm", "couplers": "2", "size": "2.5mm2", "cord_length": "20m",
	},
	"truck-2": {
		"name": "Truck 2, 60 A", "min_current": "20A", "max_current": "60A", "tips": "40A:1mm,60A:1.2mm", "fitted": "60A",
		"pressure_kind": "fixed", "pressure": "5.2bar", "plate_volts": "230V", "duty_points": "60A:50%", "power_factor": "0.95", "machine_efficiency": "85%", "least_volts": "207V",
		"air_need": "190l/min", "air_least": "4.7bar", "free_air": "300l/min", "tank": "100l", "cut_in": "6.5bar", "cut_out": "9bar",
		"hose_length": "10m", "bore": "9.5mm", "couplers": "2", "size": "6mm2", "cord_length": "15m",
	},
}

// demoSites are where they work. At the hill gate a long thin cord carries less than
// the plan asks for, and the phone says what helps.
var demoSites = map[string]body{
	"yard": {"name": "Own yard", "volts": "230V", "breaker": "32A"},
	"hill": {"name": "Hill gate, far socket", "volts": "230V", "breaker": "16A", "size": "2.5mm2", "cord_length": "40m", "drop_advice": "5%"},
}

// demoBores are the new bores of the tips in the torches, in µm.
var demoBores = map[string]int64{"truck-1": 1050, "truck-2": 1200}

// demoCut is one cut that was judged: its plate in µm, its speed in µm/s and the amps.
type demoCut struct {
	plate, speed, amps int64
	verdict            string
}

// demoJob is one invented job: what was cut, and each arc's seconds and starts. The tip
// reads so many µm over new after it, the electrode's pit so deep; 0 is not read.
type demoJob struct {
	ago               int // days
	truck, site       string
	title             string
	arcs              [][2]int64
	cut               demoCut
	drain             bool
	note              string
	tip, pit          int64
	fault, cause, fit string // what was seen, what it was, the part changed for it
	open              bool   // it goes on
}

var demoJobs = []demoJob{
	{
		ago: 16, truck: "truck-1", site: "hill", title: "Field gate, hinge side", arcs: [][2]int64{{40, 1}, {75, 2}, {30, 1}}, tip: 20,
		cut: demoCut{plate: 6000, speed: 14_400, amps: 45, verdict: "good"}, note: "Galvanised: zinc ground back 100 mm from the cut first.",
	},
	{
		ago: 13, truck: "truck-1", site: "yard", title: "Hopper patch, 6 mm", arcs: [][2]int64{{120, 2}, {180, 3}, {95, 1}, {140, 2}}, drain: true, tip: 50, pit: 600,
		cut: demoCut{plate: 6000, speed: 12_500, amps: 45, verdict: "good"},
	},
	{
		ago: 9, truck: "truck-2", site: "yard", title: "Trailer ramp, 10 mm", arcs: [][2]int64{{210, 3}, {260, 4}}, drain: true, tip: 190,
		cut: demoCut{plate: 10_000, speed: 15_000, amps: 60, verdict: "too-fast"}, note: "Ramp springs taken off and put aside before the cut.",
		fault: "wide-cut", cause: "tip-worn", fit: "tip",
	},
	{
		ago: 6, truck: "truck-1", site: "yard", title: "Bucket lip, 10 mm", arcs: [][2]int64{{300, 2}, {320, 3}}, drain: true, tip: 90, pit: 1000,
		cut: demoCut{plate: 10_000, speed: 4200, amps: 45, verdict: "too-slow"},
	},
	{
		ago: 2, truck: "truck-2", site: "hill", title: "Rack uprights, 3 mm", arcs: [][2]int64{{35, 6}, {50, 8}, {45, 7}}, tip: 30,
		cut: demoCut{plate: 3000, speed: 22_000, amps: 40, verdict: "good"}, note: "Both ends of each tube opened before heat.",
	},
	{
		ago: 1, truck: "truck-1", site: "yard", title: "Drawbar, 12 mm", arcs: [][2]int64{{150, 2}, {200, 2}}, drain: true, tip: 110, pit: 1300,
		cut: demoCut{plate: 12_000, speed: 6000, amps: 45, verdict: "good"},
	},
	{ago: 0, truck: "truck-1", site: "hill", title: "Hill gate, new latch post", arcs: [][2]int64{{55, 2}, {80, 3}}, cut: demoCut{plate: 6000, speed: 13_000, amps: 45, verdict: "good"}, open: true},
}

// demoLook is what this morning's inspection found, step by step; the rest was good.
var demoLook = []struct{ step, slot, result string }{
	{step: "after-flow"}, {step: "unplug"}, {step: "cool"}, {step: "bleed"},
	{step: "cup-holes", slot: "cup", result: "good"}, {step: "cup-face", slot: "cup", result: "good"},
	{step: "tip-edge", slot: "tip", result: "worn"}, {step: "tip-size", slot: "tip", result: "worn"},
	{step: "diffuser", slot: "diffuser", result: "good"},
	{step: "electrode-pit", slot: "electrode", result: "worn"}, {step: "electrode-fit", slot: "electrode", result: "good"},
	{step: "o-ring", slot: "o-ring", result: "good"}, {step: "head", slot: "head", result: "good"},
	{step: "cup-switch"}, {step: "lead", result: "good"}, {step: "pair"}, {step: "same-family"}, {step: "assemble"}, {step: "test"},
}

// write tells sixteen days of the two trucks, up to an hour ago.
func (d *demoCrew) write() {
	d.morning(20)
	for _, truck := range []string{"truck-1", "truck-2"} {
		d.tap("rig.set", body{"about": d.id(truck)}, demoRigs[truck])
		for _, slot := range []string{"cup", "tip", "diffuser", "electrode", "o-ring"} {
			d.fit(truck, slot, nil)
		}
	}
	for _, site := range []string{"yard", "hill"} {
		d.tap("site.set", body{"about": d.id(site)}, demoSites[site])
	}
	for i, job := range demoJobs {
		d.morning(job.ago)
		if job.open {
			d.look(job.truck)
		}
		d.day(fmt.Sprint("session ", i), job)
	}
}

// look writes the inspection before the day's work.
func (d *demoCrew) look(truck string) {
	d.tap("guide.opened", nil, body{"guide": "torch-inspection"})
	for _, one := range demoLook {
		answer := body{"guide": "torch-inspection", "step": one.step, "result": cmp.Or(one.result, "done")}
		if one.slot != "" {
			answer["slot"], answer["part"] = one.slot, d.parts[truck+one.slot]
		}
		d.tap("check.answered", nil, answer)
		if one.step == "tip-size" {
			d.tap("part.reading", body{"about": d.parts[truck+"tip"]}, body{"dmax": demoBores[truck] + 120, "dmin": demoBores[truck] + 90})
		}
	}
	d.wait(6 * time.Minute)
}

// day writes one job: session, arcs, drain, verdict, and readings at the end.
func (d *demoCrew) day(name string, job demoJob) {
	session, rig := d.id(name), d.id(job.truck)
	in := body{"in": session}
	d.tap("session.opened", body{"about": session}, body{"rig": rig, "site": d.id(job.site), "title": job.title})
	if job.note != "" {
		d.tap("note.added", in, body{"text": job.note})
	}
	for i, arc := range job.arcs {
		started := d.tap("arc.started", in, body{"rig": rig})
		d.at += arc[0]*1000 - 7000 // tap itself takes 7 s
		stopped := d.tap("arc.stopped", in, body{"of": started, "starts": arc[1]})
		if i == 1 && job.drain { // counted wrong, and put right
			d.tap("amend", in, body{"of": stopped, "set": body{"starts": arc[1] + 1}, "why": "slip"})
		}
		d.wait(90 * time.Second)
	}
	if job.drain {
		d.tap("trap.drained", in, body{"rig": rig})
	}
	d.tap("cut.tried", in, body{"rig": rig, "metal": "mild-steel", "thickness": job.cut.plate, "speed": job.cut.speed, "amps": job.cut.amps, "verdict": job.cut.verdict})
	if job.tip > 0 {
		d.tap("part.reading", body{"in": session, "about": d.parts[job.truck+"tip"]}, body{"dmax": demoBores[job.truck] + job.tip, "dmin": demoBores[job.truck] + job.tip*2/3})
	}
	if job.pit > 0 {
		d.tap("part.reading", body{"in": session, "about": d.parts[job.truck+"electrode"]}, body{"pit": job.pit})
	}
	if job.fault != "" {
		d.mend(name, job)
	}
	if job.open {
		return
	}
	watch := d.tap("watch.started", in, body{"ms": time.Hour.Milliseconds()})
	d.wait(time.Hour)
	d.tap("watch.ended", in, body{"of": watch})
	d.tap("session.closed", body{"about": session}, body{})
}

// fit puts a new part into a torch, in place of the one that was there.
func (d *demoCrew) fit(truck, slot string, in body) {
	keys := func(part string) body {
		about := body{"about": part}
		maps.Copy(about, in)
		return about
	}
	old := d.parts[truck+slot]
	if old != "" {
		d.tap("part.pulled", keys(old), body{"why": "worn", "rig": d.id(truck)})
	}
	d.parts[truck+slot] = d.id(truck + slot + old)
	d.tap("part.fitted", keys(d.parts[truck+slot]), body{"slot": slot, "rig": d.id(truck)})
}

// mend writes what was seen, what it was, and the part that went in for it.
func (d *demoCrew) mend(name string, job demoJob) {
	about := body{"in": d.id(name), "about": d.id(name + " fault")}
	d.tap("fault.seen", about, body{"signs": []string{job.fault}, "symptom": job.fault, "rig": d.id(job.truck)})
	d.wait(9 * time.Minute)
	d.tap("fault.found", about, body{"cause": job.cause})
	d.fit(job.truck, job.fit, body{"in": d.id(name)})
}
