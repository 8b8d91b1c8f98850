package exchange

// RequestHead is the first line of a request.
type RequestHead struct {
	Proto int    `json:"proto"`
	Crew  string `json:"crew"`
	Now   int64  `json:"now"`
	Gen   int64  `json:"gen"`
	At    Mark   `json:"at"`
	Marks []Mark `json:"marks,omitempty"`
	// ErasuresDigest names the list of erasures that the phone has followed; nil from an
	// app that knows of none.
	ErasuresDigest *string `json:"gone,omitempty"`
	// Early asks for early arrivals: "" to begin, else what the last of them came with;
	// nil from a phone that needs none, or knows of none.
	Early *string `json:"early,omitempty"`
	Count int     `json:"count"`
}

// ReplyHead is the first line of a reply.
type ReplyHead struct {
	Proto          int      `json:"proto"`
	Crew           string   `json:"crew"`
	Now            int64    `json:"now"`
	Max            int64    `json:"max"`
	BackedUp       int64    `json:"backedUp"`
	SameDisk       int64    `json:"sameDisk,omitempty"`
	Behind         int64    `json:"behind,omitempty"`
	Rewound        *Mark    `json:"rewound,omitempty"`
	Resend         []string `json:"want,omitempty"`   // ids whose bytes went bad on the server's disk
	ErasuresDigest string   `json:"gone,omitempty"`   // names the server's list of erasures
	Erasures       int      `json:"erased,omitempty"` // how many rows of it follow

	Early *EarlyHead `json:"early,omitempty"` // of the early arrivals, if it asked for them and needs them
}
