package browser

import "context"

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
