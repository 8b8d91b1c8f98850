package browser

import "context"

// Resize gives the page another screen.
func (p *Page) Resize(ctx context.Context, s Screen) error {
	err := p.call(ctx, "Emulation.setDeviceMetricsOverride", map[string]any{
		"width": s.Width, "height": s.Height, "deviceScaleFactor": s.Scale, "mobile": s.Touch,
	}, nil)
	if err != nil {
		return err
	}
	return p.call(ctx, "Emulation.setTouchEmulationEnabled", map[string]any{"enabled": s.Touch, "maxTouchPoints": 5}, nil)
}

// Media sets what the system says it prefers, by media feature, like
// "prefers-color-scheme": "dark".
func (p *Page) Media(ctx context.Context, features map[string]string) error {
	list := []map[string]string{}
	for name, value := range features {
		list = append(list, map[string]string{"name": name, "value": value})
	}
	return p.call(ctx, "Emulation.setEmulatedMedia", map[string]any{"features": list}, nil)
}

// Slow makes the page's main thread that many times slower. Workers, wasm
// compilation and the service worker keep their speed.
func (p *Page) Slow(ctx context.Context, times float64) error {
	return p.call(ctx, "Emulation.setCPUThrottlingRate", map[string]any{"rate": times}, nil)
}

// Line makes the network of the page as slow as a phone's: milliseconds for a
// round trip and bytes a second each way. Service workers are not slowed.
func (p *Page) Line(ctx context.Context, latency, bytesPerSecond float64) error {
	if err := p.call(ctx, "Network.enable", struct{}{}, nil); err != nil {
		return err
	}
	return p.call(ctx, "Network.emulateNetworkConditions", map[string]any{
		"offline": false, "latency": latency, "downloadThroughput": bytesPerSecond, "uploadThroughput": bytesPerSecond,
	}, nil)
}
