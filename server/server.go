// Package server is Kerfside over HTTP: the phone app's files, the guides, the
// calculators and the journal's sync. It interprets nothing of what it merely
// carries. All addresses are listed in routes.go.
package server

import (
	"io/fs"
	"log/slog"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/gorilla/mux"

	"kerfside/server/assets"
	"kerfside/server/metrics"
	"kerfside/server/store"
)

// Options are what a Server is made of.
type Options struct {
	Store   *store.Store     // the journal's store; open
	App     fs.FS            // the files of package pwa
	Guides  fs.FS            // the Markdown of package guides
	Dev     bool             // read App and Guides afresh for every page
	Hosts   []string         // names it may be called by, without port; loopback names are always allowed
	Now     func() time.Time // the wall clock; time.Now if nil
	Log     *slog.Logger     // slog.Default if nil
	Version string           // of the program, for /api/status
	Proxies Proxies          // whose X-Forwarded-… is believed; no proxy stands in front if nil
	HSTS    bool             // tell browsers never to call its Hosts without https again
	Demo    bool             // all is invented: say so, and take whoever opens it into the crew

	Metrics *metrics.Set // what the server counts goes into it; nil to count nothing

	Day Budget // what a phone may have stored in a day; dayBudget where zero

	Photos     string // folder for pictures; they are not kept if ""
	PhotoQuota int64  // bytes of pictures for each crew; 2 GB if 0
}

// Server answers requests. Make one with New.
type Server struct {
	store    *store.Store
	now      func() time.Time
	log      *slog.Logger
	hosts    map[string]bool
	app      *assets.App
	photos   *photoFiles // nil if none are kept
	version  string
	demo     bool
	limits   *limits
	joins    joins
	budgets  budgets
	early    store.EarlyLimits
	page     int           // arrivals in a reply; exchange.MaxPage if 0
	erasures int           // lines of the list of erasures that a reply goes through; maxErasures if 0
	flushed  atomic.Int64  // when "last seen" was last written, ms
	holdFor  time.Duration // how long a phone that waits for news is kept waiting
	ending   chan struct{} // closed when nobody is kept waiting any more
	ended    sync.Once
	handler  http.Handler
	figures  figures
}

// New prepares the app's files and returns a Server. It fails if the app or a
// guide is not fit to be served, and says which file and line.
func New(o Options) (*Server, error) {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Log == nil {
		o.Log = slog.Default()
	}
	s := &Server{store: o.Store, now: o.Now, log: o.Log, version: o.Version, demo: o.Demo, hosts: loopback(), limits: newLimits(o.Now), budgets: budgets{day: o.Day},
		holdFor: holdFor, ending: make(chan struct{})}
	for _, h := range o.Hosts {
		s.hosts[strings.ToLower(h)] = true
	}
	if o.PhotoQuota == 0 {
		o.PhotoQuota = 2e9
	}
	if o.Photos != "" {
		s.photos = newPhotoFiles(o.Photos, o.PhotoQuota)
	}
	notice := ""
	if o.Demo {
		notice = Invented
	}
	var err error
	if s.app, err = assets.New(assets.Options{Files: o.App, Guides: o.Guides, Screens: screens, Dev: o.Dev, Notice: notice}); err != nil {
		return nil, err
	}
	s.newFigures(o.Metrics)
	s.handler = s.guarded()
	if o.HSTS {
		s.handler = onlyHTTPS(s.handler)
	}
	if o.Proxies != nil {
		s.handler = s.behindProxy(o.Proxies, s.handler) // first, so that all others see the phone
	} else {
		s.handler = s.withoutProxy(s.handler)
	}
	s.handler = s.figures.counted(s.handler)
	return s, nil
}

// guarded is the routes behind all that a request has to pass first.
func (s *Server) guarded() http.Handler {
	r := mux.NewRouter()
	r.Use(noteRoute)
	s.routes(r)
	return s.checkHost(secure(s.checkTarget(s.sameOrigin(r))))
}

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }
