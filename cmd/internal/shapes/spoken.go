package shapes

// What Go's types do not say of their JSON is said here.

// renamed gives a type another name on the phone, by its own or by package and name.
var renamed = map[string]string{
	"problem.Error": "Trouble",
	"problem.Kind":  "TroubleKind",
	"Record":        "EventRecord", // TypeScript has a Record and a Promise
	"Promise":       "Promised",
	"Answer":        "StepAnswer", // the sums' is form.Answer
}

// closed are the types of words whose constants are all the words that there are.
var closed = map[string]bool{
	"diagnose.Hands": true,
	"form.Kind":      true,
	"form.Owner":     true,
	"listen.State":   true,
	"problem.Kind":   true,
	"store.Role":     true,
}

// custom says how the JSON of a type reads that writes it by itself.
var custom = map[string]string{
	"Stamp": "string",
	"Chain": "string",
	"Drawn": "[mm: number, text: string]",
}

// null says of fields whether they may be null where that is not as their type has it: a
// pointer may, a list and a map may not.
var null = map[string]bool{
	"RejectedEvent.error": false,
	"Folded.arc":          true, // while more events follow
	"Folded.rungs":        true,
	"RefusedLine.error":   false,
	"Unfolded.error":      false,
}

// overridden says what stands in a field that Go keeps as JSON or as any value. A key is the type's name on the phone with the field.
var overridden = map[string]string{
	"Answer.results":     "R",
	"Answer.parts":       "{ [N in CalculatorName]?: Answer<Results[N]> }",
	"Drawing.params":     "Record<string, number | string>",
	"Fields.fields":      "Record<string, string | number | boolean | Body>",
	"Folded.views":       "Partial<Views>",
	"SessionLine.wall":   "[ms: number, offset: number] | null",
	"SessionLine.body":   "Body",
	"StepAnswer.body":    "Body",
	"PartNow.fields":     "Body",
	"PartNow.reading":    "Body | null",
	"Correction.set":     "Body | null",
	"JobCut.row":         "Body | null",
	"JobSession.planned": "Body | null",
	"JobPhoto.body":      "Body",
	"JobTried.body":      "Body",
}

// answered says what a call returns where Go says less.
var answered = map[string]string{
	"stops-so-far": "Answer<Pick<Results[\"may-i-cut\"], \"stop\">>",
}

// stale reports what is said here of types and fields that there are no more.
func (d *declarations) stale() {
	for _, table := range []map[string]string{renamed, custom, overridden} {
		for key := range table {
			if !d.spoken[key] {
				d.trouble("nothing is called %s any more: see spoken.go in cmd/internal/shapes", key)
			}
		}
	}
	for _, table := range []map[string]bool{null, closed} {
		for key := range table {
			if !d.spoken[key] {
				d.trouble("nothing is called %s any more: see spoken.go in cmd/internal/shapes", key)
			}
		}
	}
}
