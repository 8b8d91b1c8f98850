package layout

import (
	"encoding/json"
	"os"
	"testing"

	"kerfside/calc/problem"
	"kerfside/calc/vector"
)

// TestVectors runs this package's own vector files; package registry runs all.
func TestVectors(t *testing.T) {
	for _, d := range Calculators {
		c := d.Calculator()
		text, err := os.ReadFile("../../testdata/calc/" + c.Name + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		cases, err := vector.Parse(string(text))
		if err != nil {
			t.Fatalf("%s: %v", c.Name, err)
		}
		for _, v := range cases {
			t.Run(c.Name+"/"+v.Name, func(t *testing.T) {
				a, err := c.Calculate(v.Input)
				var reply any = a
				if err != nil {
					reply = problem.Envelope{Error: problem.From(err)}
				}
				b, err := json.Marshal(reply)
				if err != nil {
					t.Fatal(err)
				}
				for _, line := range v.Check(b) {
					t.Errorf("line %d: %s", v.Line, line)
				}
			})
		}
	}
}
