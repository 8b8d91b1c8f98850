package shapes

import (
	"encoding/json"
	"go/types"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/unit"
)

// One type of each sort, as it is to be told.
func TestTyped(t *testing.T) {
	field := func(name string, of types.Type) *types.Var { return types.NewField(0, nil, name, of, false) }
	row := types.NewStruct([]*types.Var{field("ID", types.Typ[types.String]), field("N", types.Typ[types.Int64]), field("Own", types.Typ[types.Bool]), field("hidden", types.Typ[types.Int]), field("Off", types.Typ[types.Bool])},
		[]string{`json:"id"`, `json:"n,omitempty"`, "", "", `json:"-"`})
	for _, test := range []struct {
		of   types.Type
		want string
	}{
		{types.Typ[types.Float64], "number"},
		{types.NewSlice(types.Typ[types.String]), "string[]"},
		{types.NewSlice(types.Typ[types.Byte]), "string"},
		{types.NewArray(types.Typ[types.Int64], 2), "[number, number]"},
		{types.NewMap(types.Typ[types.String], types.NewSlice(types.Typ[types.Int])), "Record<string, number[]>"},
		{types.NewInterfaceType(nil, nil), "unknown"},
		{row, "{ id: string; n?: number; Own: boolean }"},
		{types.NewStruct([]*types.Var{field("At", types.NewPointer(row))}, []string{`json:"at"`}), "{ at: { id: string; n?: number; Own: boolean } | null }"},
	} {
		d := newDeclarations(&source{})
		if got := d.typed(test.of); got != test.want || d.err() != nil {
			t.Errorf("typed(%s) = %s, %v; want %s", test.of, got, d.err(), test.want)
		}
	}
	d := newDeclarations(&source{})
	if d.typed(types.NewChan(types.SendRecv, types.Typ[types.String])); d.err() == nil {
		t.Error("a channel has no JSON, and that is not said")
	}
}

// Of two fields with one key the shallower one counts, and of two at one depth none.
func TestEmbedded(t *testing.T) {
	plain := func(name string) *types.Var { return types.NewField(0, nil, name, types.Typ[types.String], false) }
	embed := func(name string, of *types.Struct) *types.Var {
		return types.NewField(0, nil, name, types.NewNamed(types.NewTypeName(0, nil, name, nil), of, nil), true)
	}
	first := types.NewStruct([]*types.Var{plain("Title"), plain("Rig"), plain("Site")}, nil)
	second := types.NewStruct([]*types.Var{plain("Site"), plain("Fields")}, nil)
	both := types.NewStruct([]*types.Var{embed("First", first), embed("Second", second), plain("Rig")}, nil)
	type First struct{ Title, Rig, Site string }
	type Second struct{ Site, Fields string }
	said, err := json.Marshal(struct {
		First
		Second
		Rig string
	}{})
	if err != nil {
		t.Fatal(err)
	}
	var keys map[string]string
	if err := json.Unmarshal(said, &keys); err != nil {
		t.Fatal(err)
	}
	shown := visible(both, "Both")
	if len(shown) != len(keys) {
		t.Errorf("%d fields, encoding/json writes %s", len(shown), said)
	}
	for _, m := range shown {
		if _, ok := keys[m.key]; !ok {
			t.Errorf("%s is told, encoding/json writes %s", m.key, said)
		}
	}
}

// A result that some answer lacks is optional; a table has the columns that were seen.
func TestResults(t *testing.T) {
	declaration := form.Declaration{Name: "try", Make: func() form.Calculator {
		return form.Calculator{Title: "Try", About: "Tries", Fields: []form.Field{{Key: "n", Label: "N", Takes: form.Count()}},
			Results: []form.Result{
				{Key: "length", Label: "Length", Gives: form.Number[unit.Length]("mm", "in")},
				{Key: "verdict", Label: "Verdict", Gives: form.OneOf("ok", "Holds", "fails", "Does not hold")},
				{Key: "rows", Label: "Rows", Gives: form.Rows("name", "Name")},
			},
			Run: func(r *form.Reader, a *form.Answer) error {
				if n := form.GetCount(r, "n"); n > 1 {
					form.Put(a, "length", unit.Metre)
				}
				a.PutWord("verdict", "ok")
				row := a.NewRow()
				row.PutWord("name", "tip")
				row.PutYes("worn", true)
				a.PutRows("rows", []*form.Row{row})
				return nil
			}}
	}}
	one := calculator{declared: declaration.Calculator()}
	for _, n := range []string{`{"n": 1}`, `{"n": 2}`} {
		a, err := one.declared.Calculate([]byte(n))
		if err != nil {
			t.Fatal(err)
		}
		one.answers = append(one.answers, a)
	}
	got := one.results("TryResults")
	for _, want := range []string{"length?: Value;", "/** Length, m */", `verdict: "ok" | "fails";`, "rows: { name: string; worn: boolean }[];"} {
		if !strings.Contains(got, want) {
			t.Errorf("%s\nlacks %s", got, want)
		}
	}
}
