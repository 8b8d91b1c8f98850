package browser

import (
	"context"
	"errors"
)

// SetFiles puts files into the file input that the expression names, as a
// person who picks them in the system's own dialog.
func (p *Page) SetFiles(ctx context.Context, expression string, paths ...string) error {
	var got struct {
		Result           struct{ ObjectID string }
		ExceptionDetails *exception
	}
	if err := p.call(ctx, "Runtime.evaluate", map[string]any{"expression": expression, "userGesture": true}, &got); err != nil {
		return err
	}
	if got.ExceptionDetails != nil {
		return errors.New(got.ExceptionDetails.text())
	}
	return p.call(ctx, "DOM.setFileInputFiles", map[string]any{"files": paths, "objectId": got.Result.ObjectID}, nil)
}
