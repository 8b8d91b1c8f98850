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
	{"air_need", "air", "the air that the machine takes", "Its plate or manual: free air while the valve is open.", nil},
	{"free_air", "air", "the compressor's free air", "Its plate: delivered or free air, not displacement.", nil},
	{"tank", "air", "the compressor's tank", "Its plate.", func(in Input) bool { return in.Compressor.Free > 0 }},
	{"hose_length", "air", "the air hose", "Pace it out, all pieces together.", nil},
	{"bore", "air", "the bore of the hose", "Printed on it: inside diameter.", func(in Input) bool { return in.Hose.Length > 0 }},
	{"volts", "power", "the volts at the socket", "A meter in the socket, best while the machine cuts.", nil},
	{"cord_length", "power", "the length of the cord", "Pace it out; 0 if there is none.", nil},
	{"size", "power", "the size of the cord", "Printed on its jacket: AWG or mm².", func(in Input) bool { return in.Cord.Length > 0 }},
	{"breaker", "power", "the breaker", "Printed on its handle. On a generator, its kVA instead.", func(in Input) bool { return in.Generator.Rated == 0 }},
	{"duty_points", "duty", "the duty cycle", "The machine's plate: per cent at a current.", nil},
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
