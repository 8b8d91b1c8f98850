package main

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"testing"

	"kerfside/calc/listen/listentest"
	"kerfside/cmd/internal/browser"
)

// yardOfCuts is made sound, no recording: two cuts with the air after them, then a grinder.
func yardOfCuts() *listentest.Scene {
	s := listentest.New(19, 77)
	s.Faint(-75)
	for _, at := range []listentest.Span{{From: 2, To: 7}, {From: 9.5, To: 12.5}} {
		s.Arc(at, -30)
		s.PostFlow(listentest.Span{From: at.To, To: at.To + 1.5}, -41)
	}
	s.Grinder(listentest.Span{From: 14.5, To: 17.5}, -25, 180)
	return s
}

// spy notes what would keep or send sound, and the microphone's tracks.
const spy = `(() => {
	globalThis.spied = { tracks: [], recorded: 0, asked: performance.getEntriesByType("resource").length };
	const devices = navigator.mediaDevices, ask = devices.getUserMedia.bind(devices);
	devices.getUserMedia = async (what) => {
		const stream = await ask(what);
		spied.tracks.push(...stream.getTracks());
		return stream;
	};
	globalThis.MediaRecorder = class { constructor() { spied.recorded++; } };
	return true;
})()`

// toCut goes there in the document that is open.
const toCut = `(document.querySelector('a[href="/cut"]').click(), true)`

const tapListen = `(document.querySelector("[data-action=listen]").click(), true)`

// sessionNow is what the session holds, in ms and starts.
const sessionNow = `kerfside.journal.read(["now"]).then(({ views }) => views.now.session ?? { ms: 0, starts: 0 })`

// TestBrowserListens: what a microphone hears, here a file that is played to it, is kept as arc time within 3 %;
// a grinder is masked, and that is said; a page that nobody sees hears nothing; nothing is recorded or asked of the server.
func TestBrowserListens(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithTimeout(context.Background(), journeyLimit)
	defer cancel()
	dir := place(t)
	app := openApp(t, dir)
	t.Cleanup(func() { app.Close() })
	sound, scene := filepath.Join(dir, "yard.wav"), yardOfCuts()
	if err := os.WriteFile(sound, scene.WAV(), 0o600); err != nil {
		t.Fatal(err)
	}
	d := &device{profile: filepath.Join(dir, "phone"), flags: []string{"--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", "--use-file-for-fake-audio-capture=" + sound + "%noloop"}}
	d.open(ctx, t, app)
	d.wait(ctx, t, `document.documentElement.dataset.offline === "ready"`)
	d.wait(ctx, t, aDay)
	d.ask(ctx, t, toCut, new(bool))
	d.stands(ctx, t, "Cut", `Boolean(document.querySelector("[data-action=listen]"))`)
	d.ask(ctx, t, spy, new(bool))
	d.ask(ctx, t, tapListen, new(bool))
	d.stands(ctx, t, "it says what it is worth", `document.querySelector("main").innerText.includes("no real torch")`)
	said := func(words string) string {
		return `document.querySelector("main").innerText.includes("` + words + `")`
	}
	d.wait(ctx, t, said("Arc heard"))
	d.wait(ctx, t, said("masked: not counted"))
	d.wait(ctx, t, said("Masked for"))
	var got struct{ Ms, Starts float64 }
	d.ask(ctx, t, sessionNow, &got)
	want := 1000 * scene.ArcTime()
	t.Logf("heard %.0f ms of %.0f ms in %.0f starts: %+.1f %%", got.Ms, want, got.Starts, 100*(got.Ms/want-1))
	if math.Abs(got.Ms/want-1) > 0.03 || got.Starts != float64(len(scene.Arcs)) {
		t.Errorf("heard %.0f ms in %.0f starts, want %.0f ms within 3 %% in %d", got.Ms, got.Starts, want, len(scene.Arcs))
	}
	d.ask(ctx, t, `(Object.defineProperty(document, "visibilityState", { value: "hidden", configurable: true }), document.dispatchEvent(new Event("visibilitychange")), true)`, new(bool))
	var spied struct {
		Live, Tracks, Recorded, Asked int
	}
	d.ask(ctx, t, `({ tracks: spied.tracks.length, live: spied.tracks.filter((t) => t.readyState === "live").length, recorded: spied.recorded, asked: performance.getEntriesByType("resource").length - spied.asked })`, &spied)
	if spied.Tracks != 1 || spied.Live != 0 || spied.Recorded != 0 || spied.Asked != 0 {
		t.Errorf("%+v: want one track, which lives no more, nothing recorded and nothing asked of the server", spied)
	}
}

// stub is a microphone for engines that can be given none: it plays two seconds of quiet, three of a hiss
// and quiet again, as their analyser would tell.
const stub = `(() => {
	const track = { readyState: "live", stop() { this.readyState = "ended"; }, getSettings: () => ({}) };
	globalThis.spied = { tracks: [track] };
	Object.defineProperty(navigator, "mediaDevices", { configurable: true, value: { getUserMedia: async () => ({ getTracks: () => [track], getAudioTracks: () => [track] }) } });
	const began = performance.now();
	globalThis.AudioContext = class {
		sampleRate = 48000;
		get currentTime() { return (performance.now() - began) / 1000; }
		createAnalyser = () => ({ frequencyBinCount: 1024, getFloatFrequencyData: (bins) => {
			const isArc = this.currentTime > 2 && this.currentTime < 5;
			bins.forEach((_, i) => (bins[i] = (isArc ? (i > 150 ? -50 : -55) : -100) + 3 * Math.sin(i * i)));
		} });
		createMediaStreamSource = () => ({ connect() {} });
		resume = async () => {};
		close = async () => {};
	};
	return true;
})()`

// TestBrowserListensElsewhere: the same way from a microphone to the journal in the other engines, with a stub
// of the microphone. How long the arc burned is told by the test above.
func TestBrowserListensElsewhere(t *testing.T) {
	for _, engine := range others() {
		t.Run(engine.String(), func(t *testing.T) {
			t.Parallel()
			testListensElsewhere(t, engine)
		})
	}
}

func testListensElsewhere(t *testing.T, engine browser.Engine) {
	ctx, d := atPagesIn(t, engine, journeyLimit)
	d.ask(ctx, t, toCut, new(bool))
	d.stands(ctx, t, "Cut", `Boolean(document.querySelector("[data-action=listen]"))`)
	d.ask(ctx, t, stub, new(bool))
	d.ask(ctx, t, tapListen, new(bool))
	d.stands(ctx, t, "it hears", `document.querySelector("main").innerText.includes("Arc heard")`)
	d.stands(ctx, t, "and keeps", sessionNow+`.then(({ ms, starts }) => ms > 2000 && ms < 5000 && starts === 1)`)
	d.ask(ctx, t, `(Object.defineProperty(document, "visibilityState", { value: "hidden", configurable: true }), document.dispatchEvent(new Event("visibilitychange")), true)`, new(bool))
	d.stands(ctx, t, "nobody sees it", `spied.tracks[0].readyState === "ended"`)
}
