package server

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"kerfside/calc/journal/exchange"
	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// TestReleasedStores: on the database of each form, brought to today's, the phone
// that had joined goes on with the token that it has. It is given all that was there, what it sends is
// stored once, and another phone that joins gets both.
func TestReleasedStores(t *testing.T) {
	for _, r := range storetest.AllReleased(t, "..") {
		t.Run(fmt.Sprint("form-", r.Form), func(t *testing.T) {
			p := openShop(t, r.Unpack(t, t.TempDir()))
			p.now = time.Date(2026, 12, 1, 8, 0, 0, 0, time.UTC)
			crew := p.server.store.Crew()
			had, _ := p.server.store.State(crew)
			rows, err := p.server.store.After(t.Context(), crew, 0, 1<<30, 1<<30)
			if err != nil || len(rows) < 50 {
				t.Fatalf("%d entries, %v", len(rows), err)
			}
			phone := client{shop: p, id: r.Device, token: r.Token}
			if r.Token == "" { // of before there were phones
				phone = p.join(crew, store.Owner, "truck-1")
			}
			written := note(1)
			for range 2 { // its first answer is lost
				got := phone.send("POST", "/api/journal/sync", syncOf(crew, written))
				if got.Code != 200 {
					t.Fatalf("its sync = %d %s", got.Code, got.Body)
				}
				for _, row := range rows {
					if !strings.Contains(got.Body.String(), row.ID) {
						t.Errorf("the phone is not given %s %s", row.ID, row.Raw)
					}
				}
			}
			if now, _ := p.server.store.State(crew); now.Max != had.Max+1 {
				t.Errorf("of %d entries and one sent twice there are %d", had.Max, now.Max)
			}
			joined := p.join(crew, store.Member, "truck-2").send("POST", "/api/journal/sync", syncOf(crew))
			if !strings.Contains(joined.Body.String(), rows[0].ID) || !strings.Contains(joined.Body.String(), "note000000000000000001") {
				t.Errorf("a phone that joins is given %s", joined.Body)
			}
			at := exchange.Mark{N: had.Max, H: had.Head}
			if more := phone.send("POST", "/api/journal/sync", request(at)); more.Code != 200 || strings.Contains(more.Body.String(), rows[0].ID) || !strings.Contains(more.Body.String(), "note000000000000000001") {
				t.Errorf("from where the old server ended it is given %d %s", more.Code, more.Body)
			}
		})
	}
}
