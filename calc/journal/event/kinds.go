package event

// kinds are the kinds that this version folds, all of v 1. A body may hold other keys
// too: they are kept, and nothing reads them.
//
// To add one, declare it here. DEVELOPERS.md names the other places. The fold counts each
// of them; where no screen writes one yet, it says for what it is kept.
var kinds = []Kind{
	{Name: "rig.set", About: "rig", Always: true, Fields: true, Lasts: OfThings, Body: []Field{
		{Key: "name", Note: "what the crew calls it", Example: `"North truck"`},
		{Key: "drainEvery", Type: Int, Note: "ms of arc between two drains of its trap", Example: `1500000`},
		{Key: UpkeepField + "TASK", Type: Map, Note: "how often a task of upkeep is due, by its name: the first limit that is reached counts; arc and hours are ms",
			Example: `{"days":90,"arc":36000000,"hours":180000000,"off":false,"name":"Compressor oil"}`},
	}},
	{Name: "site.set", About: "site", Always: true, Fields: true, Lasts: OfThings, Body: []Field{
		{Key: "name", Note: "what the crew calls it", Example: `"Yard"`},
	}},
	{Name: "job.set", About: "job", Always: true, Fields: true, Lasts: OfThings, Body: []Field{
		{Key: "name", Note: "what the crew calls it", Example: `"Gate hinges"`},
		{Key: "customer", Private: true, Note: "in an entry of its own: an export leaves that out unless it is asked for", Example: `"Heron Croft"`},
		{Key: "site", Type: Name, Example: `"site-1"`},
		{Key: "rig", Type: Name, Example: `"rig-1"`},
		{Key: "window", Note: "the time that there is, as it was typed", Example: `"4 h"`},
		{Key: "number", Note: "as it stands on its papers", Example: `"2026-014"`},
		{Key: "tax", Note: "as it was typed", Example: `"20%"`},
		{Key: "billed", Type: Int, Note: "ms since 1970 UTC, when it was", Example: `1760731116544`},
		{Key: QuoteField, Type: Map, Note: "what was quoted last: price in hundredths of the crew's currency, tax in parts per million, valid for so many days",
			Example: `{"number":"2026-014","at":1760731116544,"price":48000,"tax":200000,"days":30,"currency":"EUR","place":"Yard","list":"af63bd4c8601b7df","lines":["1. 3 × 400 mm"],"with":["Fire watch"]}`},
		{Key: CutField + "KEY", Type: Map, Note: "one cut of its list as it was typed; KEY is its own short name, at its place among the others",
			Example: `{"metal":"mild-steel","thickness":"6mm","length":"400mm","count":"3","at":1000}`},
	}},
	{Name: "line.set", About: "line", Always: true, Fields: true, Lasts: OfThings, Body: []Field{
		{Key: "name", Note: "what the stock line is", Example: `"Tip 40 A"`},
		{Key: "slot", Note: "where it fits", Example: `"tip"`},
		{Key: "rating", Note: "for what current, as it was typed", Example: `"45 A"`},
		{Key: "rig", Type: Name, Note: "whose truck it lies in; without it, the shop", Example: `"rig-1"`},
		{Key: "price", Type: Int, Note: "of a piece, in hundredths of the crew's currency", Example: `310`},
		{Key: "least", Type: Int, Note: "pieces, the fewest that the crew wants there", Example: `4`},
	}},
	{Name: "setting.set", About: "device", Fields: true, Lasts: OfThings, Body: []Field{
		{Key: "units", Note: "us or metric", Example: `"us"`},
		{Key: "currency", Note: "about prices: at most 4 letters", Example: `"EUR"`},
		{Key: "tax", Note: "about prices: as it was typed", Example: `"20%"`},
		{Key: "crew_name", Note: "about prices: what the crew calls itself on its papers", Example: `"Osier Ford Repair"`},
		{Key: "quote_days", Note: "about prices: for how many days a quote is valid", Example: `"30"`},
	}},
	{Name: "same", About: "thing", Always: true, Lasts: OfThings, Body: []Field{ // not written yet: two phones that named one thing
		{Key: "as", Type: Name, Need: Must, Note: "both ids mean one thing", Example: `"rig-y"`},
	}},

	{Name: "session.opened", About: "session", Always: true, Fields: true, Lasts: OfWork, Body: []Field{
		{Key: "rig", Type: Name, Example: `"rig-1"`},
		{Key: "title", Example: `"Gate"`},
		{Key: "site", Type: Name, Example: `"site-1"`},
		{Key: "job", Type: Name, Example: `"job-1"`},
		planned,
	}},
	{Name: "session.closed", About: "session", Always: true, Fields: true, Lasts: OfWork, Body: []Field{
		{Key: "title", Example: `"Gate"`},
	}},
	{Name: "session.set", About: "session", Always: true, Fields: true, Body: []Field{
		{Key: "title", Example: `"Gate"`},
		{Key: "rig", Type: Name, Example: `"rig-1"`},
		{Key: "site", Type: Name, Example: `"site-1"`},
		{Key: "job", Type: Name, Example: `"job-1"`},
		planned,
	}},

	{Name: "arc.started", Body: []Field{
		{Key: "rig", Type: Name, Example: `"rig-x"`},
		cutOfArc,
	}},
	{Name: "arc.stopped", Body: []Field{
		{Key: "of", Type: Link, Of: "arc.started", Need: Must, Example: `"arc-x_________________"`},
		{Key: "starts", Type: Int, Need: Checked, Note: "pilot starts, 1 if it is not there", Example: `2`, Asked: Asked{As: Counted}},
	}},
	{Name: "arc.run", Body: []Field{ // entered by hand, or heard
		{Key: "rig", Type: Name, Example: `"rig-x"`},
		{Key: "start", Type: Int, Need: Must, Note: "ms since 1970 UTC", Example: `1760731116544`},
		{Key: "stop", Type: Int, Need: Must, Note: "ms since 1970 UTC", Example: `1760731146544`},
		{Key: "starts", Type: Int, Need: Checked, Note: "pilot starts, 1 if it is not there", Example: `2`, Asked: Asked{As: Counted}},
		cutOfArc,
	}},

	{Name: "cut.done", About: "job", Always: true, Body: []Field{
		{Key: "cut", Need: Must, Note: "KEY of the cut on the job's list", Example: `"k1"`},
		{Key: "n", Type: Int, Need: Checked, Note: "pieces, 1 if it is not there", Example: `2`, Asked: Asked{As: Counted}},
	}},
	{Name: "pause.started", Body: []Field{
		{Key: "rig", Type: Name, Example: `"rig-x"`},
		{Key: "why", Note: "what was waited for or done", Example: `"air"`, Asked: pauses},
	}},
	{Name: "pause.ended", Body: []Field{
		{Key: "of", Type: Link, Of: "pause.started", Need: Must, Example: `"pause-x_______________"`},
	}},

	{Name: "part.fitted", About: "part", Always: true, Fields: true, Lasts: Lasting, Body: []Field{
		{Key: "slot", Need: Must, Note: "where in the torch", Example: `"tip"`, Asked: slots},
		{Key: "rig", Type: Name, Example: `"rig-x"`},
		{Key: "line", Type: Name, Note: "the stock line that it came from", Example: `"line-x"`},
	}},
	{Name: "part.pulled", About: "part", Always: true, Lasts: Lasting, Body: []Field{
		{Key: "why", Example: `"worn"`, Asked: reasons},
		{Key: "rig", Type: Name, Example: `"rig-x"`},
	}},
	{Name: "part.reading", About: "part", Always: true, Body: []Field{
		{Key: "dmin", Type: Int, Note: "µm, smallest width of the bore", Example: `1100`, Asked: bore},
		{Key: "dmax", Type: Int, Note: "µm, largest width of the bore", Example: `1200`, Asked: bore},
		{Key: "pit", Type: Int, Note: "µm, depth of the electrode's pit", Example: `400`, Asked: pit},
		{Key: "error", Type: Int, Note: "µm, how far a width may be off", Example: `30`},
		{Key: "by", Note: "\"photo\" if it was read off one", Example: `"photo"`},
		{Key: "photo", Type: Link, Of: "photo.added", Note: "the one that it was read off", Example: `"photo-x_______________"`},
	}},
	{Name: "trap.drained", Lasts: Lasting, Body: []Field{
		{Key: "rig", Type: Name, Example: `"rig-x"`},
	}},
	{Name: "filter.changed", Lasts: Lasting, Body: []Field{
		{Key: "rig", Type: Name, Example: `"rig-x"`},
	}},
	{Name: "upkeep.done", Lasts: Lasting, Body: []Field{
		{Key: "task", Need: Must, Note: "drain, filter, oil, lead, blow-out, extinguisher or a word of the crew's own", Example: `"oil"`},
		{Key: "rig", Type: Name, Example: `"rig-x"`},
		{Key: "next", Type: Int, Note: "ms since 1970 UTC, the date that stands on the thing", Example: `1792267116544`},
		{Key: "note", Example: `"topped up"`, Asked: Asked{As: Freely}},
	}},

	{Name: "cut.tried", Body: []Field{
		{Key: "rig", Type: Name, Example: `"rig-x"`},
		{Key: "metal", Example: `"mild-steel"`},
		{Key: "thickness", Type: Int, Note: "µm", Example: `6000`, Asked: Asked{As: ByLength, In: "µm", Sort: "plate"}},
		{Key: "amps", Type: Number, Example: `40`},
		{Key: "pressure", Type: Int, Note: "Pa", Example: `400000`},
		{Key: "speed", Type: Int, Note: "µm/s", Example: `8000`},
		{Key: "verdict", Example: `"good"`, Asked: verdicts},
	}},
	{Name: "note.added", Body: []Field{
		{Key: "text", Example: `"tip changed"`, Asked: Asked{As: Freely}},
	}},
	{Name: "photo.added", Body: []Field{
		{Key: "sha256", Note: "of the picture's bytes, hex", Example: `"2c26b46b68ffc68ff99b453c1d30413413422d706483bfa0f98a5e886266e7ae"`},
		{Key: "bytes", Type: Int, Example: `1000`},
		{Key: "w", Type: Int, Note: "pixels", Example: `640`},
		{Key: "h", Type: Int, Note: "pixels", Example: `480`},
		{Key: "thumb", Note: "a small picture as a data address", Example: `"data:image/jpeg;base64,/9j/4AAQSkZJRg=="`},
	}},

	{Name: "guide.opened", Body: []Field{
		{Key: "guide", Need: Must, Example: `"bring-up"`},
	}},
	{Name: "check.answered", Lasts: Lasting, Body: []Field{ // it lasts if it failed: StandingOf
		{Key: "guide", Need: Must, Example: `"bring-up"`},
		{Key: "step", Need: Must, Example: `"clamp"`},
		{Key: "result", Need: Must, Example: `"fail"`, Asked: results},
		{Key: "slot", Example: `"tip"`},
		{Key: "part", Type: Name, Example: `"part-x"`},
		{Key: "readings", Type: Map, Note: "whole numbers by key, as the guide scales them", Example: `{"dmax":1200}`},
		{Key: "rig", Type: Name, Example: `"rig-x"`},
		{Key: "site", Type: Name, Example: `"site-x"`},
		{Key: "says", Note: "what the stop is", Example: `"bare metal"`},
		{Key: "by", Note: "who may clear it", Example: `"you"`},
		{Key: "answers", Type: Map, Note: "the words that were picked, by question", Example: `{"ground":"bare"}`},
		{Key: "took", Type: Int, Note: "ms that the questions of may-i-cut took", Example: `90000`},
	}},
	{Name: "check.cleared", Lasts: Lasting, Body: []Field{
		{Key: "of", Type: Link, Of: "check.answered", Need: Must, Example: `"fail-x________________"`},
		{Key: "why", Example: `"done"`, Asked: Asked{As: Freely}},
	}},

	{Name: "fault.seen", About: "fault", Lasts: Lasting, Body: []Field{
		{Key: "symptom", Example: `"no-arc"`},
		{Key: "signs", Type: Texts, Note: "all that was seen", Example: `["no-arc","hiss"]`},
		{Key: "rig", Type: Name, Example: `"rig-x"`},
	}},
	{Name: "fault.found", About: "fault", Always: true, Lasts: Lasting, Body: []Field{
		{Key: "cause", Example: `"tip-worn"`},
		{Key: "helped", Note: "\"in part\" if something is left of the fault", Example: `"in part"`},
	}},
	{Name: "fault.mended", About: "fault", Always: true, Lasts: Lasting, Body: []Field{
		{Key: "how", Example: `"went away"`, Asked: Asked{As: Freely}},
	}},

	{Name: "watch.started", Body: []Field{
		{Key: "ms", Type: Int, Need: Must, Note: "how long to watch after the last arc", Example: `1800000`, Asked: Asked{As: ByTime, In: "ms"}},
		{Key: "rig", Type: Name, Example: `"rig-x"`},
	}},
	{Name: "watch.ended", Body: []Field{
		{Key: "of", Type: Link, Of: "watch.started", Need: Must, Example: `"watch-x_______________"`},
	}},

	{Name: "stock.moved", About: "line", Always: true, Lasts: Lasting, Body: []Field{
		{Key: "n", Type: Int, Need: Must, Note: "pieces, negative for out", Example: `-2`},
		{Key: "why", Example: `"used"`},
	}},
	{Name: "stock.counted", About: "line", Always: true, Lasts: Lasting, Body: []Field{
		{Key: "n", Type: Int, Need: Must, Note: "pieces there are", Example: `8`},
	}},

	{Name: "amend", Lasts: Lasting, Body: []Field{
		{Key: "of", Type: Link, Need: Must, Note: "the target; in is that of the target", Example: `"odd-x_________________"`},
		{Key: "set", Type: Map, Note: "fields and their values, null removes one", Example: `{"text":"tip new"}`},
		{Key: "why", Example: `"slip"`},
	}},
	{Name: "void", Lasts: Lasting, Body: []Field{
		{Key: "of", Type: Link, Need: Must, Note: "the target; in is that of the target", Example: `"odd-x_________________"`},
		{Key: "on", Type: Flag, Note: "true hides, false brings back", Example: `true`},
		{Key: "why", Example: `"slip"`},
	}},
}

// CutField begins the fields of a job that are the cuts of its list, and UpkeepField those
// of a rig that say how often a task of upkeep is due. QuoteField is what was quoted for a
// job.
const (
	CutField    = "cut."
	UpkeepField = "upkeep."
	QuoteField  = "quote"
)

// planned and cutOfArc stand in bodies of two kinds.
var (
	planned = Field{Key: "planned", Type: Map, Note: "what was planned at its start, in whole s: cuts by their KEY",
		Example: `{"elapsed":7200,"low":6000,"high":9000,"cuts":{"k1":{"n":3,"arc":90,"arcLow":80,"arcHigh":100,"starts":3,"elapsed":600,"low":500,"high":800}}}`}
	cutOfArc = Field{Key: "cut", Note: "KEY of the cut that it belongs to, on the list of the session's job", Example: `"k1"`}
)
