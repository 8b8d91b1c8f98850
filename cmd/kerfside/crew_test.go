package main

import (
	"bytes"
	"log/slog"
	"net/http"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

// crewSays runs "kerfside crew" and returns what it prints.
func crewSays(t *testing.T, app *App, words ...string) (string, error) {
	t.Helper()
	var out bytes.Buffer
	err := program.Run(append([]string{"crew"}, append(words, "-db", app.DB)...), &out)
	return out.String(), err
}

// enrolAt joins with a secret and returns the cookie.
func enrolAt(t *testing.T, app *App, link string) *http.Cookie {
	t.Helper()
	_, secret, _ := strings.Cut(link, "#")
	r, err := http.NewRequest("POST", app.URL()+"/api/enrol", strings.NewReader(`{"secret":"`+secret+`","name":"Truck 1","device":"phone-a"}`))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("X-Kerfside", "1")
	reply, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer reply.Body.Close()
	if reply.StatusCode != 201 || len(reply.Cookies()) != 1 {
		t.Fatalf("enrol: %s, cookies %v", reply.Status, reply.Cookies())
	}
	return reply.Cookies()[0]
}

// devicesStatus asks for the list of phones.
func devicesStatus(t *testing.T, app *App, cookie *http.Cookie) int {
	t.Helper()
	r, err := http.NewRequest("GET", app.URL()+"/api/devices", nil)
	if err != nil {
		t.Fatal(err)
	}
	r.AddCookie(cookie)
	reply, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	reply.Body.Close()
	return reply.StatusCode
}

// TestCrewBesideTheServer: the command makes an owner's code, lists and revokes
// while the server runs, which knows at once.
func TestCrewBesideTheServer(t *testing.T) {
	app := openApp(t, t.TempDir())
	defer app.Close()
	if devices, err := app.store.Devices(t.Context(), app.store.Crew()); err != nil || len(devices) != 0 {
		t.Fatalf("a new crew has %v, %v", devices, err)
	}
	said, err := crewSays(t, app, "owner")
	link := regexp.MustCompile(`http://localhost:\d+/join#[\w-]{22}`).FindString(said)
	if err != nil || !strings.HasPrefix(link, app.URL()) || !regexp.MustCompile(`code [0-9A-Z]{5}-[0-9A-Z]{5} at`).MatchString(said) {
		t.Fatalf("crew owner says %q, %v", said, err)
	}
	cookie := enrolAt(t, app, link)
	if got := devicesStatus(t, app, cookie); got != 200 {
		t.Errorf("after joining: status %d", got)
	}
	if said, err = crewSays(t, app, "devices"); err != nil || !regexp.MustCompile(`phone-a +Truck 1 +owner`).MatchString(said) {
		t.Errorf("crew devices says %q, %v", said, err)
	}
	if said, err = crewSays(t, app, "revoke", "phone-a"); err != nil || !strings.Contains(said, "has no owner now") {
		t.Errorf("crew revoke says %q, %v", said, err)
	}
	if got := devicesStatus(t, app, cookie); got != 403 {
		t.Errorf("after the revocation: status %d, want 403", got)
	}
	if said, err = crewSays(t, app, "audit"); err != nil || strings.Count(said, "command line") != 2 || !strings.Contains(said, "enrolled") {
		t.Errorf("crew audit says %q, %v", said, err)
	}
}

func TestCrewNewAndRename(t *testing.T) {
	app := openApp(t, t.TempDir())
	defer app.Close()
	if _, err := crewSays(t, app, "rename", "Osier", "Ford", "Repair"); err != nil {
		t.Fatal(err)
	}
	said, err := crewSays(t, app, "new", "Weir Lane")
	if err != nil {
		t.Fatal(err)
	}
	enrolAt(t, app, regexp.MustCompile(`http\S+`).FindString(said))
	if said, err = crewSays(t, app, "list"); err != nil || !regexp.MustCompile(`Osier Ford Repair +0 +0 +here\n\S+ +Weir Lane +1 +1 +here`).MatchString(said) {
		t.Errorf("crew list says %q, %v", said, err)
	}
	if _, err = crewSays(t, app, "devices"); problem.KindOf(err) != problem.Missing {
		t.Errorf("devices of which crew? %v, want missing", err)
	}
	if said, err = crewSays(t, app, "devices", "-crew", "Weir Lane"); err != nil || !strings.Contains(said, "phone-a") {
		t.Errorf("its devices: %q, %v", said, err)
	}
}

func TestCrewRefuses(t *testing.T) {
	app := &App{DB: filepath.Join(t.TempDir(), "kerfside.db"), Log: slog.New(slog.DiscardHandler)}
	for _, c := range []struct {
		words []string
		kind  problem.Kind
	}{
		{[]string{"owner"}, problem.Missing}, // never served: no address
		{[]string{"revoke"}, problem.Missing},
		{[]string{"revoke", "nobody"}, problem.NotFound},
		{[]string{"devices", "-crew", "nobody"}, problem.NotFound},
		{[]string{"fire"}, problem.Unknown},
	} {
		if said, err := crewSays(t, app, c.words...); problem.KindOf(err) != c.kind {
			t.Errorf("crew %v: %q, %v, want %s", c.words, said, err, c.kind)
		}
	}
}

// TestWelcome: what is no terminal gets no code.
func TestWelcome(t *testing.T) {
	app := openApp(t, t.TempDir())
	defer app.Close()
	var out bytes.Buffer
	if err := app.welcome(&out); err != nil || !strings.Contains(out.String(), "kerfside crew owner -db "+app.DB) || strings.Contains(out.String(), "#") {
		t.Errorf("without an owner: %q, %v", out.String(), err)
	}
	link, err := app.Invite("owner")
	if err != nil {
		t.Fatal(err)
	}
	enrolAt(t, app, link)
	out.Reset()
	if err := app.welcome(&out); err != nil || out.Len() > 0 {
		t.Errorf("with an owner: %q, %v", out.String(), err)
	}
}

// TestCrewNames: what cannot be seen gets into no name and no link, and the
// crew's own name can be typed as it is.
func TestCrewNames(t *testing.T) {
	app := openApp(t, t.TempDir())
	defer app.Close()
	for _, words := range [][]string{
		{"new", "Weir\u202e Lane"}, {"new", "Weir\u009b2J Lane"}, {"rename", "Osier\u200b Ford"}, {"rename", "a\xffb"},
		{"owner", "-url", "https://shop\u202e.example"}, {"owner", "-url", "https://shop.example\x1b[2J"}, {"invite", "-url", "shop.example"},
		{"invite", "-url", "https://name@shop.example"}, {"invite", "-url", "https://shop.example/join#x"},
	} {
		said, err := crewSays(t, app, words...)
		if p := problem.From(err); err == nil || p.Kind != problem.Malformed || p.Hint == "" || strings.ContainsAny(p.Msg+said, "\u202e\u009b\u200b\x1b") {
			t.Errorf("crew %q says %q, %v", words, said, err)
		}
	}
	said, err := crewSays(t, app, "list")
	if err != nil || strings.Contains(said, "Weir") {
		t.Errorf("crew list says %q, %v", said, err)
	}
	if said, err = crewSays(t, app, "owner", "-url", "https://shop.example/"); err != nil || !strings.Contains(said, "open  https://shop.example/join#") {
		t.Errorf("crew owner says %q, %v", said, err)
	}
}
