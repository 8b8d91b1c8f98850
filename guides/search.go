package guides

import (
	"slices"
	"strings"
	"unicode"
)

// SearchIndex finds steps by their words, offline and in one small file.
//
// Words are folded the same way here and on the phone (pwa/guide/search.js;
// testdata/guides/words.txt holds both to it): lower case; split at everything
// but letters and digits; a plural s falls (not
// after s or i, nor in words under four letters); from the left, the longest phrase of
// Same (of up to three words) becomes the first word of its group; words of one
// letter and the words of Skip fall.
type SearchIndex struct {
	Same  [][]string       `json:"same"`  // each group: words for one thing
	Skip  []string         `json:"skip"`  // words too common to tell steps apart
	Docs  []SearchDoc      `json:"docs"`  // what can be found
	Words map[string][]int `json:"words"` // folded word → docs, as doc·8 + weight
}

// SearchDoc is one guide (Step empty) or one step written in it.
type SearchDoc struct {
	Guide string `json:"guide"`
	Step  string `json:"step,omitempty"`
	Title string `json:"title"`
}

// How much a word weighs by where it stands; the place with the most weight
// counts. A bit each would be too fine: 1 to 7 fit in three bits.
const (
	inText      = 1
	inLook      = 2
	inStepTitle = 4
	inTerms     = 5
	inTitle     = 7
)

func newSearchIndex(all []*Guide) *SearchIndex {
	ix := &SearchIndex{Same: same, Skip: skip, Docs: []SearchDoc{}, Words: map[string][]int{}}
	for _, g := range all {
		ix.add(SearchDoc{Guide: g.ID, Title: g.Title}, map[int]string{
			inTitle: g.Title,
			inTerms: strings.Join(g.Terms, " . "),
			inText:  g.When + " . " + g.bodyText,
		})
		for _, st := range g.Steps {
			if st.included {
				continue
			}
			ix.add(SearchDoc{Guide: g.ID, Step: st.ID, Title: st.Title}, map[int]string{
				inStepTitle: st.Title,
				inLook:      strings.Join([]string{st.Slot, st.Good, st.Worn, st.Change, st.Pass, st.Fail}, " . "),
				inText:      st.doText + " . " + st.Why,
			})
		}
	}
	return ix
}

func (ix *SearchIndex) add(doc SearchDoc, texts map[int]string) {
	n := len(ix.Docs)
	ix.Docs = append(ix.Docs, doc)
	best := map[string]int{}
	for weight, text := range texts {
		for _, w := range Words(text) {
			best[w] = max(best[w], weight)
		}
	}
	for w, weight := range best {
		ix.Words[w] = append(ix.Words[w], n*8+weight)
	}
}

// Words folds text into the words that are searched for.
func Words(text string) []string {
	split := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	for i, w := range split {
		split[i] = singular(w)
	}
	return slices.DeleteFunc(unify(split), func(w string) bool {
		return len([]rune(w)) < 2 || slices.Contains(skip, w)
	})
}

// singular drops a plural s: "holes", but not "brass", "gas" or "chassis".
func singular(w string) string {
	if len([]rune(w)) < 4 || !strings.HasSuffix(w, "s") || strings.HasSuffix(w, "ss") || strings.HasSuffix(w, "is") {
		return w
	}
	return w[:len(w)-1]
}
