package server

import (
	"net/http"
	"strings"

	"github.com/gorilla/mux"

	"kerfside/calc/problem"
	"kerfside/server/assets"
	"kerfside/server/help"
)

// routes is the map of the site.
func (s *Server) routes(r *mux.Router) {
	screenPage := s.screenPage
	if s.demo {
		screenPage = s.pageOfVisitor
	}
	r.Handle("/api/status", s.anyone(s.status)).Methods("GET")
	r.Handle("/api/calc", s.anyone(s.listCalculators)).Methods("GET")
	r.Handle("/api/calc/openapi.json", s.anyone(s.describeCalc)).Methods("GET")
	r.Handle("/api/calc/{name}", s.anyone(s.calculate)).Methods("POST")

	// Crews: anyone, member and owner say who may ask.
	r.Handle("/api/enrol", s.anyone(s.enrol)).Methods("POST")
	r.Handle("/api/devices", s.member(s.listDevices)).Methods("GET")
	r.Handle("/api/devices/{id}", s.member(s.changeDevice)).Methods("PATCH")
	r.Handle("/api/devices/{id}", s.member(s.revokeDevice)).Methods("DELETE")
	r.Handle("/api/devices/{id}/entries", s.owner(s.countWritten)).Methods("GET")
	r.Handle("/api/devices/{id}/entries", s.owner(s.forgetDevice)).Methods("DELETE")
	r.Handle("/api/invites", s.owner(s.invite)).Methods("POST")
	r.Handle("/api/invites/{id}", s.owner(s.withdrawInvite)).Methods("DELETE")
	r.Handle("/api/journal/sync", s.member(s.syncJournal)).Methods("POST")
	r.Handle("/api/journal/news", s.waiter(s.journalNews)).Methods("GET")
	r.Handle("/api/entries/{id}", s.owner(s.eraseEntry)).Methods("DELETE")
	r.Handle("/api/photos/{sha256}", s.member(s.getPhoto)).Methods("GET", "HEAD")
	r.Handle("/api/photos/{sha256}", s.member(s.putPhoto)).Methods("PUT")

	// The app: one shell for all its screens, files named by content.
	for _, screen := range screens {
		r.Handle(screen.Address, s.handle(screenPage(screen.Module))).Methods("GET", "HEAD")
	}
	r.Handle(sharePath, s.anyone(s.notShared)).Methods("POST")
	r.Handle("/sw.js", s.handle(s.app.ServiceWorker)).Methods("GET", "HEAD")
	r.Handle("/manifest.webmanifest", s.handle(s.app.Manifest)).Methods("GET", "HEAD")
	r.PathPrefix("/a/").Handler(s.handle(s.app.File)).Methods("GET", "HEAD")
	r.PathPrefix("/w/").Handler(s.handle(s.app.File)).Methods("GET", "HEAD")

	// The pages for whoever runs the server, which are no part of the app.
	pages := help.Handler(s.handle(nothingHere))
	r.Handle("/help", pages).Methods("GET", "HEAD")
	r.PathPrefix("/help/").Handler(pages).Methods("GET", "HEAD")

	r.NotFoundHandler = s.handle(s.unknownAddress)
	r.MethodNotAllowedHandler = s.handle(func(w http.ResponseWriter, r *http.Request) error {
		return problem.Newf(problem.NotFound, "", "this address does not take %s", r.Method).
			WithHint("The calculators take POST with a JSON object; pages take GET.")
	})
}

// screens are the app's screens; pwa/app.js knows the same.
var screens = []assets.Screen{
	{Address: "/", Module: "pages/ready.js", IsStart: true},
	{Address: "/ready", Module: "pages/ready.js", IsStart: true},
	{Address: "/cut", Module: "pages/cut.js", IsStart: true},
	{Address: "/fix", Module: "pages/fix.js", IsStart: true},
	{Address: "/book", Module: "pages/book.js", IsStart: true},
	{Address: "/gate", Module: "pages/gate.js"},
	{Address: "/plan", Module: "pages/sum.js"},
	{Address: "/pace", Module: "pages/pace.js"},
	{Address: "/sums", Module: "pages/sums.js"},
	{Address: "/sum/{name}", Module: "pages/sum.js"},
	{Address: "/guides", Module: "pages/guides.js"},
	{Address: "/guide/{id}", Module: "pages/guide.js"},
	{Address: "/worst-day", Module: "pages/guide.js"},
	{Address: "/session/{id}", Module: "pages/session.js"},
	{Address: "/photo-gauge", Module: "pages/photo-gauge.js"},
	{Address: "/rig-card", Module: "pages/rig-card.js"},
	{Address: "/jobs", Module: "pages/report.js"},
	{Address: "/job/{id}", Module: "pages/job.js"},
	{Address: "/book/{report}", Module: "pages/report.js"},
	{Address: "/book/{report}/{id}", Module: "pages/report.js"},
	{Address: "/rigs", Module: "pages/rigs.js"},
	{Address: "/rig/{id}", Module: "pages/equipment.js"},
	{Address: "/site/{id}", Module: "pages/equipment.js"},
	{Address: "/settings", Module: "pages/settings.js", IsStart: true},
	{Address: sharePath, Module: "pages/share.js"},
	{Address: "/join", Module: "pages/join.js"},
	{Address: "/devices", Module: "pages/devices.js"},
	{Address: "/glove-test", Module: "pages/glove-test.js"},
	{Address: "/search", Module: "pages/search.js"},
}

func nothingHere(http.ResponseWriter, *http.Request) error {
	return problem.New(problem.NotFound, "", "there is nothing at this address", "Start again at the first page.")
}

// unknownAddress lets the app say to a person who follows a link that nothing is there; all else gets the error.
func (s *Server) unknownAddress(w http.ResponseWriter, r *http.Request) error {
	isPage := strings.Contains(r.Header.Get("Accept"), "text/html") && (r.Method == "GET" || r.Method == "HEAD")
	if !isPage || strings.HasPrefix(r.URL.Path, "/api/") {
		return nothingHere(w, r)
	}
	return s.screenPage(screens[0].Module)(missing{w}, r)
}

// missing turns what is found into the answer that there is nothing.
type missing struct{ http.ResponseWriter }

func (m missing) WriteHeader(status int) {
	if status == http.StatusOK {
		status = http.StatusNotFound
	}
	m.ResponseWriter.WriteHeader(status)
}
