// @ts-check
/**
 * The journal of this page. app.js imports it before all else, so that the browser opens the database
 * while the screen is made.
 */

import { Journal } from "./journal.js";

export const journal = new Journal();
journal.open();
