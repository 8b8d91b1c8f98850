package server

import (
	"cmp"
	"net/http"

	"kerfside/calc/journal/exchange"
)

// fault picks what goes wrong with an exchange.
func (w *world) fault() string {
	faults := []string{"", "", "", "", "", "request lost", "reply lost", "reply cut", "sent twice", "sent once more later", "reply late",
		"timeout", "sign-in page", "killed before sending", "killed before the reply", "request cut", "proxy down"}
	return faults[w.rand.IntN(len(faults))]
}

// sync makes one exchange of a tab with the server, and lets a fault happen to it.
func (w *world) sync(p *phone, tab int, fault string) error {
	b, err := p.tab(tab)
	if err != nil {
		return err
	}
	if p.crew == "" {
		return nil // nobody to sync with
	}
	f := p.read(b, w.now)
	if f.body == "" { // two servers under one name, it thinks; a person starts it again
		p.disk.meta.Stopped, p.disk.meta.Rewinds = nil, nil
		p.disk.meta.Revision++
		w.tell("%s is started again by a person", p.name)
		return nil
	}
	h := w.hosts[w.rand.IntN(len(w.hosts))]
	if p.crew == otherID {
		h = w.other
	}
	w.tell("%s sends %d at %d of generation %d: %s", p.name, len(f.x.Sent), f.x.Meta.Cursor, f.x.Meta.Gen, cmp.Or(fault, "all well"))
	if p.bug.is("acknowledged before answer") {
		for _, id := range f.x.Sent {
			r := p.disk.records[id]
			r.N, r.Unsent = max(1, p.disk.meta.Cursor), 0
			p.disk.put(r)
		}
	}
	answer := func(status int, reply string) error {
		f.x.Status, f.x.Reply, f.x.GotAt = status, reply, w.now+p.skew
		return w.take(p, b, f)
	}
	body := f.body
	switch fault {
	case "killed before sending":
		p.restart()
		return nil
	case "request lost":
		return answer(0, "")
	case "sign-in page":
		return answer(200, "<html>Sign in to the yard's network</html>\n")
	case "proxy down":
		return answer(503, "upstream is down\n")
	case "request cut":
		body = body[:w.rand.IntN(len(body))]
	case "sent once more later":
		w.strays = append(w.strays, stray{h, body})
	}
	status, reply := w.post(h, body)
	if status == http.StatusConflict && w.bug.is("rewound ignored") {
		status, reply = 200, w.ignoreRewound(h, body)
	}
	w.now += w.rand.Int64N(5000)
	switch fault {
	case "sent twice":
		status, reply = w.post(h, body)
	case "killed before the reply":
		p.restart()
		return nil
	case "reply lost":
		return answer(0, "")
	case "timeout":
		f.x.Timeout = true
		return answer(0, "")
	case "reply cut":
		reply = reply[:w.rand.IntN(len(reply)+1)]
	case "reply late":
		f.x.Status, f.x.Reply, f.x.GotAt = status, reply, w.now+p.skew
		b.held = append(b.held, f)
		return nil
	}
	return answer(status, reply)
}

// take applies a reply.
func (w *world) take(p *phone, b *tab, f *flight) error {
	c := exchange.Apply(f.x)
	if w.bug.is("cursor saved before events") && len(c.Put) > 0 && w.rand.IntN(4) == 0 {
		p.disk.meta = c.Meta // and the app is killed before the events are written
		p.restart()
		return nil
	}
	w.tell("        status %d: %d came, %d went, %d taken back, %d put aside; %s is at %d of %d, early %q, %d to come%s",
		f.x.Status, c.In, c.Out, len(c.Unsend), len(c.Rejected), p.name, c.Meta.Cursor, c.Meta.Max, c.Meta.Early, c.Meta.EarlyEnd, map[bool]string{true: ", rewinding"}[c.Meta.Rewinding])
	p.apply(b, f.x, c)
	return nil
}

// land applies a reply that was held back while others came.
func (w *world) land(p *phone) error {
	for _, b := range p.tabs {
		if len(b.held) == 0 {
			continue
		}
		f := b.held[0]
		b.held = b.held[1:]
		w.tell("%s takes in a reply that was late", p.name)
		return w.take(p, b, f)
	}
	return nil
}

// deliverStray delivers a request that was delivered before, perhaps to a server
// that was restored meanwhile. Nobody hears the answer.
func (w *world) deliverStray() error {
	if len(w.strays) == 0 {
		return nil
	}
	s := w.strays[0]
	w.strays = w.strays[1:]
	h := w.hosts[0]
	if s.host.crew == otherID {
		h = w.other
	}
	status, _ := w.post(h, s.body)
	w.tell("an old request comes once more: status %d", status)
	return nil
}
