package server

import (
	"net/http"

	"github.com/gorilla/mux"

	"kerfside/calc/problem"
)

// routes is the map of the site.
func (s *Server) routes(r *mux.Router) {
	r.Handle("/api/status", s.anyone(s.status)).Methods("GET")
	r.Handle("/api/calc", s.anyone(s.listCalculators)).Methods("GET")
	r.Handle("/api/calc/{name}", s.anyone(s.calculate)).Methods("POST")

	// Crews: anyone, member and owner say who may ask.
	r.Handle("/api/enrol", s.anyone(s.enrol)).Methods("POST")
	r.Handle("/api/devices", s.member(s.listDevices)).Methods("GET")
	r.Handle("/api/devices/{id}", s.member(s.changeDevice)).Methods("PATCH")
	r.Handle("/api/devices/{id}", s.member(s.revokeDevice)).Methods("DELETE")
	r.Handle("/api/invites", s.owner(s.invite)).Methods("POST")
	r.Handle("/api/invites/{id}", s.owner(s.withdrawInvite)).Methods("DELETE")
	r.Handle("/api/journal/sync", s.member(s.syncJournal)).Methods("POST")
	r.Handle("/api/journal/news", s.waiter(s.journalNews)).Methods("GET")
	r.Handle("/api/entries/{id}", s.owner(s.eraseEntry)).Methods("DELETE")
	r.Handle("/api/photos/{sha256}", s.member(s.getPhoto)).Methods("GET", "HEAD")
	r.Handle("/api/photos/{sha256}", s.member(s.putPhoto)).Methods("PUT")

	// The app: one shell for all its screens, files named by content.
	for _, screen := range screens {
		r.Handle(screen.address, s.handle(s.shell(screen.module))).Methods("GET", "HEAD")
	}
	r.Handle("/sw.js", s.handle(s.serviceWorker)).Methods("GET", "HEAD")
	r.Handle("/manifest.webmanifest", s.handle(s.manifest)).Methods("GET", "HEAD")
	r.PathPrefix("/a/").Handler(s.handle(s.asset)).Methods("GET", "HEAD")
	r.PathPrefix("/w/").Handler(s.handle(s.asset)).Methods("GET", "HEAD")

	r.NotFoundHandler = s.handle(nothingHere)
	r.MethodNotAllowedHandler = s.handle(func(w http.ResponseWriter, r *http.Request) error {
		return problem.Newf(problem.NotFound, "", "this address does not take %s", r.Method).
			WithHint("The calculators take POST with a JSON object; pages take GET.")
	})
}

// screen is a screen of the app.
type screen struct {
	address string
	module  string // its page, which may be in a file that comes when it is needed
	isStart bool   // the app is opened there: no phone has to wake its service worker for that
}

// screens are the app's screens; pwa/app.js knows the same.
var screens = []screen{
	{"/", "pages/ready.js", true},
	{"/ready", "pages/ready.js", true},
	{"/cut", "pages/cut.js", true},
	{"/fix", "pages/fix.js", true},
	{"/book", "pages/book.js", true},
	{address: "/gate", module: "pages/gate.js"},
	{address: "/plan", module: "pages/sum.js"},
	{address: "/pace", module: "pages/pace.js"},
	{address: "/sums", module: "pages/sums.js"},
	{address: "/sum/{name}", module: "pages/sum.js"},
	{address: "/guides", module: "pages/guides.js"},
	{address: "/guide/{id}", module: "pages/guide-screen.js"},
	{address: "/worst-day", module: "pages/guide-screen.js"},
	{address: "/session/{id}", module: "pages/session.js"},
	{address: "/photo-gauge", module: "pages/photo-gauge.js"},
	{address: "/rig-card", module: "pages/rig-card.js"},
	{address: "/rigs", module: "pages/rigs.js"},
	{address: "/rig/{id}", module: "pages/thing.js"},
	{address: "/site/{id}", module: "pages/thing.js"},
	{"/settings", "pages/settings.js", true},
	{address: "/join", module: "pages/join.js"},
	{address: "/devices", module: "pages/devices.js"},
	{address: "/glove-test", module: "pages/glove-test.js"},
	{address: "/search", module: "pages/search.js"},
}

func nothingHere(http.ResponseWriter, *http.Request) error {
	return problem.New(problem.NotFound, "", "there is nothing at this address", "Start again at the first page.")
}
