// Package guides reads the Markdown guides: what to do, step by step, with
// what good, worn and spent look like. This comment is the specification of
// the format; whoever writes well and knows the trade can add a guide by
// adding one file to this folder.
//
// # A guide
//
// One file is one guide. Its name without ".md" is the guide's id: lower-case
// letters, digits and hyphens. Journals and links keep the id, so a file is
// never renamed once released.
//
// The file starts with one "#" heading, the title, and then a list of header
// fields, one "- Label: words" each:
//
//	When     when to use it, one line
//	Takes    about how long, as "10 min"
//	Place    ready, cut, fix, book or safety: where the app lists it
//	Form     steps (one step a screen, the default) or card (all on one page)
//	Search   words people look for, with commas: synonyms of the trade
//	Source   what the guide as a whole rests on; may stand more than once
//
// Paragraphs between the header and the next heading say what the guide is
// about. A heading "## Cautions" with a list holds what must be said before
// the first step; every guide has one.
//
// # A step
//
// Every other "##" heading is a step. It ends in its id, "{#tip-edge}", unique
// in the guide and never changed once released. Under the heading stand, in
// this order:
//
//  1. cautions as a quote ("> …"), if the hand is about to move into danger;
//  2. what to do: paragraphs, lists, a table;
//  3. the step's fields, one list, nothing after it.
//
// The fields of a step:
//
//	Good looks like   |
//	Worn looks like   | a look: all three, in words that compare with things
//	Change when       | everyone knows
//	Go on when        | or a pass and a fail: both
//	Stop when         |
//	Why               why it matters, one line
//	Part              cup, tip, diffuser, electrode, o-ring or head
//	Drawing           name key=value … | what the drawing shows, in words
//	Reading           key | label | quantity | unit; may stand more than once
//	Answers           which answers it takes, with commas
//	Source            what the step rests on, or the words
//	                  "common practice, no published source"
//
// A sentence has 18 words at most, up to a point, a colon or a semicolon: it is
// read at arm's length with gloves on. Search, Drawing, Reading, Answers and Source
// are free of that.
//
// Why and Source are required, and so is one of the two kinds of judgement.
// Without Answers a look takes good, worn, change and unsure, a pass and fail
// takes done and not-done. The words of fields are plain: no bold, no links.
//
// A Source names rules, standards and books as package source lists them, with
// a clause where that helps: "29 CFR 1910.147(d)(5)". Its standing follows,
// "(from memory)" or "(second-hand)", and is that of the list; the first that
// follows counts, up to a semicolon or the end of the sentence.
//
// A step in which a hand goes to the torch's head has a Part, or says what the
// hand does. It stands behind make-dead, taken in as below, or begins with the
// one caution, safety.MadeDead. A card may have that among its Cautions.
//
// Drawings are the ones listed in drawings.go, with the parameters listed
// there. A reading whose key is also a parameter of the drawing redraws it to
// what was read. A value written with a tilde, "new=~1", is only an example: it
// falls as soon as something was read, so that no measured value is ever shown
// beside an invented one.
//
// # Taking in another guide
//
// A "##" heading that is nothing but a link to a guide, by that guide's title
// and with nothing under it, stands for all steps of that guide:
//
//	## [Make the torch dead](make-dead.md)
//
// So what has to be done in one way everywhere is written once. The steps keep
// their ids and are steps of both guides, each with its own answers in the
// journal; search finds them in the guide where they are written. Takes counts
// them along. Until they are answered as done, the phone leads from each step
// with a Part behind them back to them. A card neither takes in a guide nor is taken in, and a guide that
// takes in another is not taken in itself.
//
// Links go to other guides as files, "[the pierce](pierce.md)" or
// "[the lean](pierce.md#lean)", or inside the guide as "[the tip](#tip-edge)",
// and to calculators by name and title, "[Piece weight](sum:piece-weight)" or
// "[the sum](sum:piece-weight)".
// Raw HTML, images and other links are refused.
//
// # Example
//
//	# Look at the cup
//
//	- When: before every session
//	- Takes: 2 min
//	- Place: ready
//	- Search: retaining cap, outer nozzle
//	- Source: common practice, no published source
//
//	The cup holds the stack together and lets the cooling air through.
//
//	## Cautions
//
//	- Machine off, plug out, air bled.
//
//	## Air holes {#air-holes}
//
//	> Spatter is sharp. Keep the glove on.
//
//	Hold the cup up to the sky and look through each hole.
//
//	- Good looks like: light through every hole, like a clean salt shaker
//	- Worn looks like: a hole half shut by spatter
//	- Change when: a hole stays shut after you cleared it
//	- Why: shut holes let the torch run hot
//	- Part: cup
//	- Drawing: cup-face holes=8 clogged=~2 | two of eight holes are shut
//	- Reading: clogged | Holes shut | count | pcs
//	- Source: common practice, no published source
//
// # On the phone
//
// Each guide becomes one JSON document, the shape of [Guide]; the fields
// named html there are made by goldmark with raw HTML off and may be inserted
// as they are, everything else is plain text. [Library.IndexJSON] lists the
// guides; [Library.SearchJSON] is the word index described at [SearchIndex].
package guides
