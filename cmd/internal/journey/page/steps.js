// @ts-check
// One function for each verb that looks at the page. What does not hold yet
// is thrown, and asked again until the deadline.

/** Whether a place is lit. @param {string} place */
function lit(place) {
  const now = plain(document.querySelector(".bar [aria-current]")?.textContent ?? "");
  if (now !== place) throw new Error(`lit is ${now || "no place"}`);
}

/** @param {string} path */
function at(path) {
  const here = location.pathname + (path.includes("?") ? location.search : "") + (path.includes("#") ? location.hash : "");
  if (here !== path) throw new Error(`the address is ${here}`);
}

/** The phone's disk takes nothing more from this page. */
function full() {
  IDBObjectStore.prototype.put = IDBObjectStore.prototype.add = () => {
    throw new DOMException("no room", "QuotaExceededError");
  };
}

/** @param {string} text */
function see(text) {
  if (!plain(linesOf(document.body).join(" ")).includes(plain(text))) throw new Error("it cannot be read on the page");
}

/** @param {string} text */
function gone(text) {
  if (plain(linesOf(document.body).join(" ")).includes(plain(text))) throw new Error("it can still be read on the page");
}

/** The reader is led to this heading: it is whole in the upper half of the screen. @param {string} text */
function lands(text) {
  const heading = [...document.querySelectorAll("h1, h2, h3")].find((e) => isVisible(e) && plain(e.textContent ?? "") === plain(text));
  if (!heading) throw new Error("there is no such heading");
  const { left, top, bottom } = heading.getBoundingClientRect();
  if (top < 0 || top > innerHeight / 2) throw new Error(`it stands ${Math.round(top)} px down a screen of ${innerHeight} px`);
  const over = [top + 1, bottom - 1].map((y) => document.elementFromPoint(left + 1, y)).find((e) => e && !heading.contains(e));
  if (over) throw new Error(`it is covered by ${over.outerHTML.slice(0, 60)}`);
}

/** The arc burns, and the clock on its button has come so far. @param {number} seconds */
function burns(seconds) {
  const clock = document.querySelector("[data-action=arc] [data-ref=time]");
  const text = clock && isVisible(clock) ? plain(clock.textContent ?? "") : "no time";
  const part = (/** @type {RegExp} */ unit) => Number(unit.exec(text)?.[1] ?? 0);
  if (60 * part(/(\d+) min/) + part(/(\d+) s/) < seconds) throw new Error(`the arc's clock says ${text}`);
}

/** Nothing is picked beforehand. */
function unpicked() {
  const picked = [...stage().querySelectorAll("[role=radio][aria-checked=true], [aria-pressed=true], :checked")].filter((e) => isVisible(e) && !(e instanceof HTMLOptionElement));
  if (picked.length > 0) throw new Error(`picked already: ${picked.map(nameOf).join(" | ")}`);
}

/** No record of any database on the phone has the bytes of the text in it. @param {string} text */
async function unkept(text) {
  const latin = new TextDecoder("latin1");
  /** @param {any} value @returns {Promise<string>} */
  const bytesOf = async (value) => {
    if (value instanceof Blob) return latin.decode(await value.arrayBuffer());
    if (value instanceof ArrayBuffer || ArrayBuffer.isView(value)) return latin.decode(value);
    if (value === null || typeof value !== "object") return String(value);
    return (await Promise.all(Object.values(value).map(bytesOf))).join("\n");
  };
  for (const { name } of await indexedDB.databases()) {
    const db = await answer(indexedDB.open(String(name)));
    try {
      for (const store of db.objectStoreNames) {
        const records = await answer(db.transaction(store).objectStore(store).getAll());
        for (const record of records) if ((await bytesOf(record)).includes(text)) throw new Error(`the store ${store} of ${name} keeps it`);
      }
    } finally {
      db.close();
    }
  }
}

