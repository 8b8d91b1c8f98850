package server

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"github.com/gorilla/mux"

	"kerfside/calc/problem"
	"kerfside/server/assets"
	"kerfside/server/store"
)

// row is what an endpoint answers to a phone without token, to one that was
// revoked, to an owner of another crew, to a member and to an owner of the crew
// that the request is about.
type row struct {
	path, body string // $CREW, $TARGET, $INVITE and $PHOTO stand for what the crew has
	want       [5]int
}

var asking = [5]string{"no token", "revoked", "another crew", "member", "owner"}

var (
	open   = [5]int{200, 200, 200, 200, 200}
	none   = [5]int{404, 404, 404, 404, 404}
	public = func(path string) row { return row{path: path, want: open} }
)

// access is the whole table of who may do what, by the routes' templates.
var access = map[string]row{
	"GET /api/status":                  public("/api/status"),
	"GET /api/calc":                    public("/api/calc"),
	"GET /api/calc/openapi.json":       public("/api/calc/openapi.json"),
	"POST /api/calc/{name}":            {path: "/api/calc/no-such-sum", body: "{}", want: [5]int{422, 422, 422, 422, 422}},
	"POST /api/enrol":                  {path: "/api/enrol", body: `{"code":"00000-00000","name":"a"}`, want: none},
	"GET /api/devices":                 {path: "/api/devices", want: [5]int{401, 403, 200, 200, 200}},
	"PATCH /api/devices/{id}":          {path: "/api/devices/target", body: `{"name":"b"}`, want: [5]int{401, 403, 404, 403, 200}},
	"DELETE /api/devices/{id}":         {path: "/api/devices/target", want: [5]int{401, 403, 404, 403, 204}},
	"GET /api/devices/{id}/entries":    {path: "/api/devices/target/entries", want: [5]int{401, 403, 404, 403, 200}},
	"DELETE /api/devices/{id}/entries": {path: "/api/devices/target/entries", want: [5]int{401, 403, 404, 403, 200}},
	"POST /api/invites":                {path: "/api/invites", body: `{"role":"owner"}`, want: [5]int{401, 403, 201, 403, 201}},
	"DELETE /api/invites/{id}":         {path: "/api/invites/$INVITE", want: [5]int{401, 403, 204, 403, 204}},
	"POST /api/journal/sync":           {path: "/api/journal/sync", body: syncOf("$CREW"), want: [5]int{401, 403, 403, 200, 200}},
	"GET /api/journal/news":            {path: "/api/journal/news?after=0", want: [5]int{401, 403, 204, 200, 200}},
	"DELETE /api/entries/{id}":         {path: "/api/entries/" + castEntry, want: [5]int{401, 403, 404, 403, 200}},
	"GET /api/photos/{sha256}":         {path: "/api/photos/$PHOTO", want: [5]int{401, 403, 404, 200, 200}},
	"HEAD /api/photos/{sha256}":        {path: "/api/photos/$PHOTO", want: [5]int{401, 403, 404, 200, 200}},
	"PUT /api/photos/{sha256}":         {path: "/api/photos/$PHOTO", body: "$BYTES", want: [5]int{401, 403, 204, 204, 204}},
	"POST /share":                      {path: "/share", want: [5]int{303, 303, 303, 303, 303}},
	"GET /help":                        public("/help"),
	"HEAD /help":                       public("/help"),
	"GET /help/":                       public("/help/index"),
	"HEAD /help/":                      public("/help/index"),
	"GET /sw.js":                       public("/sw.js"),
	"HEAD /sw.js":                      public("/sw.js"),
	"GET /manifest.webmanifest":        public("/manifest.webmanifest"),
	"HEAD /manifest.webmanifest":       public("/manifest.webmanifest"),
	"GET /a/":                          {path: "/a/no-such-build/app.js", want: none},
	"HEAD /a/":                         {path: "/a/no-such-build/app.js", want: none},
	"GET /w/":                          {path: "/w/no-such-build/calc.wasm", want: none},
	"HEAD /w/":                         {path: "/w/no-such-build/calc.wasm", want: none},
}

