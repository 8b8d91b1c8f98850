package journal

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

// of returns the id that stands for id.
func (s sameness) of(id string) string {
	for {
		next, ok := s[id]
		if !ok {
			return id
		}
		id = next
	}
}
