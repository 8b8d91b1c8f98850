package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"kerfside/cmd/internal/browser"
	"kerfside/guides"
)

// onPaper makes the page as the printer gets it, and tells of it.
const onPaper = `(() => {
  dispatchEvent(new Event("beforeprint"));
  const paper = document.querySelector(".guide-paper");
  const told = {
    head: paper?.querySelector("thead")?.textContent.trim() ?? "",
    steps: [...(paper?.querySelectorAll("h2") ?? [])].map((h) => h.id),
    drawings: paper?.querySelectorAll("figure:not([hidden]) svg").length ?? 0,
    cautions: paper?.querySelector(".caution")?.textContent.trim().length ?? 0,
  };
  dispatchEvent(new Event("afterprint"));
  return { ...told, gone: !document.querySelector(".guide-paper") };
})()`

var pdfPage = regexp.MustCompile(`/Type\s*/Page\b`)

// TestBrowserPrint prints every guide through Chromium: its name and the date
// on top, the cautions, all steps with their drawings, on as many pages as they
// need and no more. With -keep the sheets are left to be looked at.
func TestBrowserPrint(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir := place(t)
	app := openApp(t, dir)
	defer app.Close()
	phone, err := browser.Launch(ctx, browser.Options{Profile: filepath.Join(dir, "phone")})
	if err != nil {
		t.Fatal(err)
	}
	defer phone.Kill()
	page, err := phone.Page(ctx, browser.Phone)
	if err != nil {
		t.Fatal(err)
	}
	lib, err := guides.Load(guides.Files)
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range lib.Index() {
		g, err := lib.Guide(e.ID)
		if err != nil {
			t.Fatal(err)
		}
		look := []string{"light", "dark"}[i%2] // night prints as the sun does
		if err := page.Media(ctx, map[string]string{"prefers-color-scheme": look}); err != nil {
			t.Fatal(err)
		}
		if err := page.Open(ctx, app.URL()+"/guide/"+e.ID); err != nil {
			t.Fatal(err)
		}
		if err := page.Wait(ctx, `document.querySelector(".guide .title")`); err != nil {
			t.Fatalf("%s: %v", e.ID, err)
		}
		var told struct {
			Head               string
			Steps              []string
			Drawings, Cautions int
			Gone               bool
		}
		if err := page.Evaluate(ctx, onPaper, &told); err != nil {
			t.Fatal(err)
		}
		drawn := 0
		for _, st := range g.Steps {
			if st.Drawing != nil {
				drawn++
			}
		}
		year := time.Now().Format("2006")
		if !bytes.Contains([]byte(told.Head), []byte(g.Title)) || !bytes.Contains([]byte(told.Head), []byte(year)) {
			t.Errorf("%s: the head is %q, want the guide's name and the date", e.ID, told.Head)
		}
		if len(told.Steps) != len(g.Steps) || told.Drawings != drawn || told.Cautions == 0 || !told.Gone {
			t.Errorf("%s: on paper %d of %d steps, %d of %d drawings, cautions of %d letters, gone afterwards %v", e.ID, len(told.Steps), len(g.Steps), told.Drawings, drawn, told.Cautions, told.Gone)
		}
		pdf, err := page.PDF(ctx, browser.A4)
		if err != nil {
			t.Fatal(err)
		}
		if pages, most := len(pdfPage.FindAll(pdf, -1)), 1+(len(g.Steps)+1)/2; pages < 1 || pages > most {
			t.Errorf("%s: %d steps on %d pages, want at most %d", e.ID, len(g.Steps), pages, most)
		} else {
			t.Logf("%s: %d steps on %d pages", e.ID, len(g.Steps), pages)
		}
		if err := os.WriteFile(filepath.Join(dir, e.ID+".pdf"), pdf, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// TestBrowserPrintCard prints the truck card in both systems of units, on both papers and for
// the metal with the most cautions: each on one page.
func TestBrowserPrintCard(t *testing.T) {
	t.Parallel()
	ctx, d := atPages(t, journeyLimit)
	for _, units := range []string{"metric", "us"} {
		d.visit(ctx, t, "/settings")
		d.ask(ctx, t, fmt.Sprintf(`(document.querySelector("[data-key=units][data-word=%s]").click(), true)`, units), new(bool))
		for _, metal := range []string{"mild-steel", "aluminium", "galvanised"} {
			d.visit(ctx, t, "/rig-card")
			d.wait(ctx, t, `document.querySelector(".rig-card table") !== null`)
			d.ask(ctx, t, `(document.querySelector(".rig-card [data-action=metal]").click(), true)`, new(bool))
			d.wait(ctx, t, fmt.Sprintf(`document.querySelector("dialog[open] [data-word=%s]") !== null`, metal))
			var name string
			d.ask(ctx, t, fmt.Sprintf(`((choice) => (choice.click(), choice.textContent))(document.querySelector("dialog[open] [data-word=%s]"))`, metal), &name)
			d.wait(ctx, t, fmt.Sprintf(`document.querySelector(".rig-card h2").textContent.endsWith(%q)`, name))
			for on, paper := range map[string]browser.Paper{"A4": browser.A4, "Letter": browser.Letter} {
				pdf, err := d.page.PDF(ctx, paper)
				if err != nil {
					t.Fatal(err)
				}
				if pages := len(pdfPage.FindAll(pdf, -1)); pages != 1 {
					t.Errorf("the card of %s in %s takes %d pages of %s, want one", metal, units, pages, on)
				}
			}
		}
	}
}

// aPaper is a job as large as its papers are made for, quoted and done: twenty cuts, six
// photos, a stop that was cleared, parts, a fire watch.
const aPaper = `(async () => {
	const canvas = Object.assign(document.createElement("canvas"), { width: 96, height: 72 });
	canvas.getContext("2d").fillRect(20, 20, 40, 30);
	const thumb = canvas.toDataURL("image/jpeg", 0.5);
	const rig = "rig-of-the-test-000001", about = "job-on-paper-000000001", session = "session-on-paper-00001", at = Date.now() - 3 * 3600_000;
	const cuts = Object.fromEntries([...Array(20).keys()].map((n) => ["cut.k" + n, { metal: n % 2 ? "stainless" : "mild-steel", thickness: n % 3 ? "6mm" : "1/4in", length: "400mm", count: "3", name: "Hinge side " + (n + 1), at: 1000 * (n + 1) }]));
	const entries = [
		{ kind: "setting.set", about: "prices", body: { crew_name: "Osier Ford Repair", currency: "€", tax: "19%", labour: "60", overhead: "15", set_price: "12" } },
		{ kind: "job.set", about, body: { name: "Gate at the weir", number: "2026-014", rig, site: "site-of-the-test-00001", ...cuts } },
		{ kind: "job.set", about, body: { customer: "Heron Croft" } },
		{ kind: "session.opened", about: session, body: { rig, title: "Gate", job: about } },
		{ kind: "check.answered", in: session, body: { guide: "may-i-cut", step: "wall", result: "fail", says: "a wall that may burn", by: "you and the owner" } },
		{ kind: "arc.run", in: session, body: { rig, cut: "k0", start: at, stop: at + 90_000, starts: 3 } },
		{ kind: "part.fitted", in: session, about: "tip-on-paper-000000001", body: { slot: "tip", rig } },
		{ kind: "watch.started", in: session, body: { ms: 1_800_000, rig } },
		...[...Array(6).keys()].map((n) => ({ kind: "photo.added", in: session, body: { sha256: String(n).repeat(64), bytes: 1000, w: 640, h: 480, thumb } })),
		...[...Array(20).keys()].map((n) => ({ kind: "cut.done", in: session, about, body: { cut: "k" + n, n: 3 } })),
	];
	for (const entry of entries) await kerfside.journal.tap(entry);
	const look = { report: "quote", id: about, now: Date.now(), zone: [{ from: 0, minutes: 0 }], units: "metric" };
	const done = await kerfside.call("journal-act", { ...look, act: "quote", with: {}, answers: { price: "480" } });
	for (const { kind, about, body } of done.entries) await kerfside.journal.tap({ kind, about, body });
	return done.entries.length === 1;
})()`

// TestBrowserPrintPapers prints a quote and a job sheet, the crew's copy too, in both systems
// of units, on both papers and out of either look: each on one page, black on white.
func TestBrowserPrintPapers(t *testing.T) {
	t.Parallel()
	ctx, d := atPages(t, journeyLimit)
	d.wait(ctx, t, aPaper)
	dir := place(t)
	for _, c := range []struct{ units, look string }{{"metric", "sun"}, {"us", "night"}} {
		d.visit(ctx, t, "/settings")
		for key, word := range map[string]string{"units": c.units, "look": c.look} {
			d.ask(ctx, t, fmt.Sprintf(`(document.querySelector("[data-key=%s][data-word=%s]").click(), true)`, key, word), new(bool))
		}
		for name, path := range map[string]string{"quote": "/book/quote/job-on-paper-000000001", "sheet": "/book/sheet/job-on-paper-000000001", "crew": "/book/sheet/job-on-paper-000000001"} {
			d.visit(ctx, t, path)
			d.wait(ctx, t, `document.querySelectorAll(".report__sign").length >= 2 && document.querySelector(".report__title")?.textContent.includes("2026-014")`)
			if name == "crew" {
				d.ask(ctx, t, `(document.querySelector("a[href$='copy=crew']").click(), true)`, new(bool))
				d.wait(ctx, t, `document.querySelector(".report")?.textContent.includes("Cost, for the crew alone")`)
			}
			d.wait(ctx, t, `[...document.querySelectorAll(".report p")].some((p) => p.textContent.includes("20. Hinge side 20"))`)
			for on, paper := range map[string]browser.Paper{"A4": browser.A4, "Letter": browser.Letter} {
				pdf, err := d.page.PDF(ctx, paper)
				if err != nil {
					t.Fatal(err)
				}
				if pages := len(pdfPage.FindAll(pdf, -1)); pages != 1 {
					t.Errorf("the %s in %s takes %d pages of %s, want one", name, c.units, pages, on)
				}
				if err := os.WriteFile(filepath.Join(dir, name+"-"+c.units+"-"+on+".pdf"), pdf, 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}