/** @template T @param {IDBRequest<T>} request @returns {Promise<T>} */
function answer(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** A picture on the page says that to those who cannot see it. @param {string} text */
function pictured(text) {
  const said = [...document.querySelectorAll("img, [role=img]")].filter((e) => e.checkVisibility() && e.getBoundingClientRect().width > 0).map((e) => plain([
    e.getAttribute("alt"), e.getAttribute("aria-label"),
    ...["aria-labelledby", "aria-describedby"].flatMap((a) => (e.getAttribute(a) ?? "").split(" ").map((id) => document.getElementById(id)?.textContent)),
  ].filter(Boolean).join(" ")));
  if (!said.some((words) => words.includes(plain(text)))) throw new Error(`no picture says so; there are: ${said.map((words) => JSON.stringify(words)).join(", ") || "none"}`);
}

/** What a field or an element shows. @param {string} name */
function read(name) {
  const element = control(name);
  const text = "value" in element && typeof element.value === "string" && element.localName !== "button" ? element.value : linesOf(element).join(" ");
  if (plain(text) === "") throw new Error("there is nothing to read yet");
  return plain(text);
}

/** @param {string} name @param {string} want */
function holds(name, want) {
  const element = control(name);
  if (element instanceof HTMLSelectElement) {
    if (plain(element.selectedOptions[0]?.label ?? "") !== want) throw new Error(`it holds ${element.selectedOptions[0]?.label}`);
    return;
  }
  const got = "value" in element && typeof element.value === "string" && element.localName !== "button" ? plain(element.value) : linesOf(element).join(" ");
  if (got !== want && !(element.localName === "button" && linesOf(element).includes(want))) throw new Error(`it holds ${got}`);
}

/** The number pad, which is open: a dialog with keys. */
function pad() {
  const dialog = stage();
  if (dialog.localName !== "dialog" || !dialog.querySelector("[data-ref=keys]")) throw new Error("the number pad is not open");
  return dialog;
}

/** Where a key of the pad can be touched: a figure, a sign, or a unit by its short name. @param {string} key */
function padKey(key) {
  const keys = [...pad().querySelectorAll("[data-ref=keys] button, [data-ref=units] button")];
  const found = keys.find((button) => button.getAttribute("data-unit") === key || ownText(button) === key);
  if (!found) throw new Error(`the pad has no key ${key}; there are: ${keys.map(ownText).join(" | ")}`);
  return touchable(found);
}

/** Where the key that closes the pad can be touched. */
function padDone() {
  return touchable(control("@done", pad()));
}

/** Where a field for text can be touched; a button of the same name is none. @param {string} name */
function textSpot(name) {
  const root = stage();
  const fields = controlsIn(root).filter((one) => one.matches("input, textarea"));
  const ranked = fields.filter((one) => name.startsWith("@") || fit(nameOf(one), plain(name)) >= 0);
  if (ranked.length === 0) throw new Error(`no field for text called ${name}; there are: ${fields.map(nameOf).join(" | ")}`);
  return touchable(ranked.length === 1 ? ranked[0] : control(name, root));
}

/** Selects all of a field that has the focus. @param {string} name */
function selected(name) {
  const element = document.activeElement ?? document.body;
  if (!element.matches("input, textarea") || (!name.startsWith("@") && fit(nameOf(element), plain(name)) < 0)) throw new Error(`after a touch the focus is on ${describe(element)}`);
  if (!(element instanceof HTMLInputElement || element instanceof HTMLTextAreaElement)) throw new Error(`<${element.localName}> takes no text`);
  element.select();
}

/**
 * How an option of a field is taken: "done" if that was a list of the system,
 * "group" if the options stand on the page, "open" if the field opens them.
 * @param {string} name
 * @param {string} option
 */
function choosing(name, option) {
  const list = stage().querySelectorAll("select").length > 0 ? controlsIn(stage()).find((one) => one instanceof HTMLSelectElement && fit(nameOf(one), plain(name)) >= 0) : undefined;
  if (list instanceof HTMLSelectElement) {
    const wanted = [...list.options].find((one) => plain(one.label) === plain(option));
    if (!wanted) throw new Error(`no option ${option}; there are: ${[...list.options].map((one) => one.label).join(" | ")}`);
    list.focus();
    list.value = wanted.value;
    list.dispatchEvent(new Event("input", { bubbles: true }));
    list.dispatchEvent(new Event("change", { bubbles: true }));
    return "done";
  }
  try {
    groupOf(name);
    return "group";
  } catch {
    control(name);
    return "open";
  }
}

/** The input for files of that name. @param {string} name */
function fileInput(name) {
  const element = control(name);
  const input = element instanceof HTMLLabelElement ? element.control : element;
  if (!(input instanceof HTMLInputElement) || input.type !== "file") throw new Error(`${nameOf(element)} takes no files`);
  return input;
}

/** The app's journal. */
function journal() {
  const found = /** @type {any} */ (globalThis).kerfside?.journal;
  if (!found) throw new Error("the app has not started (no global kerfside.journal)");
  return found;
}

/** The phone is in a crew, and its screen is that of its phones. */
function member() {
  if (!journal().state.crew) throw new Error("the phone is in no crew");
  at("/devices");
}

/**
 * The app is kept on the phone: the page says so once the service worker has all files, and that has taken over.
 * To a document that WebKit opened amid that, the worker can stay "activating" for good; one that has taken the
 * page has done all that it does before it is active.
 */
async function worksOffline() {
  if (document.documentElement.dataset.offline !== "ready") throw new Error("the app is not kept on the phone yet (html has no data-offline)");
  const { active } = await navigator.serviceWorker.ready;
  if (active?.state !== "activated" && !navigator.serviceWorker.controller) throw new Error(`the service worker is ${active?.state}`);
}

async function synced() {
  const { sync: { unsent, onServer } } = await journal().read([]); // what the store says now, not what was last shown
  if (unsent > 0 || !onServer) throw new Error(`${unsent} entries wait for the server`);
  const pictures = await /** @type {any} */ (globalThis).kerfside.pictures();
  if (pictures > 0) throw new Error(`${pictures} pictures wait for the server`);
}

/** What the phone holds, and a nudge to fetch what others have sent since. */
async function stateHash() {
  journal().syncNow();
  const { hash } = await journal().stateHash();
  if (typeof hash !== "string" || hash === "") throw new Error(`the state's sum is ${hash}`);
  return hash;
}

/** Whether keys go to a control, and that can be seen. @param {string} name */
function hasFocus(name) {
  const at = document.activeElement;
  if (!at || !belongs(at, control(name)) && !control(name).contains(at)) return false;
  if (!at.matches(":focus-visible")) throw new Error("it has the focus, but nothing shows that");
  const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(at);
  if ((outlineStyle === "none" || outlineStyle !== "auto" && parseFloat(outlineWidth) < 2) && boxShadow === "none") throw new Error(`it has the focus, but its outline is ${outlineStyle} ${outlineWidth}`);
  return true;
}
