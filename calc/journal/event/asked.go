package event

// Asked says how a person is asked for a value, to put it right where it stands. One
// that is not asked for is left as it was entered: the entry can still be removed.
type Asked struct {
	As    As         `json:"as"`
	Words [][]string `json:"words,omitempty"` // of several lists, the one that has the word that stands
	In    string     `json:"in,omitempty"`    // the unit in which it is stored
	Sort  string     `json:"sort,omitempty"`  // a length's: how finely it is told, as calc/unit has it
}

// As is the way in which a value is asked for: in words of one's own, as one of some
// words, as a count, or as what it measures, by the name in calc/unit.
type As string

// Ways.
const (
	Freely   As = "text"
	OneOf    As = "word"
	Counted  As = "count"
	ByLength As = "length"
	ByTime   As = "time"
)

// slots, reasons, verdicts, pauses and results are what a person chooses from.
var (
	slots    = Asked{As: OneOf, Words: [][]string{{"cup", "tip", "diffuser", "electrode", "o-ring"}}}
	reasons  = Asked{As: OneOf, Words: [][]string{{"worn", "damaged", "inspection", "other-size", "lost"}}}
	verdicts = Asked{As: OneOf, Words: [][]string{{"good", "too-slow", "too-fast", "did-not-sever"}}}
	pauses   = Asked{As: OneOf, Words: [][]string{{"air", "cooling", "parts", "marking", "moving", "drain", "other"}}}
	results  = Asked{As: OneOf, Words: [][]string{{"good", "worn", "change", "unsure"}, {"done", "not-done"}}}
	bore     = Asked{As: ByLength, In: "µm", Sort: "bore"}
	pit      = Asked{As: ByLength, In: "µm", Sort: "kerf"}
)

// AskedField is a key of a body that a person is asked for.
type AskedField struct {
	Key string `json:"key"`
	Asked
}

// AskedFields returns by kind what can be put right in entries of it.
func AskedFields() map[string][]AskedField {
	all := map[string][]AskedField{}
	for _, k := range kinds {
		for _, f := range k.Body {
			if f.Asked.As != "" {
				all[k.Name] = append(all[k.Name], AskedField{Key: f.Key, Asked: f.Asked})
			}
		}
	}
	return all
}
