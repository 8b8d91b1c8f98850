// Globals of a browser, while a test runs.

/** What the globals were before a test that set them. @type {WeakMap<object, Map<string, PropertyDescriptor|undefined>>} */
const before = new WeakMap();

/** Sets globals, and sets them back when the test is over; also those that it sets more than once. */
export function setGlobals(t, values) {
  if (!before.has(t)) {
    before.set(t, new Map());
    t.after(() => {
      for (const [name, was] of before.get(t)) was ? Object.defineProperty(globalThis, name, was) : delete globalThis[name];
    });
  }
  const were = before.get(t);
  for (const [name, value] of Object.entries(values)) {
    if (!were.has(name)) were.set(name, Object.getOwnPropertyDescriptor(globalThis, name));
    Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
  }
}

/** A localStorage: what it keeps are its keys. */
export function storage() {
  const items = {};
  for (const [name, value] of Object.entries({
    getItem: (key) => items[key] ?? null,
    setItem: (key, text) => (items[key] = text),
    removeItem: (key) => delete items[key],
  })) Object.defineProperty(items, name, { value, configurable: true }); // not among its keys
  return items;
}

/** Globals for files that hold pictures: each is this large, pixels. @param {number} side */
export function pictures(side) {
  const size = { width: side, height: side };
  return {
    createImageBitmap: async () => ({ ...size, close() {} }),
    Image: class {
      naturalWidth = size.width;
      naturalHeight = size.height;
      onload = () => {};
      set src(_) {
        queueMicrotask(() => this.onload());
      }
    },
  };
}
