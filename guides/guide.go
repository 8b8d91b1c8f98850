package guides

// HTML is markup made by goldmark with raw HTML off: paragraphs, lists, tables,
// emphasis and links to other guides. It may be inserted as it stands.
type HTML string

// Guide is one guide as the phone gets it.
type Guide struct {
	ID       string   `json:"id"`
	Title    string   `json:"title"`
	When     string   `json:"when"`
	About    HTML     `json:"about"`
	Place    string   `json:"place"`
	Form     string   `json:"form"`
	Minutes  int      `json:"minutes"`
	Terms    []string `json:"terms"`
	Cautions HTML     `json:"cautions"`
	Sources  []string `json:"sources"`
	Steps    []Step   `json:"steps"`
	Taken    []Taken  `json:"taken,omitempty"`

	file     string
	line     int
	links    []link
	includes []include
	bodyText string // cautions and about as plain words, for the search index
}

// Step is one screen of a guide. Either Good, Worn and Change are set or Pass
// and Fail.
type Step struct {
	ID       string    `json:"id"`
	Title    string    `json:"title"`
	Caution  HTML      `json:"caution,omitempty"`
	Do       HTML      `json:"do"`
	Good     string    `json:"good,omitempty"`
	Worn     string    `json:"worn,omitempty"`
	Change   string    `json:"change,omitempty"`
	Pass     string    `json:"pass,omitempty"`
	Fail     string    `json:"fail,omitempty"`
	Why      string    `json:"why"`
	Drawing  *Drawing  `json:"drawing,omitempty"`
	Readings []Reading `json:"readings,omitempty"`
	Answers  []string  `json:"answers"`
	Slot     string    `json:"slot,omitempty"`
	Source   string    `json:"source"`

	line     int
	doText   string // caution and do as plain words, for the search index
	included bool   // written in another guide
}

// Taken is a guide that was taken in: its title and its steps, in order. What
// has a Part and stands behind them waits for them.
type Taken struct {
	Title string   `json:"title"`
	Steps []string `json:"steps"`
}

// Drawing names one of our line drawings with its parameters; Text says in
// words what it shows here.
type Drawing struct {
	Name    string         `json:"name"`
	Params  map[string]any `json:"params"`            // numbers and words
	Example []string       `json:"example,omitempty"` // parameters that fall once something was read
	Text    string         `json:"text"`
}

// Reading is a value that the step asks for.
type Reading struct {
	Key      string `json:"key"`
	Label    string `json:"label"`
	Quantity string `json:"quantity"`
	Unit     string `json:"unit"`

	// Scale makes the journal's whole number of a value in Unit: µm, Pa, ms,
	// mA, mV or pieces.
	Scale float64 `json:"scale"`
}

// The answers a step can take.
const (
	Good    = "good"
	Worn    = "worn"
	Change  = "change"
	Unsure  = "unsure" // the person cannot tell
	Done    = "done"
	NotDone = "not-done"
)

// look and gate are the answers a step takes when it names none.
var (
	look = []string{Good, Worn, Change, Unsure}
	gate = []string{Done, NotDone}
)

// Step returns the step of that id, or nil.
func (g *Guide) Step(id string) *Step {
	for i := range g.Steps {
		if g.Steps[i].ID == id {
			return &g.Steps[i]
		}
	}
	return nil
}
