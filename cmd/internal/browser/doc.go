// Package browser drives headless browsers for tests, pictures and timings:
// Chromium, Firefox and WebKit, with the same calls.
//
// A Browser is one profile: one phone. It can be killed in the middle of
// anything and started again on the same profile, which is how the tests find
// out what has reached the disk. A Page is one tab that looks and feels like a
// phone: size, touch, theme and speed are set on it, and every error that the
// page or its workers print is kept.
//
//	b, err := browser.Launch(ctx, browser.Options{Profile: dir})
//	p, err := b.Page(ctx, browser.Phone)
//	err = p.Open(ctx, "http://127.0.0.1:8480/")
//	err = p.Wait(ctx, `document.querySelector("main") !== null`)
//	err = p.Tap(ctx, 195, 800)
//
// Every call takes a context; without a deadline it may wait for as long as
// the browser does not answer. Nothing waits for a fixed time.
//
// # Engines
//
// Chromium speaks the DevTools protocol over a pair of pipes (file descriptors
// 3 and 4 of the browser, JSON texts that end in a zero byte). Firefox speaks
// WebDriver BiDi over a WebSocket. WebKit is WebKitGTK behind WebKitWebDriver,
// over HTTP, with a window of our own on an X server without a screen: the
// browser that comes with that driver forgets all when it ends.
//
// The calls that only Chromium can do are in chromium_only.go, and say so in the
// others. WebKit has a mouse in place of fingers, does not tell of answers that
// are errors, and cannot draw more than one pixel for each CSS pixel.
package browser
