package guides

import "testing"

func TestShipped(t *testing.T) {
	lib, err := Load(Files)
	if err != nil {
		t.Fatal(err)
	}
	steps := 0
	for _, g := range lib.guides {
		steps += len(g.Steps)
	}
	t.Log(len(lib.guides), steps, len(lib.SearchJSON()))
	b, _ := lib.JSON("torch-inspection")
	t.Log(string(b[:1500]))
}
