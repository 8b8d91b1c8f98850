package site

// Need is something that it takes to judge a group, and that is not known.
type Need struct {
	Field string
	Group string
	What  string
	How   string // to find it

	only func(in Input) bool // whether it is asked; nil for always
}

// needs are what must be known of a group before it may be said to hold.
var needs = []Need{
	{Field: "air_need", Group: "air", What: "the air that the machine takes", How: "Its plate or manual: free air while the valve is open."},
	{Field: "free_air", Group: "air", What: "the compressor's free air", How: "Its plate: delivered or free air, not displacement."},
	{Field: "tank", Group: "air", What: "the compressor's tank", How: "Its plate.", only: func(in Input) bool { return in.Compressor.Free > 0 }},
	{Field: "hose_length", Group: "air", What: "the air hose", How: "Pace it out, all pieces together."},
	{Field: "bore", Group: "air", What: "the bore of the hose", How: "Printed on it: inside diameter.", only: func(in Input) bool { return in.Hose.Length > 0 }},
	{Field: "volts", Group: "power", What: "the volts at the socket", How: "A meter in the socket, best while the machine cuts."},
	{Field: "cord_length", Group: "power", What: "the length of the cord", How: "Pace it out; 0 if there is none."},
	{Field: "size", Group: "power", What: "the size of the cord", How: "Printed on its jacket: AWG or mm².", only: func(in Input) bool { return in.Cord.Length > 0 }},
	{Field: "breaker", Group: "power", What: "the breaker", How: "Printed on its handle. On a generator, its kVA instead.", only: func(in Input) bool { return in.Generator.Rated == 0 }},
	{Field: "duty_points", Group: "duty", What: "the duty cycle", How: "The machine's plate: per cent at a current."},
}

// unknowns are the needs that were not entered.
func (in Input) unknowns() []Need {
	var list []Need
	for _, n := range needs {
		if n.Field == "duty_points" {
			if in.Plate == nil { // of the inlet that the volts pick
				list = append(list, n)
			}
		} else if !in.Given(n.Field) && (n.only == nil || n.only(in)) {
			list = append(list, n)
		}
	}
	return list
}
