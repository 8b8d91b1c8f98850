package main

import (
	"net"
	"time"

	"kerfside/calc/problem"
	"kerfside/server"
)

// begun is when the program started.
var begun = time.Now()

// openWatch starts to tell those who watch the server how it does, if that is
// asked for, at an address of its own: what phones and proxies reach has none of it.
func (a *App) openWatch(s *server.Server) error {
	if a.Watch == "" {
		return nil
	}
	local, err := isLoopback(a.Watch)
	if err != nil || onSocket(a.Watch) {
		return problem.Newf(problem.Malformed, "metrics", "%q is not host:port", a.Watch).WithHint("Write something like -metrics localhost:9480.")
	}
	l, err := net.Listen("tcp", a.Watch)
	if err != nil {
		return problem.Newf(problem.Busy, "metrics", "cannot listen on %s for /metrics and /healthz", a.Watch).
			WithHint("Another program may listen there. Take another port, like -metrics localhost:9481.").WithCause(err)
	}
	a.Watch = l.Addr().String()
	a.figures.AddRuntime(begun)
	a.watch = serverWith(s.Watch(a.figures, local), a.logger())
	go a.watch.Serve(l)
	return nil
}

// closeWatch ends it.
func (a *App) closeWatch() {
	if a.watch != nil {
		a.watch.Close() // it holds nothing that could be lost
		a.watch = nil
	}
}
