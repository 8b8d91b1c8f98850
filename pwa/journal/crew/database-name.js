// @ts-check
/**
 * The names of the databases: one for a phone without crew, one for each crew. Which one this phone
 * goes on with is written in meta.home of the local one; localStorage, which browsers write late,
 * holds a hint of it, so that the first screen opens one database.
 */

import { find, keep } from "../../browser/storage.js";
import { dropLastShown } from "../last-shown.js";

/** @param {string} crew  "" for the local journal */
export function databaseName(crew) {
  return crew ? `kerfside-${crew}` : "kerfside";
}

/** The crew that the hint names, "" for none. */
export function hintedCrew() {
  return find("kerfside.crew") ?? "";
}

/** The database to open first. */
export function hintedDatabaseName() {
  return databaseName(hintedCrew());
}

/** Nothing that a screen showed goes along. @param {string} crew */
export function setHint(crew) {
  if (crew !== hintedCrew()) dropLastShown();
  keep("kerfside.crew", crew);
}
