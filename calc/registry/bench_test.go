package registry

import "testing"

// BenchmarkCalculate times each calculator on its first vector that has an
// answer, from JSON to answer, as the phone and the server call it.
func BenchmarkCalculate(b *testing.B) {
	for _, c := range All() {
		for _, v := range load(b)[c.Name] {
			if v.Fail != nil {
				continue
			}
			b.Run(c.Name, func(b *testing.B) {
				for b.Loop() {
					if _, err := Calculate(c.Name, v.Input); err != nil {
						b.Fatal(err)
					}
				}
			})
			break
		}
	}
}
