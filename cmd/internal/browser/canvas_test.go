package browser

import (
	"bytes"
	"encoding/base64"
	"testing"
)

// TestBrowserCanvasTellsNothing: what a canvas writes as JPEG has no segment of
// a program's own (APP1, APP3 to APP13, APP15) and no comment.
func TestBrowserCanvasTellsNothing(t *testing.T) { inEach(t, testCanvasTellsNothing) }

func testCanvasTellsNothing(t *testing.T, engine Engine) {
	ctx, _, p, _ := open(t, engine)
	var text string
	if err := p.Evaluate(ctx, `(() => {
		const canvas = Object.assign(document.createElement("canvas"), { width: 64, height: 48 });
		canvas.getContext("2d").fillRect(0, 0, 64, 48);
		return canvas.toDataURL("image/jpeg", 0.85).split(",")[1];
	})()`, &text); err != nil {
		t.Fatal(err)
	}
	file, err := base64.StdEncoding.DecodeString(text)
	if err != nil || !bytes.HasPrefix(file, []byte("\xff\xd8\xff")) {
		t.Fatalf("no JPEG: % x, %v", file[:min(8, len(file))], err)
	}
	var markers []byte
	for at := 2; at+4 <= len(file) && file[at+1] != 0xda; at += 2 + int(file[at+2])<<8 + int(file[at+3]) {
		markers = append(markers, file[at+1])
		if m := file[at+1]; m == 0xfe || m >= 0xe1 && m <= 0xef && m != 0xe2 && m != 0xee {
			t.Errorf("segment %x", m)
		}
	}
	t.Logf("segments: % x", markers)
}
