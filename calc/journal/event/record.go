package event

// Record is one record of the store event.
type Record struct {
	ID     string `json:"id"`
	Raw    string `json:"raw"`
	T      Stamp  `json:"t"`
	O      *Stamp `json:"o,omitempty"`      // nil while no server has given one
	N      int64  `json:"n,omitempty"`      // 0 while the server has not confirmed it
	L      int64  `json:"l,omitempty"`      // local change number
	Unsent int    `json:"unsent,omitempty"` // 1 to be sent, 2 rejected, 0 sent
}

// Values of Record.Unsent.
const (
	ToSend   = 1
	Rejected = 2
)
