package fold

import "testing"

func TestRegisters(t *testing.T) {
	s := (&script{T: t}).
		Add("a", 0, "rig.set", `{'name':'North','amps':40}`, about("rig-1")).
		Add("b", 5, "rig.set", `{'name':'North truck'}`, about("rig-1"), device("phone-b")).
		Add("c", 6, "rig.set", `{'amps':45}`, about("rig-1"), device("phone-b"), supersedes(id("a")))
	got := foldOf(s).Things().Rigs[0]
	if string(got.Fields.Fields["name"]) != `"North truck"` || string(got.Fields.Fields["amps"]) != `45` || got.By["amps"] != id("c") {
		t.Errorf("fields = %+v", got.Fields)
	}
	if len(got.Also) != 1 || got.Also[0].Field != "name" {
		t.Errorf("also = %+v, want the name alone: c named the amps of a as replaced", got.Also)
	}
	s = (&script{T: t}).
		Add("a", 0, "rig.set", `{'name':'North'}`, about("rig-1")).
		Add("b", 5, "rig.set", `{'name':'North truck'}`, about("rig-1"), device("phone-b"))
	if got := foldOf(s).Things().Rigs[0]; len(got.Also) != 1 || got.Also[0].ID != id("a") || string(got.Also[0].Value) != `"North"` {
		t.Errorf("also = %+v, want the value that b had not seen", got.Also)
	}
	s.Add("d", 9, "rig.set", `{'name':null}`, about("rig-1"), supersedes(id("b")))
	if got := foldOf(s).Things().Rigs[0]; got.Fields.Fields["name"] != nil || got.By["name"] != id("d") {
		t.Errorf("after null: %+v", got.Fields)
	}
}
