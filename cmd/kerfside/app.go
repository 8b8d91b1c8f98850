package main

import (
	"context"
	"errors"
	"io/fs"
	"log/slog"
	"net"
	"net/http"
	"os"
	"strings"
	"sync"
	"syscall"
	"time"

	"kerfside/calc/problem"
	"kerfside/guides"
	"kerfside/pwa"
	"kerfside/server"
	"kerfside/server/backup"
	"kerfside/server/metrics"
	"kerfside/server/store"
)

// App is the whole program as a value: what "kerfside serve" runs and what the
// end-to-end tests open and close.
type App struct {
	Addr string       // where to listen: host:port, port 0 takes a free one and keeps it; or unix:PATH
	DB   string       // file of the database
	Dev  bool         // read pwa/ and guides/ from the working folder for each page
	Log  *slog.Logger // slog.Default if nil

	PhotoQuota int64 // bytes of pictures for each crew, kept in DB.photos; 2 GB if 0

	Day server.Budget // what a phone may have stored in a day; the server's own where zero

	Backups   string      // folder for a backup each night; none if ""
	OnFailure failureHook // run when a nightly backup fails; none if nil
	BeginAnew bool        // begin an empty journal even beside the remains of another

	Demo bool // fill an empty database with the invented crew, and take whoever opens it into that

	Watch string // where /metrics and /healthz are, host:port; nowhere if ""

	Reach // how phones reach it; only from this machine if empty

	overlay func(fs.FS) fs.FS // what tests lay over the app's files; nil for none

	store    *store.Store
	door     *door
	listen   net.Listener
	http     *http.Server
	redirect *http.Server // nil if plain HTTP is not sent on
	done     chan error
	failed   chan error   // the store cannot go on
	night    func()       // ends the nightly work
	watch    *http.Server // nil if nobody watches
	figures  *metrics.Set // the same
}

// Open opens the database and starts to serve. A second Open after Close takes
// the same port again.
func (a *App) Open() error {
	if err := a.check(a.Addr); err != nil {
		return err
	}
	var err error
	if a.door, err = a.openDoor(); err != nil {
		return err
	}
	if err := a.openListener(); err != nil {
		return err
	}
	fatal := func(err error) { // the disk failed a commit: say so and start afresh, nothing was acknowledged
		a.logger().Error("the database failed; stopping", "err", err)
		select {
		case a.failed <- err:
		default:
		}
	}
	a.failed = make(chan error, 1)
	if err := a.openServer(fatal); err != nil {
		a.listen.Close()
		return err
	}
	a.done = make(chan error, 1)
	go func() {
		if a.door.tls == nil {
			a.done <- a.http.Serve(a.listen)
			return
		}
		a.http.TLSConfig = a.door.tls
		a.done <- a.http.ServeTLS(a.listen, "", "")
	}()
	a.openNight()
	return nil
}

// openListener starts to listen at Addr.
func (a *App) openListener() (err error) {
	if onSocket(a.Addr) {
		a.listen, err = listenSocket(socketPath(a.Addr), a.SocketMode)
		return err
	}
	if a.listen, err = listenTCP(a.Addr); err != nil {
		return cannotListen(a.Addr, err)
	}
	a.Addr = a.listen.Addr().String()
	return nil
}

// listenTCP listens at an address. The name localhost means this machine (RFC 6761,
// section 6.3), also where no list of names says so: in a bare system or container.
func listenTCP(addr string) (net.Listener, error) {
	l, err := net.Listen("tcp", addr)
	var unknown *net.DNSError
	if host, port, ok := strings.Cut(addr, ":"); ok && host == "localhost" && errors.As(err, &unknown) {
		return net.Listen("tcp", "127.0.0.1:"+port)
	}
	return l, err
}

// cannotListen says why nothing can be served at an address.
func cannotListen(addr string, err error) error {
	var (
		dns *net.DNSError
		bad *net.AddrError
		p   *problem.Error
	)
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		p = problem.Newf(problem.Busy, "addr", "another program listens on %s, perhaps a kerfside that runs already", addr).
			WithHint("Stop that one, or take another port, like -addr localhost:8481.")
	case errors.Is(err, fs.ErrPermission):
		p = problem.Newf(problem.Refused, "addr", "this user may not listen on %s", addr).
			WithHint("Ports below 1024 need the right to them. Give it, or take a higher port with -addr.")
	case errors.As(err, &dns), errors.Is(err, syscall.EADDRNOTAVAIL): // perhaps not yet, at a boot: a service tries again
		p = problem.Newf(problem.NotFound, "addr", "%s is no address of this machine, or its network is not up yet", addr).
			WithHint("Write something like -addr localhost:8480, or start again once the network is there.")
	case errors.As(err, &bad):
		p = problem.Newf(problem.Malformed, "addr", "%s is no address of this machine with a port from 0 to 65535", addr).
			WithHint("Write something like -addr localhost:8480.")
	default:
		p = problem.Newf(problem.Busy, "addr", "cannot listen on %s", addr).WithHint("Take another address or port with -addr.")
	}
	return p.WithCause(err)
}