// endpoints lists all routes as "METHOD template". The app's screens are one
// shell, the same for everyone, and get their rows here.
func endpoints(t *testing.T) []string {
	t.Helper()
	r := mux.NewRouter()
	(&Server{}).routes(r)
	var list []string
	err := r.Walk(func(route *mux.Route, _ *mux.Router, _ []*mux.Route) error {
		template, err := route.GetPathTemplate()
		if err != nil {
			return err
		}
		methods, err := route.GetMethods()
		for _, m := range methods {
			list = append(list, m+" "+template)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// rowOf returns what is expected of an endpoint.
func rowOf(endpoint string) (row, bool) {
	method, template, _ := strings.Cut(endpoint, " ")
	if slices.ContainsFunc(screens, func(s assets.Screen) bool { return s.Address == template }) && (method == "GET" || method == "HEAD") {
		return public(strings.NewReplacer("{", "", "}", "").Replace(template)), true
	}
	r, ok := access[endpoint]
	return r, ok
}

// TestAccessMatrix asks for every endpoint as everyone. A route without a row
// fails, and so does a row without a route.
func TestAccessMatrix(t *testing.T) {
	list := endpoints(t)
	for endpoint := range access {
		if !slices.Contains(list, endpoint) {
			t.Errorf("%s is in the table and in no route", endpoint)
		}
	}
	p := newCast(t)
	for _, endpoint := range list {
		r, ok := rowOf(endpoint)
		if !ok {
			t.Errorf("%s has no row: say in the table who may ask", endpoint)
			continue
		}
		if strings.Contains(endpoint, "DELETE") { // it leaves things other than it found them
			p = newCast(t)
		}
		for i, who := range p.askers {
			out := p.ask(who, endpoint, r)
			if out.Code != r.want[i] {
				t.Errorf("%s as %s = %d %.200s, want %d", endpoint, asking[i], out.Code, out.Body, r.want[i])
			}
			if want := map[int]problem.Kind{0: problem.NoToken, 1: problem.Revoked}[i]; out.Code >= 401 && out.Code <= 403 && want != "" && !strings.HasPrefix(endpoint, "HEAD") && kind(out) != want {
				t.Errorf("%s as %s is %s, want %s", endpoint, asking[i], kind(out), want)
			}
		}
		p.intact(endpoint)
	}
}

// TestEveryChangeNeedsTheHeader, and an origin that is ours; the name of the
// host has to be ours for anything at all. Even an owner gets nowhere without.
func TestEveryChangeNeedsTheHeader(t *testing.T) {
	p := newCast(t)
	owner := p.askers[4]
	for _, endpoint := range endpoints(t) {
		r, _ := rowOf(endpoint)
		method, _, _ := strings.Cut(endpoint, " ")
		spoilt := map[string]func(*http.Request){
			"forged host":      func(r *http.Request) { r.Host = "evil.example" },
			"host of a suffix": func(r *http.Request) { r.Host = "localhost.evil.example:8480" },
		}
		if method != "GET" && method != "HEAD" && endpoint != "POST "+sharePath { // which changes nothing, and comes from other apps
			spoilt["cross-site"] = func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") }
			spoilt["same-site"] = func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "same-site") }
			spoilt["foreign origin"] = func(r *http.Request) {
				r.Header.Del("Sec-Fetch-Site")
				r.Header.Set("Origin", "http://localhost:9999")
			}
			if !strings.HasPrefix(endpoint, "POST /api/calc") { // changes nothing
				spoilt["no header"] = func(r *http.Request) { r.Header.Del("X-Kerfside") }
				spoilt["another value"] = func(r *http.Request) { r.Header.Set("X-Kerfside", "true") }
			}
		}
		for name, spoil := range spoilt {
			if out := p.ask(owner, endpoint, r, spoil); out.Code != 403 || method != "HEAD" && kind(out) != problem.Forbidden {
				t.Errorf("%s with %s = %d %.100s, want 403 forbidden", endpoint, name, out.Code, out.Body)
			}
		}
	}
	p.intact("the whole list")
}

// cast is a shop with everyone who asks in the matrix.
type cast struct {
	*shop
	askers         [5]client
	invite, target string
	photo          []byte
}

// castEntry is the id of an entry in the crew's journal.
const castEntry = "note000000000000000001"

func newCast(t *testing.T) *cast {
	t.Helper()
	p := &cast{shop: newShop(t), photo: asJPEG(t, gray(8, 8, 3))}
	owner := p.join(crewID, store.Owner, "owner")
	revoked := p.join(crewID, store.Owner, "revoked")
	if err := p.server.store.Revoke(crewID, "revoked", "owner", start); err != nil {
		t.Fatal(err)
	}
	p.askers = [5]client{{shop: p.shop}, revoked, p.join(p.other, store.Owner, "stranger"), p.join(crewID, store.Member, "member"), owner}
	p.target = p.join(crewID, store.Member, "target").id
	v, err := p.server.store.Invite(crewID, store.Member, "owner", start)
	if err != nil {
		t.Fatal(err)
	}
	p.invite = v.ID
	if out := owner.send("POST", "/api/journal/sync", syncOf(crewID, note(1))); out.Code != 200 {
		t.Fatal(out.Body)
	}
	if out := owner.send("PUT", photoPath(p.photo), string(p.photo)); out.Code != 204 {
		t.Fatal(out.Body)
	}
	return p
}

// ask sends the request of a row.
func (p *cast) ask(who client, endpoint string, r row, change ...func(*http.Request)) *httptest.ResponseRecorder {
	fill := strings.NewReplacer("$CREW", crewID, "$INVITE", p.invite, "$PHOTO", store.PictureName(p.photo), "$BYTES", string(p.photo))
	method, _, _ := strings.Cut(endpoint, " ")
	return who.send(method, fill.Replace(r.path), fill.Replace(r.body), change...)
}

// intact fails if the crew's target was touched by anyone but its owner.
func (p *cast) intact(after string) {
	p.t.Helper()
	lines, err := p.server.store.AuditLines(p.t.Context(), crewID, 1000)
	if err != nil {
		p.t.Fatal(err)
	}
	for _, l := range lines {
		if who := l.Who; who != "" && who != "owner" && (l.What != store.Enrolled || who != l.About) {
			p.t.Errorf("after %s the audit of the crew says %s", after, fmt.Sprint(l))
		}
	}
}
