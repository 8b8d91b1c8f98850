package server

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"

	"kerfside/calc/journal/event"
)

// wContext is the context of the simulation, which nothing cancels.
var wContext = context.Background()

// Invented things of the simulation's crew.
var (
	simRigs     = []string{"rig-north", "rig-south"}
	simSessions = []string{"s-gate", "s-hopper", "s-trailer"}
	simLines    = []string{"line-tip", "line-electrode"}
)

// event returns a maker of some event that phone p might write.
func (w *world) event(p *phone) func(id string, t event.Stamp, wall int64) string {
	pick := func(list []string) string { return list[w.rand.IntN(len(list))] }
	in, rig, stock := pick(simSessions), pick(simRigs), pick(simLines)
	target := w.some(p)
	kinds := []string{"session.opened", "session.closed", "arc.started", "arc.stopped", "arc.run", "part.fitted", "part.pulled",
		"part.reading", "stock.moved", "stock.counted", "trap.drained", "note.added", "rig.set", "check.answered", "check.cleared",
		"watch.started", "fault.seen", "amend", "void", "drone.flown"}
	kind := pick(kinds)
	var body map[string]any
	var more []any
	switch kind {
	case "session.opened", "session.closed":
		body, more = map[string]any{"rig": rig, "title": "job of " + p.name}, []any{"about", in}
	case "arc.started", "trap.drained":
		body = map[string]any{"rig": rig}
	case "arc.stopped":
		body = map[string]any{"of": target, "starts": w.rand.IntN(4)}
	case "arc.run":
		body = map[string]any{"rig": rig, "start": w.now - 90_000, "stop": w.now - w.rand.Int64N(90_000), "starts": 2}
	case "part.fitted":
		body, more = map[string]any{"slot": "tip", "rig": rig, "line": stock}, []any{"about", fmt.Sprintf("part-%d", w.rand.IntN(6))}
	case "part.pulled", "part.reading":
		body, more = map[string]any{"why": "worn", "dmin": 1300 + w.rand.IntN(300)}, []any{"about", fmt.Sprintf("part-%d", w.rand.IntN(6))}
	case "stock.moved", "stock.counted":
		body, more = map[string]any{"n": w.rand.IntN(12) - 3}, []any{"about", stock}
	case "rig.set":
		body, more = map[string]any{"name": "as " + p.name + " has it", "amps": w.rand.IntN(60)}, []any{"about", rig, "over", target}
	case "check.answered":
		body = map[string]any{"guide": "bring-up", "step": "clamp", "result": pick([]string{"good", "fail", "worn"})}
	case "check.cleared":
		body = map[string]any{"of": target}
	case "watch.started":
		body = map[string]any{"ms": 1_800_000}
	case "fault.seen":
		body = map[string]any{"symptom": "no arc at all"}
	case "amend":
		body = map[string]any{"of": target, "set": map[string]any{"n": w.rand.IntN(9), "slot": "electrode"}, "why": "slip"}
	case "void":
		body = map[string]any{"of": target, "on": w.rand.IntN(3) > 0}
	default:
		body = map[string]any{"text": fmt.Sprintf("<%d> & \"quotes\" é 火", w.rand.IntN(1000))}
	}
	if w.rand.IntN(10) == 0 {
		more = append(more, "at", w.now-w.rand.Int64N(86_400_000))
	}
	if kind == "drone.flown" {
		more = append(more, "mood", []any{1, map[string]any{"deep": nil}})
	}
	if w.rand.IntN(150) == 0 { // from an app gone wrong: nine levels deep
		body["deep"] = []any{[]any{[]any{[]any{[]any{[]any{[]any{}}}}}}}
	}
	return func(id string, t event.Stamp, wall int64) string {
		return line(id, t, wall, p.device, kind, in, body, more...)
	}
}

// some returns the id of some event on the phone, or one that nobody has.
func (w *world) some(p *phone) string {
	if n := len(p.disk.ids); n > 0 && w.rand.IntN(12) > 0 {
		return p.disk.ids[w.rand.IntN(n)]
	}
	return w.id()
}

// line writes an event as the phone's JavaScript does.
func line(id string, t event.Stamp, wall int64, device, kind, session string, body map[string]any, more ...any) string {
	var b bytes.Buffer
	fmt.Fprintf(&b, `{"id":%q,"t":"%v","wall":[%d,60],"device":%q,"kind":%q,"v":1`, id, t, max(wall, 0), device, kind)
	if session != "" {
		fmt.Fprintf(&b, `,"in":%q`, session)
	}
	for i := 0; i+1 < len(more); i += 2 {
		value, _ := json.Marshal(more[i+1])
		fmt.Fprintf(&b, `,%q:%s`, more[i], value)
	}
	text, _ := json.Marshal(body)
	fmt.Fprintf(&b, `,"body":%s}`, text)
	return b.String()
}
