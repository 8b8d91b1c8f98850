package store

import "fmt"

// LimitPages makes the store's disk as small as that many pages.
func LimitPages(s *Store, pages int) error { return LimitPagesOf(s.Access, pages) }

// LimitPagesOf does it for what works beside a server.
func LimitPagesOf(a *Access, pages int) error {
	var got int
	return a.write.QueryRow(fmt.Sprintf(`PRAGMA max_page_count = %d`, pages)).Scan(&got)
}

// Kept is what is kept of backups made at these times.
var Kept = kept
