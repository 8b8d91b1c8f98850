// What the unit tests of the drawings share: as much of a document as a
// drawing needs, and how to look into what it made.

class FakeElement {
  constructor(name) {
    this.name = name;
    this.attributes = new Map();
    this.children = [];
  }

  setAttribute(key, value) {
    this.attributes.set(key, value);
  }

  append(...nodes) {
    this.children.push(...nodes);
  }

  attr(key) {
    return this.attributes.get(key);
  }

  get text() {
    return this.children.map((c) => (typeof c === "string" ? c : c.text)).join("");
  }

  /** Every element below and this one, in order. */
  *all() {
    yield this;
    for (const child of this.children) if (typeof child !== "string") yield* child.all();
  }

  find(test) {
    return [...this.all()].filter(test);
  }
}

globalThis.document = {
  createElementNS(namespace, name) {
    if (namespace !== "http://www.w3.org/2000/svg") throw new Error(`namespace ${namespace}`);
    return new FakeElement(name);
  },
};
