package browser

import (
	"context"
	"errors"
)

func (t *chromiumTab) files(ctx context.Context, expression string, paths []string) error {
	var got struct {
		Result           struct{ ObjectID string }
		ExceptionDetails *exception
	}
	if err := t.call(ctx, "Runtime.evaluate", map[string]any{"expression": expression, "userGesture": true}, &got); err != nil {
		return err
	}
	if got.ExceptionDetails != nil {
		return errors.New(got.ExceptionDetails.text())
	}
	return t.call(ctx, "DOM.setFileInputFiles", map[string]any{"files": paths, "objectId": got.Result.ObjectID}, nil)
}

func (t *chromiumTab) preload(ctx context.Context, script string) error {
	return t.call(ctx, "Page.addScriptToEvaluateOnNewDocument", map[string]any{"source": script}, nil)
}
