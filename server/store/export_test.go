package store

import "fmt"

// LimitPages makes the store's disk as small as that many pages.
func LimitPages(s *Store, pages int) error { return LimitPagesOf(s.Access, pages) }

// LimitPagesOf does it for what works beside a server.
func LimitPagesOf(a *Access, pages int) error {
	var got int
	return a.write.QueryRow(fmt.Sprintf(`PRAGMA max_page_count = %d`, pages)).Scan(&got)
}

// FilterOf puts each list into a filter of its own, all on one shelf, as they are
// read back from the disk.
func FilterOf(lists [][]string) (may func(id string, list int) bool) {
	var s *shelf
	for _, list := range lists {
		f := newFilter(len(list))
		for _, id := range list {
			f.add(hashOf(id))
		}
		f = readFilter(f.bytes())
		if s == nil {
			s = &shelf{bits: make([]uint16, 8*len(f))}
		}
		s.put(f)
	}
	return func(id string, list int) bool { return s.may(hashOf(id))>>list&1 == 1 }
}
