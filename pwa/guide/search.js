// @ts-check
// Finds steps by their words in the index that the server made
// (guides/search.go says what is in it). Words are folded here as there;
// testdata/guides/words.txt holds both to it.

/**
 * @typedef {import("../types/guides.js").SearchDoc} Doc
 * @typedef {import("../types/guides.js").SearchIndex} Index
 */

const longestPhrase = 3;

export class GuideSearch {
  #index;
  /** @type {Map<string, string>} */
  #canonical = new Map();
  #skip;

  /** @param {Index} index */
  constructor(index) {
    this.#index = index;
    this.#skip = new Set(index.skip);
    for (const group of index.same) for (const phrase of group) this.#canonical.set(phrase, group[0]);
  }

  /**
   * The best docs first. Every word of the query must be met, if only
   * by words that begin with it.
   * @param {string} query
   * @param {number} [most]
   * @returns {Doc[]}
   */
  find(query, most = 20) {
    const words = this.words(query);
    if (words.length === 0) return [];
    const scores = words.map((word) => this.#scores(word));
    const [first, ...rest] = scores;
    const hits = [...first.keys()].filter((doc) => rest.every((other) => other.has(doc)));
    const total = (/** @type {number} */ doc) => scores.reduce((sum, s) => sum + (s.get(doc) ?? 0), 0);
    return hits.sort((a, b) => total(b) - total(a) || a - b).slice(0, most).map((doc) => this.#index.docs[doc]);
  }

  /**
   * How well texts meet a query, the first of them weighing double; 0 if they miss a word of it.
   * For what the index does not hold: calculators, causes, what the crew has named.
   * @param {string} query
   * @param {string[]} texts
   */
  weigh(query, texts) {
    const known = texts.map((text) => this.words(text));
    let sum = 0;
    for (const word of this.words(query)) {
      const best = Math.max(...known.map((words, i) => (words.includes(word) ? 2 : words.some((w) => w.startsWith(word)) ? 1 : 0) * (i ? 1 : 2)));
      if (best <= 0) return 0;
      sum += best;
    }
    return sum;
  }

  /**
   * Folds text into the words that are searched for.
   * @param {string} text
   */
  words(text) {
    const split = text.toLowerCase().split(/[^\p{L}\p{Nd}]+/u).filter(Boolean).map(singular);
    return this.#unify(split).filter((w) => [...w].length > 1 && !this.#skip.has(w));
  }

  // Private

  /** @param {string[]} words */
  #unify(words) {
    const out = [];
    for (let i = 0; i < words.length;) {
      let n = Math.min(longestPhrase, words.length - i);
      while (n > 1 && !this.#canonical.has(words.slice(i, i + n).join(" "))) n -= 1;
      const phrase = words.slice(i, i + n).join(" ");
      out.push(this.#canonical.get(phrase) ?? phrase);
      i += n;
    }
    return out;
  }

  /**
   * Weight by doc: the word itself counts double a word that begins with it.
   * @param {string} word
   */
  #scores(word) {
    /** @type {Map<number, number>} */
    const scores = new Map();
    for (const [known, entries] of Object.entries(this.#index.words)) {
      if (!known.startsWith(word)) continue;
      const times = known === word ? 2 : 1;
      for (const entry of entries) {
        const doc = Math.floor(entry / 8);
        scores.set(doc, Math.max(scores.get(doc) ?? 0, entry % 8 * times));
      }
    }
    return scores;
  }
}

/** @param {string} word */
function singular(word) {
  return [...word].length < 4 || !/[^si]s$/.test(word) ? word : word.slice(0, -1);
}
