package fold

// sameness joins ids that mean one thing. The least id of those joined stands
// for all, whichever way and in whatever order they were joined.
type sameness map[string]string

// join makes a and b one.
func (s sameness) join(a, b string) {
	a, b = s.of(a), s.of(b)
	if a != b {
		s[max(a, b)] = min(a, b)
	}
}

// of returns the id that stands for id. What it passes on the way points there at
// once from then on, so that a chain of thousands is walked once.
func (s sameness) of(id string) string {
	least := id
	for next, ok := s[least]; ok; next, ok = s[least] {
		least = next
	}
	for id != least {
		id, s[id] = s[id], least
	}
	return least
}
