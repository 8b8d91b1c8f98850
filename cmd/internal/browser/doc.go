// Package browser drives a headless Chromium for tests, pictures and timings.
//
// It speaks the DevTools protocol over a pair of pipes (file descriptors 3 and
// 4 of the browser, JSON texts that end in a zero byte), so it opens no port
// and the browser ends when we do. A Browser is one profile: one phone. It can
// be killed in the middle of anything and started again on the same profile,
// which is how the tests find out what has reached the disk. A Page is one tab
// that looks and feels like a phone: size, touch, theme and speed are set on
// it, and every error that the page or its workers print is kept.
//
//	b, err := browser.Launch(ctx, browser.Options{Profile: dir})
//	p, err := b.Page(ctx, browser.Phone)
//	err = p.Open(ctx, "http://127.0.0.1:8480/")
//	err = p.Wait(ctx, `document.querySelector("main") !== null`)
//	err = p.Tap(ctx, 195, 800)
//
// Every call takes a context; without a deadline it may wait for as long as
// the browser does not answer. Nothing waits for a fixed time.
package browser
