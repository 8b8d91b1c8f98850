// @ts-check
// The shapes that the guide screens share. Guides come as /guides' JSON.

/**
 * The rig's own sizes by drawing and its parameter, in millimetres, such as the
 * new orifice of the fitted tip.
 * @typedef {Record<string, Record<string, number>>} Known
 *
 * @typedef {{key: string, label: string, quantity: string, unit: string, scale: number}} Reading
 *
 * @typedef {object} Step
 * @property {string} id
 * @property {string} title
 * @property {string} [caution] HTML made by the server
 * @property {string} do HTML made by the server
 * @property {string} [good]
 * @property {string} [worn]
 * @property {string} [change]
 * @property {string} [pass]
 * @property {string} [fail]
 * @property {string} why
 * @property {{name: string, params: Record<string, number | string>, example?: string[], text: string}} [drawing]
 * @property {Reading[]} [readings]
 * @property {string[]} answers
 * @property {string} [slot]
 * @property {string} source
 *
 * @typedef {object} Guide
 * @property {string} id
 * @property {string} title
 * @property {string} when
 * @property {string} about HTML made by the server
 * @property {string} place
 * @property {"steps" | "card"} form
 * @property {number} minutes
 * @property {string} cautions HTML made by the server
 * @property {string[]} sources
 * @property {Step[]} steps
 * @property {{title: string, steps: string[]}[]} [taken] guides taken in, by their steps
 *
 * Readings as the journal keeps them: whole numbers, value × scale.
 * @typedef {Record<string, number>} Readings
 *
 * @typedef {{result: string, readings?: Readings}} Answer
 *
 * @typedef {object} GuideDeps
 * @property {Record<string, (params?: any, words?: any) => SVGSVGElement>} drawings
 * @property {{ask: (question: {label: string, quantity: string, unit: string, value: number | null}) => Promise<number | null>}} pad
 *   resolves to a number in question.unit, or null if the person left without one
 * @property {(element: Element, markup: string) => void} html the one place that inserts the server's HTML
 * @property {(value: number, reading: Reading) => string} [show] a value, given in reading.unit, in the person's units
 * @property {() => Promise<boolean>} [learn] resolves to whether show or drawWords now say more than they did
 * @property {import("../words/drawings.js").Words} [drawWords] words and units of the drawings
 * @property {string} [gauge] address of the photo gauge, for steps that read a bore; the step is added to it
 * @property {SpeechSynthesis} [speech]
 * @property {import("../words/guides.js").GuideWords} [words]
 */

export {};
