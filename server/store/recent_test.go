package store_test

import (
	"fmt"
	"path/filepath"
	"reflect"
	"testing"

	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// What is handed out from memory is what the file holds, wherever a page begins
// and ends. The oracle is the same store opened afresh.
func TestRecentIsWhatTheFileHolds(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	type page struct{ after, limit, size int }
	var pages []page
	for _, after := range []int{0, 1, 499, 500, 1500, 2499, 2500, 4499, 4500, 4999, 5000, 5001} {
		for _, limit := range []int{1, 7, 1000} {
			for _, size := range []int{1, 3000, 1 << 20} {
				pages = append(pages, page{after: after, limit: limit, size: size})
			}
		}
	}
	read := func(s *store.Store) (all [][]store.Row) {
		for _, p := range pages {
			rows, err := s.After(t.Context(), storetest.Crew, int64(p.after), p.limit, p.size)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, append([]store.Row(nil), rows...))
		}
		return all
	}
	s := storetest.Open(t, path)
	for i := range 10 { // more than is kept
		if _, err := s.Append(t.Context(), storetest.Batch(t, fmt.Sprintf("phone%c", 'a'+i), 500)); err != nil {
			t.Fatal(err)
		}
	}
	fresh := read(s)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	want := read(storetest.Open(t, path))
	for i, p := range pages {
		if !reflect.DeepEqual(fresh[i], want[i]) {
			t.Errorf("after %d, at most %d and %d bytes: %d rows, want %d and the same", p.after, p.limit, p.size, len(fresh[i]), len(want[i]))
		}
	}
}
