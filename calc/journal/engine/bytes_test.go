package engine

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"testing"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/journal/journaltest"
)

// TestBytesStay: what goes out of a phone and over the wire for a given history is the
// same to the byte, whatever the code is called that writes it. These sums were taken
// before the journal was four packages. One of them may change only with a new proto, or
// with a new version of the export.
func TestBytesStay(t *testing.T) {
	list := journaltest.History(t, 6000)
	all := journaltest.Records(list)
	var raw []byte
	for i, e := range list {
		raw = append(append(raw, e.Raw...), '\n')
		if i%3 != 0 {
			all[i].O, all[i].N = &e.T, int64(i+1)
		}
	}
	d := New()
	call := func(name string, in any) []byte {
		text, err := json.Marshal(in)
		if err != nil {
			t.Fatal(err)
		}
		out, err := d.Reply(name, text)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		return out
	}
	const now = journaltest.T0 + 56
	w := exchange.NewReply(exchange.ReplyHead{Crew: "crew-1", Now: now, Max: 600, ErasuresDigest: "zz"})
	for i, e := range list[:600] {
		if i%50 == 0 {
			w.Ack(exchange.Ack{ID: e.ID, N: int64(i + 1), O: e.T, Conflict: i%100 == 0})
		}
		w.Arrival(exchange.Arrival{N: int64(i + 1), O: e.T, Raw: e.Raw}, event.Chain{})
	}
	for name, c := range map[string]struct {
		text []byte
		sum  string
	}{
		"events": {text: raw, sum: "ae55b1761baa3377d21093977cf2f40b05029ad643cc0a27dbc089da95bcd341"},
		"export": {text: call("journal-export", map[string]any{"events": all, "crew": "crew-1", "device": "phone-1", "now": now, "customers": true}),
			sum: "696630c9007cc7d1a05a96938812dd681435a79673bb72b99841598d18faa948"},
		"request": {text: call("journal-request", map[string]any{"unsent": all[:900], "now": now,
			"meta": map[string]any{"crew": "crew-1", "cursor": 7, "head": "00000000000000000000000000000001", "gone": "abc", "turn": 4, "strikes": 1}}),
			sum: "c2f824dbaf79d4e7a11b2d3f8616f5af67e9bd9c2436fefaf4c6363f1c2f8aa0"},
		"reply": {text: w.Bytes(), sum: "71c608530b414bfd04c3bf972a817da6f47e27b754ef79215740ed0c80a712d2"},
	} {
		if sum := sha256.Sum256(c.text); hex.EncodeToString(sum[:]) != c.sum {
			t.Errorf("the bytes of the %s are others: %d of them, sum %x", name, len(c.text), sum)
		}
	}
}
