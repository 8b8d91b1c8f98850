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

// custom says how the JSON of a type reads that writes it by itself.
var custom = map[string]string{
	"Stamp": "string",
	"Chain": "string",
	"Sum":   "string",
	"Drawn": "[mm: number, text: string]",
}

// overridden says what stands in a field that Go keeps as JSON or as any value, and
// which lists may be null. A key is the type's name on the phone with the field.
var overridden = map[string]string{
	"Answer.results":   "R",
	"Answer.parts":     "{ [N in CalculatorName]?: Answer<Results[N]> }",
	"Fields.fields":    "Record<string, string | number | boolean>",
	"Folded.views":     "Partial<Views>",
	"SessionLine.wall": "[ms: number, offset: number] | null",
	"SessionLine.body": "Body",
	"StepAnswer.body":  "Body",
	"PartNow.fields":   "Body",
	"PartNow.reading":  "Body | null",
	"PartReading.body": "Body",
	"Correction.set":   "Body | null",
}

// answered says what a call returns where Go says less.
var answered = map[string]string{
	"stops-so-far": "Answer<Pick<Results[\"may-i-cut\"], \"stop\">>",
}
