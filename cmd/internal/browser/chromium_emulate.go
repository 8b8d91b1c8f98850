package browser

import "context"

func (t *chromiumTab) resize(ctx context.Context, s Screen) error {
	err := t.call(ctx, "Emulation.setDeviceMetricsOverride", map[string]any{
		"width": s.Width, "height": s.Height, "deviceScaleFactor": s.Scale, "mobile": s.Touch,
	}, nil)
	if err != nil {
		return err
	}
	return t.call(ctx, "Emulation.setTouchEmulationEnabled", map[string]any{"enabled": s.Touch, "maxTouchPoints": 5}, nil)
}

func (t *chromiumTab) media(ctx context.Context, features map[string]string) error {
	list := []map[string]string{}
	for name, value := range features {
		list = append(list, map[string]string{"name": name, "value": value})
	}
	return t.call(ctx, "Emulation.setEmulatedMedia", map[string]any{"features": list}, nil)
}
