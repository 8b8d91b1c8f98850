package store

// How much of the newest of a journal is kept in memory: what phones that sync
// at the same time hand to each other. Only a few crews are that busy at once.
const (
	recentRows  = 4000
	recentBytes = 1 << 20 // of events
	recentCrews = 8
)

// recent is the newest stretch of a crew's journal, up to its newest arrival.
// Its rows never change, so that readers may hold them.
type recent struct {
	rows  []Row
	bytes int
}

// add appends arrivals that were committed and lets go of the oldest.
func (r *recent) add(rows []Row) {
	r.rows = append(r.rows, rows...)
	for _, row := range rows {
		r.bytes += len(row.Raw)
	}
	drop := 0
	for ; len(r.rows)-drop > recentRows || r.bytes > recentBytes; drop++ {
		r.bytes -= len(r.rows[drop].Raw)
	}
	r.rows = r.rows[drop:]
}

// after returns at most limit of the arrivals after n and at most size bytes of
// events, one at least; false if the first of them is not here.
func (r *recent) after(n int64, limit, size int) ([]Row, bool) {
	if len(r.rows) == 0 || n+1 < r.rows[0].N {
		return nil, false
	}
	i := int(n + 1 - r.rows[0].N)
	if i >= len(r.rows) {
		return nil, false
	}
	list := r.rows[i:min(i+limit, len(r.rows))]
	for i, row := range list {
		if size -= len(row.Raw); size < 0 && i > 0 {
			list = list[:i]
			break
		}
	}
	return list[:len(list):len(list)], true
}

// remember keeps the arrivals of a commit; call it with mu held.
func (s *Store) remember(crew string, rows []Row) {
	r := s.recent[crew]
	if r == nil {
		for other := range s.recent { // the order of a map is random
			if len(s.recent) < recentCrews {
				break
			}
			delete(s.recent, other)
		}
		r = &recent{}
		s.recent[crew] = r
	}
	r.add(rows)
}

// remembered is After for what has just come.
func (s *Store) remembered(crew string, n int64, limit, size int) ([]Row, bool) {
	s.mu.RLock()
	defer s.mu.RUnlock()
	r, ok := s.recent[crew]
	if !ok {
		return nil, false
	}
	return r.after(n, limit, size)
}