// openServer opens the database and prepares all that answers.
func (a *App) openServer(fatal func(error)) (err error) {
	var appFiles, guideFiles fs.FS = pwa.Files, guides.Files
	if a.Dev {
		appFiles, guideFiles = os.DirFS("pwa"), os.DirFS("guides")
	}
	if a.overlay != nil {
		appFiles = a.overlay(appFiles)
	}
	a.figures = nil
	if a.Watch != "" {
		a.figures = &metrics.Set{}
	}
	if a.store, err = store.Open(a.DB, store.Options{OnFatal: fatal, OnDamage: a.damaged, Backups: a.Backups, BeginAnew: a.BeginAnew}); err != nil {
		return err
	}
	defer func() {
		if err != nil {
			a.closeWatch()
			a.store.Close()
		}
	}()
	a.keepPrivate()
	if state, _ := a.store.State(a.store.Crew()); a.Demo && state.Max == 0 {
		if _, err := fillDemo(a.store, a.photos(), time.Now()); err != nil {
			return err
		}
	}
	if err := a.store.Serve(a.URL()); err != nil {
		return err
	}
	handler, err := server.New(server.Options{
		Store: a.store, App: appFiles, Guides: guideFiles, Dev: a.Dev, Log: a.Log, Version: thisBuild().Short(),
		Photos: a.photos(), PhotoQuota: a.PhotoQuota, Day: a.Day, Metrics: a.figures,
		Hosts: a.door.hosts, Proxies: a.proxies(), HSTS: a.hsts(), Demo: a.Demo,
	})
	if err != nil {
		return err
	}
	a.http = serverWith(handler, a.logger())
	a.http.RegisterOnShutdown(handler.EndWaits)
	if err := a.openWatch(handler); err != nil {
		return err
	}
	return a.openRedirect(a.door)
}

// keepPrivate mends the rights of backups that an earlier version or a copy left
// open to others, and says what cannot be mended, and what was left of a database
// that was lost.
func (a *App) keepPrivate() {
	if a.Backups != "" {
		if err := backup.Tighten(a.DB, a.Backups); err != nil {
			a.logger().Error("the backups cannot be listed", "err", err)
		}
	}
	if held := store.Held(a.DB); len(held) > 0 {
		a.logger().Warn("an earlier run lost its database; what it held lies here, and may not be in this one: bring it back with kerfside restore, or delete it if it is back", "files", held)
	}
	if loose := store.Loose(a.DB, a.Backups); len(loose) > 0 {
		a.logger().Warn("other users of this machine can read what lies here; move it to a disk that keeps rights, or see to them by hand", "files", loose)
	}
}

// damaged says that the database is. Phones are told with each try.
func (a *App) damaged(err error) {
	a.logger().Error("the database is damaged: it is only read from now on; stop the server and bring a backup back with kerfside restore", "db", a.DB, "err", err)
}

// openNight starts the check that is due after an unclean stop, and the work of
// each minute and night. Nobody waits for either.
func (a *App) openNight() {
	ctx, cancel := context.WithCancel(context.Background())
	var work sync.WaitGroup
	a.night = func() { cancel(); work.Wait() }
	n := &nightly{store: a.store, db: a.DB, dir: a.Backups, log: a.logger(), hook: a.OnFailure}
	if a.figures != nil {
		n.count(a.figures)
	}
	if a.store.Unclean() {
		a.logger().Info("the last stop was not clean; the database is being checked")
		work.Go(func() { n.check(ctx) })
	}
	work.Go(func() { n.run(ctx) })
}

// serverWith returns an HTTP server whose every wait ends.
func serverWith(handler http.Handler, log *slog.Logger) *http.Server {
	return &http.Server{
		Handler:           handler,
		ReadHeaderTimeout: 10 * time.Second,
		ReadTimeout:       time.Minute, // 1 MiB over a very poor line
		WriteTimeout:      2 * time.Minute,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
}

// photos returns the folder for pictures; a database in memory has none beside it.
func (a *App) photos() string {
	if strings.HasPrefix(a.DB, "file:") {
		return ""
	}
	return photoFolder(a.DB)
}

// photoFolder is where the pictures of a database lie.
func photoFolder(db string) string { return db + ".photos" }

func (a *App) logger() *slog.Logger {
	if a.Log == nil {
		return slog.Default()
	}
	return a.Log
}

// Close stops serving, lets running requests end and closes the database. An app
// that is not open is left as it is.
func (a *App) Close() error {
	if a.done == nil {
		return nil
	}
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	a.closeWatch()
	if a.redirect != nil {
		a.redirect.Close() // it holds nothing that could be lost
	}
	err := a.http.Shutdown(ctx)
	if err != nil {
		err = a.http.Close()
	}
	if served := <-a.done; !errors.Is(served, http.ErrServerClosed) {
		err = errors.Join(err, served)
	}
	a.done = nil
	a.night()
	return errors.Join(err, a.store.Close())
}

// URL is where the app is to be opened: by the first of its names, or as
// localhost, the one plain-HTTP name that browsers trust with a service worker.
func (a *App) URL() string {
	_, port, err := net.SplitHostPort(a.Addr)
	switch {
	case a.Proxy && len(a.door.hosts) > 0:
		return "https://" + server.JoinPort(a.door.hosts[0], "443")
	case err != nil:
		return "http://" + a.Addr
	case len(a.door.hosts) == 0:
		return "http://localhost:" + port
	case a.Plain:
		return "http://" + net.JoinHostPort(a.door.hosts[0], port)
	}
	return "https://" + server.JoinPort(a.door.hosts[0], port)
}
