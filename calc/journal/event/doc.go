// Package event holds what a crew did: a set of small events that never
// change, and everything that is computed from it. A phone writes an event for
// each tap; phones and server exchange events until all hold the same set; what
// is on the screen is a fold, a pure function of the set. Two phones that hold
// the same set show the same bytes.
//
// This comment is the specification. The server (server/sync.go,
// server/store), the phone's storage (pwa/journal) and this package keep to it.
// Nothing here reads a clock, a disk or a network.
//
// # Event
//
// An event is one JSON object in UTF-8: at most 16 KiB, at most 8 levels deep,
// no byte below 0x20 outside the escapes of a string (so that it stands on one
// line), no top-level key twice. Further down, of two equal keys of an object the
// last counts, for Go as for a browser. It is kept and passed on byte for byte;
// these bytes are called raw.
//
//	{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","wall":[1760731116544,60],"device":"phone-a","kind":"note.added","v":1,"in":"S7d2mKx0PqLw9Zr4Tt1uVg","body":{"text":"tip changed"}}
//
//	id      22 characters base64url: 128 random bits
//	t       stamp of the phone's clock, 16 lower-case hex digits, not all 0 (see Clock)
//	wall    [ms since 1970 UTC, offset from UTC in minutes] as the phone showed
//	        it; for display, and for the time between two taps of one phone; optional
//	device  id of the phone that wrote it
//	kind    what happened, "family.verb"
//	v       1; rises only when the meaning of a kind changes
//	in      id of the session in which it was tapped; optional
//	about   id of the thing it is about (session, part, rig, site, job, stock
//	        line, fault, device); optional unless the table below asks for it
//	at      ms since 1970 UTC: when it happened, if it is entered later; optional
//	over    id of the event whose value this one knowingly replaces; optional
//	body    object; times in ms, lengths in µm, counts as integers
//
// device, kind, in, about and over have 1 to 64 letters, digits, dots, dashes or
// underscores. Ids of things are made like ids of events.
//
// Other top-level keys, unknown kinds and a v above 1, which a newer version of the
// app entered, are kept, synced and exported; the fold lists them in their session
// and counts nothing, for what they mean is not known here: a newer void hides
// nothing. A screen says of them that a newer version entered them. The body of any
// event may hold anything. One that lacks what its kind needs is listed with a
// warning and counts nothing. No entry changes how another is listed.
//
// When an event happened is at, if it has one that is not later than its stamp,
// else the time in o. Its place in the order is (when, o, t, id); without at
// that is (o, t, id). o is the stamp that the server confirmed:
// o = min(t, server's now) at the first receipt, kept for ever. Until then a
// phone takes o = t.
//
// Same id with other bytes: the server's stand everywhere. A phone enters its
// own again, the value of id in raw replaced by the first 22 characters of
// base64url(SHA-256(raw)): "nt2vDeGMCoDaTsAWdkVrlx" for the event above. So every copy of
// a cloned phone makes the same new event.
//
// # Clock
//
// A stamp is 48 bits of milliseconds and 16 bits of counter in 16 hex digits;
// it sorts as text. Stamp(last, wall, offset):
//
//	now = wall + offset                     offset = server minus phone at the last sync
//	now > last.ms           → (now, 0)
//	else last.counter < max → (last.ms, last.counter + 1)
//	else                    → (last.ms + 1, 0)
//
// A negative now counts as 0 and one above 2^48 − 1 as 2^48 − 1. The clock
// never refuses a tap. After a sync a phone with nothing unsent sets last to the
// highest o it knows, else to the later of last and that o. A phone whose clock
// ran ten years ahead is thereby mended once its events are at the server.
// testdata/journal/clock.json holds vectors that Go and JavaScript both run.
//
// # Kinds
//
// An event of kind "erased" is part of the set and shown nowhere.
//
// Session means the key in (for session.* the key about). Body keys marked ?
// may be left out. Text is any string. A rig missing in the body is the rig of
// the session.
//
//	rig.set site.set job.set line.set   about; body: fields, null removes one
//	setting.set       about = device; body: fields
//	same              about; body {as}: both ids mean one thing
//	session.opened    about = session; body {rig, title?, site?, job?, …fields}
//	session.closed    about = session; body {…fields}
//	session.set       about = session; body: fields
//	arc.started       in; body {rig}
//	arc.stopped       in; body {of: id of the arc.started, starts?: pilot starts, default 1}
//	arc.run           in; body {rig, start: ms, stop: ms, starts?}: by hand or heard
//	part.fitted       about = part; body {slot, rig, line?: stock line it came from, …fields}
//	part.pulled       about = part; body {why, rig?}
//	part.reading      about = part; body {dmin?, dmax?, pit? in µm, …}
//	trap.drained      body {rig}
//	filter.changed    body {rig}
//	cut.tried         body {rig?, metal, thickness µm, amps, pressure Pa, speed µm/s, verdict}
//	note.added        body {text}
//	photo.added       body {sha256, bytes, w, h, thumb}
//	guide.opened      body {guide}
//	check.answered    body {guide, step, result, slot?, part?, readings?, rig?, site?, says?, by?, …}
//	check.cleared     body {of: id of the failed check.answered, why?}
//	fault.seen        about = fault; body {symptom, signs?: [all that was seen], rig?, …}
//	fault.found       about = fault; body {cause, …}
//	fault.mended      about = fault; body {how?, …}
//	watch.started     body {ms: how long to watch after the last arc, rig?}
//	watch.ended       body {of: id of the watch.started}
//	stock.moved       about = line; body {n: pieces, negative for out, why?}
//	stock.counted     about = line; body {n: pieces there are}
//	amend             in of the target; body {of, set: {field: value, null removes}, why?}
//	void              in of the target; body {of, on: true hides, false brings back, why?}
//
// What void hides keeps its bytes, and its picture, on every phone and the
// server, so that it can be brought back; only an erasure takes them out.
//
// The key at in set corrects when the target happened; no body has a key of
// that name. The results that count as a failed check are "fail", "change" and
// "not-done"; each stays until a check.cleared names it. Only these folds use
// when: arcs, parts, drains, counts and the lists of a session; registers use
// (o, t, id).
//
// What may-i-cut told is a check.answered of the guide "may-i-cut", with the rig
// and the site in use and, if a session was open, in. Each stop is one of result
// "fail": step is the stop's key, says what it is, by who may clear it. A gate
// without a stop is one of step "asked" and result "go" or "conditions".
// answers holds the words that were picked, by question. A gate without in
// belongs to the first session that is opened for its rig within 12 h after it.
//
// Arcs of a rig are a set of intervals: arc time is the length of their union,
// starts of intervals that overlap count as the largest. An arc from start to
// stop lasts as long as wall showed, if one phone tapped both, else from when to
// when; of several stops the first counts. A stretch of arc belongs whole to the
// parts that were in and to the drain that was last when it began. The field
// drainEvery of a rig, 1200000 to 1800000 ms, is the arc time between two drains
// of its trap; 20 min without it (common practice, no published source).
//
// A field holds text, a number, true or false; name, title, rig, site and job hold
// text. Any other value, and an at in set that is no time, is passed over with a
// warning as if it had not been entered. A fault is called what the first fault.seen
// says that names a sign, and its cause is what the last fault.found says that names
// one.
//
// A value of a field that lost against another is shown in also unless it came
// from the same phone, or is the same, or an event that sets that field names it
// in over.
//
// # Wire
//
// POST /api/journal/sync carries JSON lines both ways, each ended by "\n". The
// first line of a request is its head, then count lines of events, oldest
// first: raw as it is, or {"o":"…","raw":RAW} for an event that once had an o
// from a server.
//
//	{"proto":1,"crew":"N0sD1w2aRtY7uIo9PqLm3g","now":1760731116600,"gen":0,"at":{"n":0,"h":"00000000000000000000000000000000"},"gone":"","early":"","count":1}
//	{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","wall":[1760731116544,60],"device":"phone-a","kind":"note.added","v":1,"in":"S7d2mKx0PqLw9Zr4Tt1uVg","body":{"text":"tip changed"}}
//
//	proto  1
//	crew   id of the crew; a phone without one asks nothing, and an older one
//	       that sends "" is told it in the reply
//	now    the phone's clock in ms, for the log
//	gen    how often this replica was rewound
//	at     the cursor: arrivals up to n are here, h is the chain at n
//	gone   the list of erasures that this phone has followed, as the server named it; ""
//	       for none, left out by an app that knows of no erasures
//	early  "" to begin with early arrivals, else early.next of the last reply; left out
//	       by a phone that wants none
//	marks  only while rewinding: [{n,h}, …] that the phone holds, ascending; count is then 0
//	count  how many event lines follow; if another number comes, nothing is stored (cut)
//
// The reply has a head, a line for each event pushed, then the arrivals after
// at.n, with a mark after each 100 and at the end of the page:
//
//	{"proto":1,"crew":"N0sD1w2aRtY7uIo9PqLm3g","now":1760731116700,"max":1,"backedUp":0}
//	{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","n":1,"o":"0199f3c0b4000000"}
//	{"n":1,"o":"0199f3c0b4000000","id":"Qk3vZ0mJ8cW1xT5rLb2hYA","sum":"9eddaf0de18c0a80da4ec01676456b971b6b02fea7a0730c126a5935475bf9d9"}
//	{"n":1,"h":"2bf3474b71340c9f19a9e7aa6ea08c53"}
//
// An arrival is {"n","o","raw"}, or {"n","o","id","sum"} if this request
// brought these very bytes. A pushed event whose id the server holds with other
// bytes is answered {"id","n","o","taken":true}. The head may also say
// "sameDisk": the highest n in a backup on the database's own disk (that of
// backedUp lies on another); "behind": ms by which the server's wall clock is behind what it has stored,
// and "want": [ids] of events whose bytes went bad on its disk and that a phone
// is asked to send once more.
// After marks in the request the head carries "rewound":{"n","h"}, the highest
// of them that the server holds, or n 0, and nothing follows.
//
// An owner can have an event erased. Its bytes are replaced everywhere by a stub,
// an event of kind "erased" that keeps id, t and device; n, o, sum and the chain
// stay. Such an arrival is {"n","o","raw":STUB,"sum","erased":true,"photo"?}: the
// chain goes on with sum, which is that of the former bytes, and photo is the
// sha256 of a picture that goes with it, if no entry that is left names it too.
// The reply's head names the list of all
// erasures ("gone", a hash); if the request named another, "erased" in the head is
// the number of lines of that form that stand before the arrivals, one for each
// erased event up to at.n. The phone puts the stubs in the place of its records,
// drops the pictures, and remembers the name once it has read all these lines.
// The server's list alone erases: an event of kind "erased" that a phone brings
// has no effect. A pushed event whose bytes are on the list, or whose bytes are
// those under which one of the list would be entered again, is answered as if it
// were stored, and its stub is. An app that sends no gone is handed the arrivals
// before the first erased one only.
//
// A phone that is new asks for early arrivals before it takes in the journal from its
// first arrival on: of the newest 20,000 those of the last 31 days, and of the rest
// what still counts for today (StandingOf), each from the newest back and bounded, and
// the entries of sessions that were left open. The reply's head then has
// "early":{"next","count","h"}: so many arrivals, of any numbers above the cursor,
// stand before those after it, which are left out until there are no more early ones.
// h is the chain over the early ones alone, with n and a dot before the id. They are
// taken in if all came and fit h; then the phone asks with next. Once there are no
// more, the replies bring with each page what arrived since the phone began, which is
// asked for until the cursor is where the journal ended then. Early arrivals are
// records with an n above the cursor as any: the arrivals bring them once more, and
// what they say counts. The server may lay out next as it likes. A head without early,
// or with one that has no next, says that there are none for this phone: it lacks a page at most, or the server is
// an earlier one.
//
// GET /api/journal/news?after=N is answered 200 {"max":N} as soon as the crew's
// newest arrival is not N, which is at once if it is not now, and 204 when that has
// not come to pass within 55 s. It tells that a sync is worth while and brings
// nothing itself. A phone asks with its cursor when a sync has come to its end; an
// earlier server answers 404.
//
// n numbers the arrivals of a crew without gap. The chain is
// h(n) = SHA-256(h(n−1) ‖ id ‖ o ‖ sum)[:16], written in hex; h(0) is 16 zero
// bytes; id and o are their ASCII text, sum is the 32 bytes of SHA-256(raw).
//
// Limits: a first line of 512 KiB, at most 500 events and 1 MiB up, 1000 events and 1 MiB down, as
// many early ones beside, and always at least one. A line has at most 64 bytes around its event; a longer one
// is refused unread, here and in an import. Errors are {"error":{kind,field,msg,hint,retry}}, of
// kinds malformed, cut, too-large, no-token, revoked, wrong-crew, rewound,
// old-app, slow-down, busy, disk-full. A refusal whose field is "head" blames
// the first line: no event is put aside for it.
//
// # The phone's stores
//
// One database for each crew: "kerfside" is the journal of a phone without crew,
// "kerfside-" and the crew's id that of a crew. Events of the first that have
// neither n nor o move over when the phone joins; what was once in a crew stays
// in its database.
//
// Store event, key id: {id, raw, t, o?, n?, l, unsent?: 1 or 2, aside?: {kind, msg}}.
// Indexes: unsent, n, l. To send is what has unsent 1. n above meta.cursor is a
// promise of the server's that a later reply may take back. l is the local
// change number: each insert or change takes meta.nextL and raises it in the
// same transaction. unsent 2 and aside mark an event that the server would not
// have: it is still folded and exported, and gets unsent 1 again after an update
// of the app.
//
// What has no n is kept a second time where a browser may drop all its databases
// at once, in storage buckets named "unsent-…": database kerfside, store event
// {id, raw, t, o?, db: name of the database it is a copy of}, and in store meta
// under "whose" {crew, device}. See pwa/journal/README.md.
//
// Store meta, one record. Go's are the fields up to coming, whose new values
// journal-apply returns; the phone's are the others.
//
//	crew      ""          id of the crew, "" in the local journal
//	cursor    0           highest arrival that is here with all before it
//	head      "000…0"     chain at cursor, 32 hex digits
//	marks     []          [{n,h}, …] ascending
//	gen       0           raised at each rewound
//	turn      0           raised at each applied reply and failure
//	rewinding false       the next request sends marks
//	rewinds   []          times of the last rewinds, server's ms
//	maxO      ""          highest o known
//	offset    0           server minus phone, ms
//	max       0           the server's highest n, as last heard
//	backedUp  0           the highest n in a backup on another disk
//	sameDisk  0           the highest n in a backup on the server's own disk
//	heard     0           server's time of the last good reply, ms
//	batch     500         how many events the next request may carry
//	strikes   0           how often a request with a single event came back cut
//	fails     0           failures since the last success
//	pullOnly  false       the server takes nothing now (disk-full, slow-down): the next request brings nothing
//	gone      ""          the list of erasures that was followed
//	stopped   null        {kind,msg,hint}: why sync waits for a person, else null
//	wait      0           seconds that the server asked us to wait, else 0
//	early     ""          what to ask for early arrivals with; "-" for not at all
//	coming    0           older entries are still to come until the cursor is here; 0 if all
//	                      came that was there when the phone began
//	clock     "000…0"     last stamp given, 16 hex digits (the phone stamps)
//	device    id of this phone
//	arc       {rig: {"id","start","in"}}: running arcs; nothing for a rig at rest
//	session   null        the open session, as in view now
//	gate      null        as in view now; null before this app's first fold
//	watch     null        as in view now; null before this app's first fold
//	unwatched []          watches that a tap has ended or removed, each with by: that tap, "" if removed; the latest few
//	since     {}          rigs, sites, parts, drains and settled faults that were entered here
//	                      since the fold was last at its end (pwa/journal/since.js)
//	lastArc   null        {"rig","in","at"}: when an arc of this phone went off last
//	arcAt     {}          {rig: ms}: when a tap last changed its arc, by the phone's clock
//	nextL     1
//	count     {}          {"nextL","unsent","aside"}: how many events have unsent 1 and 2, as long
//	                      as its nextL is that of meta; else to be counted anew
//	build     ""          build of the app that last ran here
//	ladder    ""          random name, new with each write to snapshot
//	home      ""          local journal only: the crew that this phone is in
//	joining   null        local journal only: a join under way, see pwa/journal/crew
//	crews     []          local journal only: the crews that this phone was ever in
//	left      false       a crew's journal only: this phone has left that crew
//
// A missing field counts as the value shown.
//
// Store snapshot, key name: {name, fold, l, data}, the fold's rungs; one with
// empty data counts as not there. Store view,
// key name: {name, fold, l, data}.
//
// Store photo, key sha256: {sha256, type, bytes}, and under the key "waiting"
// one record {gen, list: [{sha256, event, tried?}], refused: [{sha256, event,
// why}]} of the pictures that the server lacks, oldest first. Under the key "seen"
// stand those of other phones that were looked at, {list: [{sha256, size}]},
// oldest first: the app keeps no more than 50 MB of them. Under the keys "draft"
// and "draft-marks" stands the picture that is being marked and is no entry yet,
// so that a phone that dies loses nothing of it. thumb of a photo.added is a data
// address of at most 4096 characters, sha256 the hash of the bytes in hex. When
// the server has that event, PUT /api/photos/SHA256 brings the bytes; HEAD comes
// first after a try that broke off, and for all of them when meta.gen has risen.
//
// # Calls
//
// The worker's wasm makes one Engine and passes it each call by name. Input and
// output are JSON; errors are {"error":{…}}.
//
// journal-restore, once at the start, with all records of snapshot:
//
//	in  {"rungs":[{"name","fold","l","data"}]}
//	out {"fold":3,"l":0,"stale":[names to delete]}
//
// fold is the version of fold and views; rungs and views of another version are
// to be passed over. l: all changes up to it are in the rungs. Read the events
// above it and pass them to journal-fold. Without snapshots l is 0.
//
// journal-fold, at the start, after each broadcast and after each sync, with
// the event records above the last l, in any order, in portions of about 1000:
//
//	in  {"events":[{"raw","o"?,"n"?,"l"}],"more":false,"keep":false,"device":id}
//	out {"fold":3,"l":57,"views":{"now":{…},"book":{…}},"arc":{…},"rungs":[…],"refused":[{"l","error"}]}
//
// With more true nothing but l and refused comes back: call on. views holds the
// views that differ from those last returned; after journal-restore the first
// fold returns all. rungs are to be put into snapshot when it is not empty,
// which is after about each 100 changes, or at once with keep true (no news for a
// while); rungs is null when there are none. arc is what belongs into meta.arc
// if nextL has not moved meanwhile: for each rig the running arc of an open
// session, this device's before another's.
//
// journal-session {"id"} → view session; journal-book {"before": session id,
// "limit"?} → older entries of view book; journal-part {"id"} and journal-parts
// {} → parts with their readings; journal-hash {} → {"hash": 64 hex digits,
// "events": count}, equal on phones that hold the same set.
//
// journal-request, with meta, all records of index unsent (1 and 2) and the
// phone's time:
//
//	in  {"meta":{…},"unsent":[{"id","raw","t","o"?}],"now":ms}
//	out {"body":"…lines…","sent":["id",…]}    or {"skip":{"kind","msg","hint"}}
//
// skip comes only if meta.stopped says that two servers share this name.
// Otherwise post body as it is, with Content-Type application/x-ndjson, and read
// the reply as text, whatever its status, then
//
// journal-apply, with what was read for the request, and promised, read in that same
// transaction: the records whose n is above meta.cursor by at most 1000, and one of
// the highest n, if that is above the cursor:
//
//	in  {"meta":{…},"unsent":[…],"promised":[{"id","n"}],"sent":["id",…],
//	     "status":200,"retryAfter":0,"reply":"…","sentAt":ms,"gotAt":ms}
//	out {"meta":{changed fields},"forget":n?,"put":[{"id","raw","t","o"?,"n"?}],
//	     "ack":[{"id","n","o"}],"unsend":["id"],"aside":[{"id","error":{…}}],
//	     "drop":[sha256],"again":true,"waitMs":0,"say":{kind,msg,hint}|null,"in":3,"out":1}
//
// status 0 with reply "" is a failure of the network, or with "timeout":true a
// reply that did not come in time. Then one strict transaction over event and
// meta: if cursor, gen or turn in the store are not those passed in, drop
// everything and begin again. Else, in this order,
//
//	forget  every record with n above it loses n and gets unsent: 1
//	put     insert, or replace raw, t, o, n of the record with that id; unsent: 1 if it
//	        brings no n, else no unsent; no aside. If a record exists with other raw
//	        than is put and its id was not in unsent, abort and begin again with all
//	        such records among unsent too
//	ack     n and o of that record; no unsent
//	unsend  no n, unsent: 1; an id that is not here is passed over
//	aside   aside = error; no n, unsent: 2
//	drop    delete these of store photo, in the same transaction, unless a record
//	        that is left tells of them
//
// each changed record takes a new l; then the fields of meta; then, if no record
// has unsent, clock = maxO, else clock = the later of clock and maxO (by text).
// again: there is more to do, repeat at once. waitMs: after a failure, the upper
// end of the next pause; the phone takes a random part of it, at least wait
// seconds. say: what to tell the person. in and out count events moved.
//
// journal-check {"raw"} → {"id","t","kind","in","about"} or the error: what may
// be entered. journal-export {"events":[records],"crew","device","now"} →
// {"text","name"}; journal-import {"text"} → {"events":[{"id","raw","t","o"?,
// "else":{"id","raw"}}],"refused":[{"line","error"}]}: enter each without n; if
// the phone holds that id with other bytes, enter else in its place.
//
// # Views
//
// Times are ms since 1970 UTC, 0 for never (and for the first ms of 1970, which the
// fold itself tells apart); arc times are ms. starts counts
// pilot starts. An id is repeated so that a screen can link. check lists
// warnings: [{"what": word, "id": event, "msg": text}].
//
// fields below stands for "fields":{name: value}, "by":{name: event id} (give it
// as over when replacing the value), "also":[{"field","value","id","device",
// "at"}] (entered at the same time by someone who had not seen the other).
//
//	now      {"session":null|SESSION,"open":[session ids, newest first],
//	          "rigs":[{"rig","name","ms","starts","lastArc":end of the last arc,
//	            "drain":{"every","ms":arc time since the last drain,"at","due":ms left},
//	            "filter":{"at","ms"},
//	            "parts":[{"part","slot","at":fitted,"ms","starts","line","fields","reading":{…}|null,"readAt","readMs":arc time then,"check"}]}],
//	          "watch":[{"id","in","rig","device","ms","from":last arc's end or the start,"ends","running"}, the one that ends last first, at most 20 and those that run],
//	          "fails":[{"id","guide","step","result","slot","in","at"}],
//	          "gate":{"stops":[{"id","step","says","by","rig","site","in","at"}, not cleared, oldest first],"asked":[{"rig","verdict","id","in","at"}, the last for each rig]},"faults":[{"id","seen":id of the fault.seen,"symptom","signs","cause","in","rig","at"}],"found":{cause: count},"check"}
//	SESSION  {"id","title","rig","site","job","open","opened","closed","ms","starts","arcs","cuts","entries","fails"}
//	book     {"sessions":[SESSION, newest first, at most 25],"total"}
//	session  SESSION and fields and {"entries":[{"id","kind","v","about","at","t","o","n","wall","device","body",
//	          "void":false,"history":[{"id","at","device","set"?,"on"?,"why"}],
//	          "arc":{"start","stop","ms","starts","running"}?,"cleared":id?,"how":what was done?,"check"}],"check"}, entries oldest first
//	rigs     {"rigs":[{"id",fields}],"sites":[…],"jobs":[…]}
//	stock    {"lines":[{"id",fields,"n","counted":when,"differs":count minus what was expected then,"again":true if below 0}]}
//	settings {"devices":{device: {fields}}}
//	guides   {"progress":[{"guide","in","opened","last","steps":{step:{"result","id","at","device","body"}},"fails":[ids]}]}
//
// A duration so far of a running arc is the screen's to compute, from start.
package event
