// @ts-check
/**
 * What the sound of this page is for, where a phone asks (W3C, Audio Session): by itself, "auto", iOS keeps a
 * page silent while its mute switch is on; as "playback" it sounds, but no microphone is heard.
 * @typedef {"auto"|"playback"|"play-and-record"} Purpose
 */

const session = () => /** @type {{audioSession?: {type: Purpose}}} */ (globalThis.navigator)?.audioSession;

/** @param {Purpose} purpose @param {Purpose} [from]  only where it was this */
export function soundFor(purpose, from) {
  const own = session();
  if (own && (!from || own.type === from)) own.type = purpose;
}
