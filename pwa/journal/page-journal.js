// @ts-check
/**
 * The journal of this page. app.js imports it before all else, so that the browser opens the database
 * while the screen is made.
 */

import { bridge } from "../calc/bridge.js";
import { hintedDatabaseName } from "./crew/database-name.js";
import { Journal } from "./journal.js";

bridge.db = hintedDatabaseName; // before any worker starts
export const journal = new Journal();
journal.open();
