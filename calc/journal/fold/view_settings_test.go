package fold

import (
	"encoding/json"
	"strings"
	"testing"
)

// TestOwnSettingsStayOut: a number to call that an earlier version wrote into the
// journal stands in no view, whichever phone wrote it and however often; what
// else it set does.
func TestOwnSettingsStayOut(t *testing.T) {
	s := &script{T: t}
	s.Add("first", 0, "setting.set", `{'emergency':'0191 555 0142','units':'us'}`, about("phone-a"))
	s.Add("second", minute, "setting.set", `{'emergency':'0191 555 0199','watcher':'the lad'}`, about("phone-a"), device("phone-b"))
	f := foldOf(s)
	view, err := json.Marshal(f.Settings())
	if err != nil {
		t.Fatal(err)
	}
	for _, own := range []string{"0191", "the lad", "emergency", "watcher"} {
		if strings.Contains(string(view), own) {
			t.Errorf("the view tells %s: %s", own, view)
		}
	}
	if got := string(f.Settings().Devices["phone-a"].Fields["units"]); got != `"us"` {
		t.Errorf("units are %s", got)
	}
}
