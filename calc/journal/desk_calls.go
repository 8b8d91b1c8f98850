package journal

// byID is the input of calls about one thing.
type byID struct {
	ID string `json:"id"`
}

func (d *Desk) session(in byID) (SessionView, error) { return d.fold.Session(in.ID) }

func (d *Desk) part(in byID) (Part, error) { return d.fold.Part(in.ID) }

func (d *Desk) parts(struct{}) (any, error) {
	return struct {
		Parts []Part `json:"parts"`
	}{d.fold.Parts()}, nil
}

func (d *Desk) book(in struct {
	Before string `json:"before"`
	Limit  int    `json:"limit"`
}) (Book, error) {
	return d.fold.Book(in.Before, in.Limit), nil
}

func (d *Desk) hash(struct{}) (any, error) {
	hash, err := d.fold.Hash()
	return struct {
		Hash   string `json:"hash"`
		Events int    `json:"events"`
	}{hash, d.fold.Len()}, err
}

func (d *Desk) request(in struct {
	Meta   Meta     `json:"meta"`
	Unsent []Record `json:"unsent"`
	Now    int64    `json:"now"`
}) (Request, error) {
	return NextRequest(in.Meta, in.Unsent, in.Now), nil
}

func (d *Desk) apply(in Exchange) (Change, error) { return Apply(in), nil }
