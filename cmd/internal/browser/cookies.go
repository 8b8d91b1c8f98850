package browser

import (
	"context"
	"encoding/json"
)

// Cookie is what the browser has kept of one.
type Cookie struct {
	Name, Domain, Path, SameSite string
	Secure, HTTPOnly             bool
}

// Cookies returns all that the profile holds, those that pages cannot read too.
func (b *Browser) Cookies(ctx context.Context) ([]Cookie, error) {
	var got struct{ Cookies []Cookie }
	err := b.pipe.call(ctx, "", "Storage.getCookies", struct{}{}, &got)
	return got.Cookies, err
}

// Jar is all the cookies of a profile, with their values.
type Jar = json.RawMessage

// Jar returns the cookies, for a browser that is about to be killed: Chromium
// writes them to disk half a minute late.
func (b *Browser) Jar(ctx context.Context) (Jar, error) {
	var got struct{ Cookies Jar }
	err := b.pipe.call(ctx, "", "Storage.getCookies", struct{}{}, &got)
	return got.Cookies, err
}

// PutJar gives the browser the cookies of an earlier run.
func (b *Browser) PutJar(ctx context.Context, jar Jar) error {
	return b.pipe.call(ctx, "", "Storage.setCookies", struct {
		Cookies Jar `json:"cookies"`
	}{jar}, nil)
}
