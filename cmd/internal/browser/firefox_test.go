package browser

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"
)

// What Firefox says of what was cut off as a page was left is no fault; the same
// words of a page that stays are one. What the page itself has broken off never is.
func TestLeavingFirefox(t *testing.T) {
	page := &Page{}
	f := &firefox{tabs: map[string]*firefoxTab{"7": {page: page}}}
	const (
		worker = `"A ServiceWorker intercepted the request and encountered an unexpected error."`
		begins = `{"channel":"turn","data":{"type":"string","value":"begins"},"source":{"context":"7"}}`
		left   = `{"channel":"turn","data":{"type":"string","value":"is left"},"source":{"context":"7"}}`
	)
	say := func(method, params string) { f.event(message{Method: method, Params: json.RawMessage(params)}) }
	cut := func() int {
		before := len(page.Faults())
		say("log.entryAdded", fmt.Sprintf(`{"level":"error","type":"javascript","text":%s,"source":{"context":"7"}}`, worker))
		say("network.fetchError", `{"context":"7","errorText":"NS_BASE_STREAM_CLOSED","request":{"url":"http://localhost:1/list.json"}}`)
		say("network.fetchError", `{"context":"7","errorText":"NS_BINDING_ABORTED","request":{"url":"http://localhost:1/list.json"}}`)
		return len(page.Faults()) - before
	}
	var got []int
	for _, turn := range []string{begins, left, begins} {
		say("script.message", turn)
		got = append(got, cut())
	}
	if want := []int{2, 0, 2}; !slices.Equal(got, want) {
		t.Errorf("faults while it stays, as it is left, in the next: %v, want %v: %q", got, want, page.Faults())
	}
}
