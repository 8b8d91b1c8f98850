/** The shapes that the modules of a guide share. Types only; a guide itself is as the server's JSON has it. */
import type { Words } from "../words/drawings.js";
import type { Guide, Reading, Step } from "../types/guides.js";

export type { Guide, Reading, Step };

/**
 * The rig's own sizes by drawing and its parameter, in millimetres, such as the new orifice of the
 * fitted tip.
 */
export type Known = Record<string, Record<string, number>>;

/** Readings as the journal keeps them: whole numbers, value × scale. */
export type Readings = Record<string, number>;

/** What was read off the rig's parts today, by slot, and how and when in words. */
export type TakenReadings = Record<string, { readings: Readings; said: string }>;

export interface Answer {
  result: string;
  readings?: Readings;
}

/** What a guide is shown with. */
export interface GuideDeps {
  drawings: Record<string, (params?: any, words?: Words) => SVGSVGElement>;
  /** resolves to a number in question.unit, or null if the person left without one */
  pad: { ask(question: { label: string; quantity: string; unit: string; value: number | null }): Promise<number | null> };
  /** the one place that inserts the server's HTML */
  html(element: Element, markup: string): void;
  /** a value, given in reading.unit, in the person's units */
  show?(value: number, reading: Reading): string;
  /** resolves to the answer that a reading suggests, "" for none; lengths in µm */
  judge?(slot: string, read: Readings): Promise<string>;
  /** resolves to whether show or drawWords now say more than they did */
  learn?(): Promise<boolean>;
  /** words and units of the drawings */
  drawWords?: Words;
  /** address of the photo gauge, for steps that read a bore; the step is added to it */
  gauge?: string;
  speech?: SpeechSynthesis;
}
