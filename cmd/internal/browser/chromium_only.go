package browser

import (
	"context"
	"strings"
)

// What only Chromium can do. Pages and browsers of the other engines answer
// with an error that says so.

// chromium returns the tab of a Chromium.
func (p *Page) chromium(what string) (*chromiumTab, error) {
	if t, ok := p.tab.(*chromiumTab); ok {
		return t, nil
	}
	return nil, p.browser.engine.cannot(what)
}

// chromium returns the driver of a Chromium.
func (b *Browser) chromium(what string) (*chromium, error) {
	if c, ok := b.driver.(*chromium); ok {
		return c, nil
	}
	return nil, b.engine.cannot(what)
}

// Manifest is what the browser makes of a page's manifest.
type Manifest struct {
	Errors    []string // what it cannot read
	Hinders   []string // why it does not offer to install the app
	Shortcuts []string // the addresses that it opens
	Pictures  []string // form factors of the screenshots, "narrow" and "wide"
	Share     string   // the address that takes what is shared
}

// Manifest reads the page's manifest as the browser does that installs the app.
func (p *Page) Manifest(ctx context.Context) (*Manifest, error) {
	t, err := p.chromium("say what it makes of a manifest")
	if err != nil {
		return nil, err
	}
	var got struct {
		Errors   []struct{ Message string }
		Manifest struct {
			Shortcuts   []struct{ URL string }
			Screenshots []struct{ FormFactor string }
			ShareTarget struct{ Action string }
		}
	}
	if err := t.call(ctx, "Page.getAppManifest", struct{}{}, &got); err != nil {
		return nil, err
	}
	var hinders struct {
		InstallabilityErrors []struct{ ErrorID string }
	}
	if err := t.call(ctx, "Page.getInstallabilityErrors", struct{}{}, &hinders); err != nil {
		return nil, err
	}
	m := &Manifest{Share: got.Manifest.ShareTarget.Action}
	for _, e := range got.Errors {
		m.Errors = append(m.Errors, e.Message)
	}
	for _, e := range hinders.InstallabilityErrors {
		m.Hinders = append(m.Hinders, e.ErrorID)
	}
	for _, s := range got.Manifest.Shortcuts {
		m.Shortcuts = append(m.Shortcuts, s.URL)
	}
	for _, s := range got.Manifest.Screenshots {
		m.Pictures = append(m.Pictures, strings.ToLower(strings.TrimPrefix(s.FormFactor, "k")))
	}
	return m, nil
}

// Paper is a size of paper, in inches.
type Paper struct{ Width, Height float64 }

// The papers of the shop's printer.
var (
	A4     = Paper{Width: 8.27, Height: 11.69}
	Letter = Paper{Width: 8.5, Height: 11}
)

// PDF prints the page as Chromium would on that paper, backgrounds left out.
func (p *Page) PDF(ctx context.Context, on Paper) ([]byte, error) {
	t, err := p.chromium("print")
	if err != nil {
		return nil, err
	}
	var printed struct{ Data []byte }
	err = t.call(ctx, "Page.printToPDF", map[string]any{"paperWidth": on.Width, "paperHeight": on.Height, "preferCSSPageSize": true}, &printed)
	return printed.Data, err
}

// Slow makes the page's main thread that many times slower. Workers, wasm
// compilation and the service worker keep their speed.
func (p *Page) Slow(ctx context.Context, times float64) error {
	t, err := p.chromium("slow a page down")
	if err != nil {
		return err
	}
	return t.call(ctx, "Emulation.setCPUThrottlingRate", map[string]any{"rate": times}, nil)
}

// Line makes the network of the page as slow as a phone's: milliseconds for a
// round trip and bytes a second each way. Service workers are not slowed.
func (p *Page) Line(ctx context.Context, latency, bytesPerSecond float64) error {
	t, err := p.chromium("slow the network down")
	if err != nil {
		return err
	}
	if err := t.call(ctx, "Network.enable", struct{}{}, nil); err != nil {
		return err
	}
	return t.call(ctx, "Network.emulateNetworkConditions", map[string]any{
		"offline": false, "latency": latency, "downloadThroughput": bytesPerSecond, "uploadThroughput": bytesPerSecond,
	}, nil)
}

// Grant gives every page of an origin permissions that a person would be asked
// for, by their names in the protocol, like "notifications" or "audioCapture".
func (b *Browser) Grant(ctx context.Context, origin string, permissions ...string) error {
	c, err := b.chromium("grant permissions")
	if err != nil {
		return err
	}
	return c.call(ctx, "Browser.grantPermissions", map[string]any{"origin": origin, "permissions": permissions}, nil)
}

// Cookie is what the browser has kept of one.
type Cookie struct {
	Name, Domain, Path, SameSite string
	Secure, HTTPOnly             bool
}

// Cookies returns all that the profile holds, those that pages cannot read too.
func (b *Browser) Cookies(ctx context.Context) ([]Cookie, error) {
	c, err := b.chromium("list its cookies")
	if err != nil {
		return nil, err
	}
	var got struct{ Cookies []Cookie }
	err = c.call(ctx, "Storage.getCookies", struct{}{}, &got)
	return got.Cookies, err
}
