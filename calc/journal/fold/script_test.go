package fold

import "testing"

// The expected values of this package's tests are worked by hand from the rules in the
// specification. Rigs, parts and times are invented.

// foldOf folds a script.
func foldOf(s *script) *Fold {
	f := NewFold()
	for _, e := range s.Events {
		f.Add(e, nil, 0)
	}
	return f
}

// sessionOf returns the view of a session of a script, or fails the test.
func sessionOf(s *script, name string) SessionView {
	s.T.Helper()
	v, err := foldOf(s).Session(name)
	if err != nil {
		s.T.Fatal(err)
	}
	return v
}

// entryOf returns the line of an entry.
func entryOf(t testing.TB, v SessionView, name string) SessionLine {
	t.Helper()
	for _, l := range v.Lines {
		if l.ID == id(name) {
			return l
		}
	}
	t.Fatalf("the session has no line %s", name)
	return SessionLine{}
}
