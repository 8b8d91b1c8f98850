package browser

import (
	"context"
	"encoding/json"
)

// Jar is all the cookies of a profile, with their values.
type Jar = json.RawMessage

// jarred is an engine that writes cookies to disk late: Chromium half a minute,
// Firefox some seconds. WebKit writes them at once.
type jarred interface {
	jar(ctx context.Context) (Jar, error)
	putJar(ctx context.Context, jar Jar) error
}

// Jar returns the cookies, for a browser that is about to be killed and may not
// have written them yet.
func (b *Browser) Jar(ctx context.Context) (Jar, error) {
	if d, ok := b.driver.(jarred); ok {
		return d.jar(ctx)
	}
	return Jar("[]"), nil
}

// PutJar gives the browser the cookies of an earlier run.
func (b *Browser) PutJar(ctx context.Context, jar Jar) error {
	if d, ok := b.driver.(jarred); ok {
		return d.putJar(ctx, jar)
	}
	return nil
}

func (c *chromium) jar(ctx context.Context) (Jar, error) {
	var got struct{ Cookies Jar }
	err := c.call(ctx, "Storage.getCookies", struct{}{}, &got)
	return got.Cookies, err
}

func (c *chromium) putJar(ctx context.Context, jar Jar) error {
	return c.call(ctx, "Storage.setCookies", map[string]any{"cookies": jar}, nil)
}

func (f *firefox) jar(ctx context.Context) (Jar, error) {
	var got struct{ Cookies Jar }
	err := f.call(ctx, "storage.getCookies", struct{}{}, &got)
	return got.Cookies, err
}

func (f *firefox) putJar(ctx context.Context, jar Jar) error {
	var cookies []map[string]any
	if err := json.Unmarshal(jar, &cookies); err != nil {
		return err
	}
	for _, c := range cookies {
		delete(c, "size") // told, not taken
		if err := f.call(ctx, "storage.setCookie", map[string]any{"cookie": c}, nil); err != nil {
			return err
		}
	}
	return nil
}
