// Made by go run ./cmd/dev types: change the Go instead.

/**
 * Drawing names one of our line drawings with its parameters; Text says in
 * words what it shows here.
 */
export interface Drawing {
  name: string;
  /** numbers and words */
  params: Record<string, number | string>;
  /** parameters that fall once something was read */
  example?: string[];
  text: string;
}

/** Entry is one guide in the index, enough to list it and to show progress. */
export interface Entry {
  id: string;
  title: string;
  when: string;
  place: string;
  form: string;
  minutes: number;
  /** ids in order */
  steps: string[];
}

/** Guide is one guide as the phone gets it. */
export interface Guide {
  id: string;
  title: string;
  when: string;
  about: HTML;
  place: string;
  form: string;
  minutes: number;
  terms: string[];
  cautions: HTML;
  sources: string[];
  steps: Step[];
  taken?: Taken[];
}

/**
 * HTML is markup made by goldmark with raw HTML off: paragraphs, lists, tables,
 * emphasis and links to other guides. It may be inserted as it stands.
 */
export type HTML = string;

/** Reading is a value that the step asks for. */
export interface Reading {
  key: string;
  label: string;
  quantity: string;
  unit: string;
  /**
   * Scale makes the journal's whole number of a value in Unit: µm, Pa, ms,
   * mA, mV or pieces.
   */
  scale: number;
}

/** SearchDoc is one guide (Step empty) or one step written in it. */
export interface SearchDoc {
  guide: string;
  step?: string;
  title: string;
}

/**
 * SearchIndex finds steps by their words, offline and in one small file.
 *
 * Words are folded the same way here and on the phone (pwa/guide/search.js;
 * testdata/guides/words.txt holds both to it): lower case; split at everything
 * but letters and digits; a plural s falls (not
 * after s or i, nor in words under four letters); from the left, the longest phrase of
 * Same (of up to three words) becomes the first word of its group; words of one
 * letter and the words of Skip fall.
 */
export interface SearchIndex {
  /** each group: words for one thing */
  same: string[][];
  /** words too common to tell steps apart */
  skip: string[];
  /** what can be found */
  docs: SearchDoc[];
  /** folded word → docs, as doc·8 + weight */
  words: Record<string, number[]>;
}

/**
 * Step is one screen of a guide. Either Good, Worn and Change are set or Pass
 * and Fail.
 */
export interface Step {
  id: string;
  title: string;
  caution?: HTML;
  do: HTML;
  good?: string;
  worn?: string;
  change?: string;
  pass?: string;
  fail?: string;
  why: string;
  drawing?: Drawing;
  readings?: Reading[];
  answers: string[];
  slot?: string;
  source: string;
}

/**
 * Taken is a guide that was taken in: its title and its steps, in order. What
 * has a Part and stands behind them waits for them.
 */
export interface Taken {
  title: string;
  steps: string[];
}
