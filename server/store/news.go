package store

import "sync"

// bells are what those wait at who want to hear of a crew. A crew has one only
// while somebody does.
type bells struct {
	mu sync.Mutex
	of map[string]chan struct{}
}

// News returns a channel that is closed when something was committed that phones
// of crew wait for: arrivals, or that one of them was taken out. Take it first and
// look at the state then, and nothing is missed in between.
func (s *Store) News(crew string) <-chan struct{} {
	s.bells.mu.Lock()
	defer s.bells.mu.Unlock()
	bell, ok := s.bells.of[crew]
	if !ok {
		bell = make(chan struct{})
		s.bells.of[crew] = bell
	}
	return bell
}

// ring wakes all who wait to hear of crew.
func (b *bells) ring(crew string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if bell, ok := b.of[crew]; ok {
		close(bell)
		delete(b.of, crew)
	}
}
