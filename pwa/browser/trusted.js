// @ts-check
/**
 * The one Trusted Types policy, "kerfside" (header: trusted-types kerfside). It lets through the
 * addresses of our own worker and service worker, and the HTML of our own guides, which the server
 * rendered from Markdown with raw HTML off. Browsers without Trusted Types take the plain strings.
 */

/** Paths that may become a script: the worker in the tree of assets, and the service worker. */
const scripts = /^(\/a\/[\w-]+\/worker\/worker\.js|\/sw\.js)$/;

/** Elements and attributes that the server's Markdown can make. */
const tags = /^(p|br|hr|em|strong|code|pre|blockquote|ul|ol|li|h[1-6]|a|table|thead|tbody|tr|th|td|del|sup|sub|span|div|dl|dt|dd)$/;
const attributes = /^\s*((href="(#|\/|https:\/\/)[^"]*"|id="[\w:.-]*"|class="[\w -]*"|align="\w+"|start="\d+"|title="[^"]*"|rel="[\w ]*"|lang="[\w-]*")\s*)*\/?\s*$/;

/** @typedef {{createScriptURL: (url: string) => string, createHTML: (html: string) => string}} Policy */
const policy = /** @type {{trustedTypes?: {createPolicy: (name: string, rules: Policy) => Policy}}} */ (globalThis).trustedTypes?.createPolicy("kerfside", {
  /** @param {string} url */
  createScriptURL: (url) => ownScript(url),
  /** @param {string} html */
  createHTML: (html) => ownHTML(html),
});

/**
 * The address of one of our scripts in the form that new Worker and register take.
 * @param {string|URL} url
 * @returns {string}
 */
export function scriptURL(url) {
  return policy ? policy.createScriptURL(String(url)) : ownScript(String(url));
}

/**
 * The HTML of a guide in the form that innerHTML takes.
 * @param {string} html
 * @returns {string}
 */
export function guideHTML(html) {
  return policy ? policy.createHTML(html) : ownHTML(html);
}

/** @param {string} url */
function ownScript(url) {
  const full = new URL(url, location.href);
  if (full.origin !== location.origin || !scripts.test(full.pathname)) throw new TypeError(`not a script of ours: ${url}`);
  return full.href;
}

/** @param {string} html */
function ownHTML(html) {
  for (const [, name, rest] of html.matchAll(/<\/?([^\s>/]*)([^>]*)>?/g)) {
    if (!tags.test(name) || !attributes.test(rest)) throw new TypeError(`not HTML of a guide: <${name}${rest}>`);
  }
  return html;
}
