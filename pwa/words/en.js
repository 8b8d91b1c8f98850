// @ts-check
/**
 * All words of the app in English, by key. Short, plain, the trade's own; second
 * person; say what happened and what to do. Numbers carry their units. The words
 * of calculators come from their declarations, those of guides from Markdown.
 */

/** @type {Record<string, string>} */
export const en = {
  "yes": "Yes", "no": "No", "leave": "Leave", "undo": "Undo", "undone": "Undone.",
  "mm": "{n} mm",
  "span.s": "{s} s", "span.min": "{min} min", "span.min-s": "{min} min {s} s", "span.h-min": "{h} h {min} min",
  "manual.first": "Your torch’s manual and local code come first. Try it on scrap.",
  "asset.gone": "this part of the app is not on the phone", "asset.reload": "Load the page again while the server is in reach.",
  "page.gone": "This screen is not on the phone yet. Open it once while the server is in reach.",

  "title.ready": "Ready", "title.cut": "Cut", "title.fix": "Fix", "title.book": "Book", "title.safety": "Safety",
  "title.gate": "May I cut this?", "title.plan": "Cut plan", "title.session": "Session", "title.rigs": "Rigs and sites", "title.rig": "Rig",
  "title.settings": "This phone", "title.sums": "All sums", "title.sum": "Sum", "title.search": "Search", "title.guides": "Guides",
  "title.guide": "Guide", "title.worst-day": "Worst day", "title.glove-test": "Glove test",

  "kept.phone": "On this phone", "kept.server": "On the server", "kept.backup": "Backed up", "kept.waiting": "{n} since {time}",
  "kept.long.phone": "The entries are on this phone.", "kept.long.server": "All entries are on this phone and on the server.",
  "kept.long.backup": "All entries are on this phone, on the server and in a backup.", "kept.long.waiting": "{n} are only here, since {time}.",
  "kept.long.pictures": "Photos still to send: {n}.", "kept.long.heard": "The server last answered {time}.", "kept.long.never": "The server has not answered yet.",

  "offline.ready": "Ready offline: everything here now works with no signal.",
  "offline.no": "This phone could not keep the app for offline use. Reload while the server is in reach.",
  "update.ready": "A new version is here.", "update.take": "Take it",

  "pad.done": "Enter", "pad.units": "Unit", "pad.gauge": "gauge",
  "pad.key.0": "0", "pad.key.1": "1", "pad.key.2": "2", "pad.key.3": "3", "pad.key.4": "4", "pad.key.5": "5", "pad.key.6": "6", "pad.key.7": "7", "pad.key.8": "8", "pad.key.9": "9",
  "pad.key..": ".", "pad.key./": "/", "pad.key.-": "-", "pad.key.back": "⌫", "pad.key.less": "▼", "pad.key.more": "▲",
  "pad.say.0": "0", "pad.say.1": "1", "pad.say.2": "2", "pad.say.3": "3", "pad.say.4": "4", "pad.say.5": "5", "pad.say.6": "6", "pad.say.7": "7", "pad.say.8": "8", "pad.say.9": "9",
  "pad.say..": "point", "pad.say./": "over", "pad.say.-": "and", "pad.say.back": "delete", "pad.say.less": "less", "pad.say.more": "more",
  "writer.done": "Keep",

  "field.optional": " (if known)", "field.empty": "tap to enter", "field.default": "usual", "field.basis": "Usual value {value}: {basis}.",
  "field.add": "Add one", "field.drop": "Remove {value}", "form.fine": "More to set",
  "answer.working": "The sum, step by step", "answer.sources": "What it rests on",

  "ready.gate": "May I cut this?", "ready.gate.ask": "A few taps before any plan.", "ready.gate.at": "Answered {time}.",
  "ready.norig": "Which rig is it for?", "ready.norig.why": "A rig is a machine with its torch and tips. Kerfside needs its amps, its tips and its air pressure, all from the plate and the manual.",
  "ready.addrig": "Enter a rig", "ready.example": "Try with an example rig", "ready.changerig": "change", "ready.whichrig": "Which rig?",
  "ready.set": "What to set", "ready.current": "Current", "ready.tip": "tip {tip}", "ready.pressure": "Air, while it flows", "ready.speed": "Speed", "ready.pace": "Pace",
  "ready.start": "Start", "ready.lean": "torch at {angle} to the work", "ready.standoff": "Standoff", "ready.range": "from {low} to {high}", "ready.whole": "All of the plan, and the sum",
  "ready.begin": "To the cut", "ready.goon": "Go on with the session", "ready.more": "More",
  "ready.bringup": "Bring-up check", "ready.inspect": "Inspect the torch", "ready.sums": "All sums", "ready.guides": "All guides",

  "gate.open": "not asked", "gate.stop": "STOP", "gate.conditions": "conditions", "gate.go": "no stop found",
  "gate.keep": "Keep this answer", "gate.never": "This never says that it is safe. A permit, local code and a competent person decide.",
  "gate.unfinished": "Answer what is still open first.", "gate.note": "May I cut this: {verdict} ({what})",

  "title.pace": "Pace", "pace.how": "Chalk marks one beat apart. Walk the torch along with the beat, arc off, until the hand has it.", "pace.start": "Start the beat", "pace.stop": "Stop the beat", "pace.nospeed": "Enter the planned speed first.",

  "rigs.why": "Machine, torch and tips that go together. Parts of different families or amp ratings never mix.",
  "rigs.line": "{min} to {max}, {tips} tips", "rig.unnamed": "Rig without a name", "rig.edit": "Change this rig",
  "rig.why": "What the plates and the torch manual say. Every figure can be changed later.", "rig.name": "Name", "rig.name.missing": "Give the rig a name, such as the truck it is on.",
  "rig.pressure.fixed": "While air flows. Where: the plate or the torch manual.", "rig.pressure.points": "Pressure at two or more currents, from the machine’s own book, while air flows.",
  "rig.save": "Keep this rig", "rig.saved": "Rig kept.", "rig.also": "Also entered on another phone: {what}. Keep the rig again to settle it.",

  "ready.card": "Truck card to print", "title.rig-card": "Truck card", "card.print": "Print", "card.metal": "Metal", "card.norig": "Enter a rig first: the card is made for one.",
  "card.made": "Made {date}. {calibration}", "card.calibrated": "Calibrated from your own cuts, factor {factor}.", "card.uncalibrated": "Not calibrated: reckoned, not measured.",
  "title.site": "Site", "sites.title": "Sites", "sites.why": "What a place gives: air, hose, cord or generator, height and heat. Saved once, picked with a tap.",
  "site.unnamed": "Site without a name", "site.why": "What this place has. Leave out what you do not know: what is not known is not judged.", "site.name.missing": "Give the site a name, such as the yard or the truck’s own set.",
  "site.save": "Keep this site", "site.saved": "Site kept.", "site.also": "Also entered on another phone: {what}. Keep the site again to settle it.",
  "ready.addsite": "Enter a site", "ready.nosite": "Enter the site to learn what gives out first", "ready.whichsite": "Which site?", "ready.checks": "Will it run here?", "ready.noplace": "no site", "ready.checks.all": "All that was checked, and the sum",
  "check.air": "Air", "check.power": "Power", "check.duty": "Duty", "check.parts": "Parts", "verdict.ok": "ok", "verdict.tight": "tight", "verdict.fails": "fails", "verdict.unknown": "not known",
  "cut.start": "Start arc", "cut.stop": "Stop arc", "cut.counts": "{arc} of arc, {starts} starts", "cut.counts.one": "{arc} of arc, 1 start", "cut.nosession": "The first tap opens a session",
  "cut.norig": "Enter a rig first, or try the example.", "cut.plan": "{current} · {pressure} · {speed} · {pace}",
  "cut.drain.in": "Drain in {time}", "cut.drain.now": "Drain the trap now", "cut.drain.why": "of arc time, on the built-in trap alone; every {every}, common practice",
  "cut.watch.start": "Start fire watch", "cut.watch.end": "End fire watch", "cut.watch.until": "Watch until {time}: {left}", "cut.watch.over": "Fire watch is over",
  "cut.watch.why": "Counts from the last arc; any arc starts it anew. A locked phone may stay silent: set its own alarm too, and name who watches.",
  "cut.watch.begun": "Fire watch begun.", "cut.watch.ended": "Fire watch ended.",
  "cut.listen": "Listen", "cut.listen.stop": "Stop listening", "cut.heard.quiet": "quiet", "cut.heard.arc": "arc", "cut.heard.other": "other noise", "cut.heard.masked": "masked: not counted",
  "cut.listen.note": "The microphone hears the arc’s jet and keeps its time. Nothing is recorded or sent. While an arc is heard, touch is locked: press long to break in.",
  "cut.listen.unsure": "This phone changes its sound by itself: take the time as an estimate.", "cut.listen.no": "The phone did not give its microphone. Allow it for this address, or use the button.",
  "cut.arc.heard": "Arc heard", "cut.heard.kept": "Arc of {time} heard and kept.",
  "cut.drained": "Drained", "cut.part": "Part changed", "cut.reading": "Reading", "cut.tried": "How was the cut?", "cut.note": "Note", "cut.later": "Arc time by hand", "cut.pace": "Pace",
  "cut.parts": "In the torch", "cut.part.worn": "{arc} of arc, {starts} starts since fitted", "cut.whole": "All entries of this session", "cut.end": "End session", "cut.ended": "Session ended.",

  "cut.photo": "Photo", "entry.photo.done": "Photo kept.", "said.photo": "Photo", "entry.photo.show": "Show it large",
  "picture.unread": "This picture cannot be read.", "picture.unread.hint": "Take one with the phone’s camera, or choose a JPEG or PNG.",
  "picture.unkept": "The phone’s store did not take the picture.", "picture.unkept.hint": "Free some space on the phone, then keep it again.",
  "picture.gone": "The large picture is on the phone that took it, or on the server: sync both, then look again.",
  "title.photo-gauge": "Photo gauge", "gauge.how": "Lay the tip beside something of known width, both edges at one height. Hold the camera square above it, as near as it sees sharp.",
  "gauge.cold": "Only with the machine unplugged and the tip out and cold.", "gauge.object": "What lies beside the tip", "gauge.width": "Its width",
  "gauge.take": "Take the photo", "gauge.choose": "Choose a picture", "gauge.nowidth": "How wide is it?", "gauge.nowidth.hint": "Enter its width first: a drill’s shank says it, a caliper reads it.",
  "gauge.canvas": "Picture to mark. Arrow keys move the chosen mark, Enter sets one in the middle, n chooses the next, plus and minus zoom.",
  "gauge.end": "Mark one side of it: {object}", "gauge.tilt.mark": "Mark the camera’s tilt too", "gauge.narrow": "Mark both ends of the coin’s other way across, square to the first: {n} of 2", "gauge.tilted": "The camera looked on {tilt} off square.", "gauge.goon": "Go on with your picture: {n} marks", "gauge.otherend": "Mark its other side, straight across", "gauge.bore": "Touch the middle of the bore", "gauge.rim": "Mark the bore’s rim, all around: {n} of {of}", "gauge.enough": "{n} marks", "gauge.unclear": "{n} marks, but they tell no size yet: see below", "gauge.reads": "{n} marks: {largest} and {smallest}. More make it surer",
  "gauge.next": "Next mark", "gauge.closer": "Closer", "gauge.wider": "Wider", "gauge.left": "Mark to the left", "gauge.right": "Mark to the right", "gauge.up": "Mark up", "gauge.down": "Mark down",
  "gauge.give": "give or take {error}", "gauge.told": "A {trust} reading. The bore is {shape}.", "gauge.keep": "Keep as reading", "gauge.again": "Another picture", "gauge.kept": "Tip kept: {largest} and {smallest}.",
  "slot.tip-photo": "cutting tip, by photo",
  "entry.drained": "Trap drained {time}.", "entry.part.which": "Which part?", "entry.part.why": "Why did the old one come out?", "entry.part.done": "New {slot} fitted.",
  "entry.reading.which": "Reading of which part?", "entry.reading.done": "Reading kept.", "entry.tried.how": "How was the cut?", "entry.tried.done": "Cut kept: {verdict}.",
  "entry.note": "Note", "entry.note.done": "Note kept.", "entry.later.long": "How long did the arc burn?", "entry.later.starts": "How many starts?", "entry.later.done": "Arc time kept.",
  "entry.removed": "removed", "entry.corrected": "corrected", "entry.here": "only on this phone", "entry.bringback": "Bring it back", "entry.remove": "Remove this entry", "entry.removed.done": "Entry removed.",
  "entry.change.text": "Change the words", "entry.change.time": "It was earlier", "entry.earlier": "{m} min earlier",
  "reading.dmax": "Orifice, largest", "reading.dmin": "Orifice, smallest", "reading.pit": "Pit depth",

  "slot.cup": "shield cup", "slot.tip": "cutting tip", "slot.diffuser": "air diffuser", "slot.electrode": "electrode", "slot.o-ring": "O-ring", "slot.head": "torch head",
  "why.worn": "worn", "why.damaged": "damaged", "why.inspection": "found at inspection", "why.other-size": "other size wanted", "why.lost": "lost", "why.undone": "undone",
  "verdict.good": "good cut", "verdict.too-slow": "too slow", "verdict.too-fast": "too fast", "verdict.did-not-sever": "did not sever",
  "result.good": "good", "result.worn": "worn", "result.change": "change it", "result.unsure": "cannot tell", "result.done": "done", "result.not-done": "not done", "result.fail": "failed",
  "metal.mild-steel": "Mild steel", "metal.stainless": "Stainless", "metal.aluminium": "Aluminium", "metal.copper": "Copper", "metal.brass": "Brass", "metal.cast-iron": "Cast iron", "metal.galvanised": "Galvanised",

  "session.untitled": "Session", "session.open": "open", "session.since": "Open since {time}", "session.was": "{from} to {to}", "session.arc": "Arc time", "session.starts": "Starts", "session.cuts": "Cuts judged",
  "session.rename": "Name it", "session.reopen": "Open again", "session.entries": "Entries",
  "book.more": "More", "book.rigs": "Rigs and sites", "book.settings": "This phone", "book.export": "Export all", "book.exported": "Saved as {name}.", "book.guides": "Guides",
  "book.sessions": "Sessions", "book.none": "No session yet. The first tap on the arc button opens one.", "book.older": "Older ones", "book.line": "{arc} of arc, {starts} starts, {entries} entries",

  "said.opened": "Session opened", "said.closed": "Session ended", "said.set": "Named {what}", "said.arc": "Arc {time}, {starts} starts", "said.arc.running": "Arc running, or forgotten", "said.arc.started": "Arc started", "said.arc.stopped": "Arc stopped",
  "said.fitted": "New {slot} fitted", "said.pulled": "Old part out: {why}", "said.reading": "Reading: {what}", "said.dmax": "largest {d}", "said.dmin": "smallest {d}", "said.pit": "pit {d}",
  "said.drained": "Trap drained", "said.filter": "Filter changed", "said.tried": "Cut: {verdict}", "said.guide": "Guide: {guide}", "said.check": "{step}: {result}", "said.cleared": "Failed check cleared",
  "said.fault": "Seen: {symptom}", "said.found": "It was: {cause}", "said.mended": "Mended {how}", "said.watch": "Fire watch of {time} begun", "said.watch.ended": "Fire watch ended",

  "sums.find": "Find a sum", "sum.clear": "Clear the form", "sum.cleared": "Form cleared.", "sum.unknown": "There is no sum called {name}.",
  "search.find": "What are you looking for?", "search.none": "Nothing by these words. Try the trade’s own: tip, dross, clamp, drain.",
  "guides.cards": "Quick cards", "guides.line": "{when} About {min} min.", "guide.call": "Your number", "guide.cleared": "Check cleared.",

  "fix.see": "What do you see?", "fix.several": "Pick all that is true.", "fix.go": "Look for it: {n} signs", "fix.go.one": "Look for it: 1 sign", "fix.signs": "Change the signs",
  "fix.service": "Stop here. This is for a qualified person: have it serviced.", "fix.none": "None of the known causes fits well. Look at the torch part by part, or have the machine serviced.",
  "fix.act": "{cause}: {odds}. Mend this first.", "fix.check": "Most likely so far: {cause}, {odds}.", "fix.next": "Next check", "fix.takes": "Takes about {min} min.", "fix.show": "Show how", "fix.skip": "Cannot do this now", "fix.undo": "Take back the last answer",
  "fix.likely": "What it can be", "fix.why": "Why {cause}, and what to do", "fix.for": "Speaks for it: {what}.", "fix.against": "Speaks against it: {what}.", "fix.it": "It was this; mended",
  "fix.judgement": "How often each cause shows each sign is the authors’ judgement; your crew’s own confirmed faults move it.",
  "fix.known": "Reckoned with: {what}.", "fix.known.tip_minutes": "{min} min of arc on the tip", "fix.known.electrode_minutes": "{min} min on the electrode", "fix.known.drain_minutes": "{min} min since the trap was drained",
  "fix.known.past": "{metal} {thickness}, past the plan’s clean limit", "fix.metal.other": "It was not {metal} {thickness}", "fix.metal.plan": "It was {metal} {thickness}, as planned", "fix.known.failed": "{n} inspection steps answered worn or change",
  "fix.found": "It was something else", "fix.gone": "It went away", "fix.another": "Start afresh", "fix.openfaults": "Not settled yet", "fix.what": "What was it?", "fix.logged": "Logged: {cause}.", "fix.fitted": "New {slot} fitted", "fix.wentaway": "Logged: it went away.",

  "settings.units": "Units", "settings.units.metric": "Metric", "settings.units.us": "US", "settings.look": "Look", "settings.look.system": "As the phone", "settings.look.sun": "Sun", "settings.look.night": "Night",
  "settings.hand": "Bar for the", "settings.hand.left": "Left hand", "settings.hand.right": "Right hand", "settings.glove": "Ten-tap glove test",
  "settings.times": "Times", "settings.drain": "Drain every {min} min of arc", "settings.drain.ask": "Drain every how many minutes of arc?", "settings.drain.why": "On the built-in trap alone, 20 to 30 min is common practice, no published source.",
  "settings.watch": "Fire watch of {min} min", "settings.watch.ask": "How many minutes of fire watch?", "settings.watch.why": "At least 30 min by 29 CFR 1910.252; 60 min by NFPA 51B (2019). The longer of standard and local rule holds.",
  "settings.minutes.wrong": "{text} min is outside {low} to {high}. Nothing was changed.",
  "settings.calls": "Who to call", "settings.calls.why": "Shown on the card for the worst day.", "settings.calls.none": "tap to enter a number", "settings.calls.ask": "Emergency number",
  "settings.kept": "Where the entries are", "settings.sync": "Sync now", "settings.import": "Import a file", "settings.imported": "{added} entries added, {known} were here already, {refused} refused.",
  "settings.persist.yes": "The phone has promised to keep them.", "settings.persist.no": "The phone may clear them if its disk runs full: sync or export now and then.",
  "settings.repair": "Repair the app", "settings.repair.why": "Fetches the app anew. Entries are not touched.", "settings.repair.do": "Fetch the app anew", "settings.repair.offline": "The server is out of reach. The app stays as it is.",
  "settings.safety": "Safety", "settings.safety.text": "Kerfside never replaces the machine’s manual, local codes, a hot-work permit or a licensed electrician.",

  "glove.why": "Tap the field ten times with the glove you work in. Dry leather often does not register on glass at any size.", "glove.none": "If nothing counts, use a stylus or a bare knuckle, or a headset button: play and Enter work as the arc button.",
  "glove.good": "Ten taps in {s} s. This glove works on this glass.", "glove.skip": "Back to Ready",
};
