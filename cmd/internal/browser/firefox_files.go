package browser

import (
	"context"
	"errors"
)

// node is an answer to an evaluation that names an element.
type node struct {
	Type             string
	Result           struct{ SharedID string }
	ExceptionDetails struct{ Text string }
}

func (t *firefoxTab) files(ctx context.Context, expression string, paths []string) error {
	var got node
	err := t.firefox.call(ctx, "script.evaluate", map[string]any{
		"expression": expression, "target": bidiContext{t.context}, "awaitPromise": false,
	}, &got)
	if err != nil {
		return err
	}
	if got.Type == "exception" {
		return errors.New(got.ExceptionDetails.Text)
	}
	return t.call(ctx, "input.setFiles", map[string]any{"element": map[string]string{"sharedId": got.Result.SharedID}, "files": paths}, nil)
}

func (t *firefoxTab) preload(ctx context.Context, script string) error {
	return t.firefox.call(ctx, "script.addPreloadScript", map[string]any{
		"functionDeclaration": "() => {" + script + "\n}", "contexts": []string{t.context},
	}, nil)
}
