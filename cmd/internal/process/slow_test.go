package process

import "testing"

// A program takes turns with standing still, and always ends running.
func TestTurns(t *testing.T) {
	var said []string
	end := make(chan struct{})
	rounds := 0
	turns(4, func() { said = append(said, "stop") }, func() {
		said = append(said, "go")
		if rounds++; rounds == 3 {
			close(end)
		}
	}, end)
	if len(said) < 6 || said[0] != "stop" || said[len(said)-1] != "go" {
		t.Errorf("the turns were %v, want stop, go, … ending with go", said)
	}
	for i, word := range said {
		if want := []string{"stop", "go"}[i%2]; word != want {
			t.Errorf("turn %d is %s, want %s", i, word, want)
		}
	}
}
