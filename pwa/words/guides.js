// @ts-check
/**
 * What the screens of a guide say that does not stand in the guide itself, in English. It comes with
 * these screens; say and sayKnown find it then like all other words.
 */
import { learn, sayIfKnown } from "./words.js";

/** @type {Record<string, string>} */
export const guides = {
  "guide.cover": "Before you start", "guide.end": "Done", "guide.place": "Step {n} of {of}",
  "guide.start": "Start", "guide.resume": "Go on at step {n}", "guide.back": "Step back", "guide.next": "Next step", "guide.on": "Next", "guide.finish": "Finish", "guide.close": "Close",
  "guide.speak": "Read aloud", "guide.hush": "Stop reading",
  "guide.first": "First: {title}", "guide.manual-first": "Your torch’s manual and local code come first.", "guide.print": "Print this guide",
  "guide.calls": "Who to call", "guide.no-calls": "No numbers are entered on this phone. 112 reaches the emergency services in much of the world. Most mobiles take it even where the local number is another. Enter your own now, while nothing is wrong.", "guide.enter-calls": "Enter numbers",
  "guide.sources": "Where this comes from", "guide.source": "Source", "guide.see": "What do you see?", "guide.gauge": "Read it off a photo", "guide.why": "Why",
  "guide.sizes": "Your tip: {fresh} new · change at {limit}", "guide.sizes.read": "{fresh} new · {now} now · change at {limit}", "guide.not-read": "not read yet", "guide.measured": "as read", "guide.read.photo": "Read from the photo, {time}", "guide.read.hand": "Read at {time}", "guide.drawn": "The drawing is an example.", "guide.example": "An example: {text}",
  "guide.steps": "Steps", "guide.topics": "What happened?", "guide.card": "On this card",
  "guide.todo": "To do before the arc", "guide.open": "Not answered", "guide.fitted": "Fitted a new one", "guide.show-step": "Show the step",
  "guide.count": "{n} of {of|step|steps} answered.", "guide.count.all": "All {of|step|steps} answered.", "guide.count.clear": "Nothing to change. All {of|step|steps} answered.",

  // What cleared a failed check, as its entry says.
  "guide.cleared.answer": "answered again", "guide.cleared.part": "new part",

  // What a step asks for, by the key of its judgement or answer; after an answer, what to do.
  "guide.judgement.good": "Good", "guide.judgement.worn": "Worn", "guide.judgement.change": "Change when", "guide.judgement.pass": "Go on when", "guide.judgement.fail": "Stop when",
  "guide.answer.good": "good", "guide.answer.worn": "worn", "guide.answer.change": "change it", "guide.answer.unsure": "cannot tell", "guide.answer.done": "done", "guide.answer.not-done": "not done",
  "guide.advice.worn": "Still usable. Look again at the next session.",
  "guide.advice.change": "Change it before the next arc.",
  "guide.advice.unsure": "Hold it beside a new one. If you still cannot tell, take it as spent: the part costs less than the cut.",
  "guide.advice.not-done": "Do not go on to the arc until this is done.",

  // A look at something that is no part, such as a cut, is not changed but put right.
  "guide.no-part.judgement.worn": "Not quite", "guide.no-part.judgement.change": "Put right when",
  "guide.no-part.answer.worn": "not quite", "guide.no-part.answer.change": "put it right",
  "guide.no-part.advice.worn": "Good enough to go on. Look again at the next one.",
  "guide.no-part.advice.change": "Put it right before the next arc.",
  "guide.no-part.advice.unsure": "Try it on scrap, change one thing, and look again.",
};
learn(guides);

/**
 * The words for something about a step, those for parts if it is about one; "" if there are none.
 * @param {"judgement"|"answer"|"advice"} what
 * @param {string} key @param {string} [slot]
 */
export function sayOfStep(what, key, slot) {
  return (slot ? "" : sayIfKnown(`guide.no-part.${what}.${key}`)) || sayIfKnown(/* judgement | answer | advice */ `guide.${what}.${key}`);
}
