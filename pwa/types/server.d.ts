// Made by go run ./cmd/dev types: change the Go instead.

import type { Cause, Check, Description, Sign, SignGroup, SignPicture, Stop } from "./calc.js";

import type { Entry, Guide, SearchIndex } from "./guides.js";

import type { AskedField } from "./journal.js";

/** What the server answers, by method and address. */
export interface Addresses {
  "DELETE /api/devices/{id}/entries": { entries: number; left: number };
  "DELETE /api/entries/{id}": { entries: number; picture: boolean };
  "GET /api/calc": Description[];
  "GET /api/devices": { me: string; crew: Named; devices: ShownDevice[] };
  "GET /api/devices/{id}/entries": { entries: number; pictures: number };
  "GET /api/journal/news": News;
  "GET /api/status": { now: number; proto: number; version: string; writing: boolean; why?: string; enrolled: boolean; role: Role; crew: string };
  "PATCH /api/devices/{id}": ShownDevice;
  "POST /api/enrol": { crew: string; device: string; role: Role; name: string };
  "POST /api/invites": { id: string; link: string; code: string; expires: number; role: Role; qr: Picture };
}

/** The files of JSON that the server makes from Go, by name. */
export interface Assets {
  "gen/calculators.json": Description[];
  "gen/corrections.json": Record<string, AskedField[]>;
  "gen/cut-plan.json": Description;
  "gen/drawings.json": Record<string, Still>;
  "gen/faults.json": { signs: Sign[]; groups: SignGroup[]; causes: Cause[]; checks: Check[]; pictures: Record<string, SignPicture>; };
  "gen/guide/{id}.json": Guide;
  "gen/guides.json": Entry[];
  "gen/search.json": SearchIndex;
  "gen/stops.json": Stop[];
}

export interface Named {
  id: string;
  name: string;
}

/** news is the answer to a phone that waited: a sync is worth while. */
export interface News {
  max: number;
}

export interface Picture {
  size: number;
  rows: string[];
}

/** Role is what a device may do in its crew. */
export type Role = "member" | "owner";

/** Shape is an element of a drawing: it holds words or other shapes. */
export interface Shape {
  name: string;
  attrs: Record<string, string>;
  text?: string;
  shapes?: Shape[];
}

/** shownDevice is a device as phones see it. */
export interface ShownDevice {
  id: string;
  name: string;
  role: Role;
  since: number;
  seen: number;
  revoked: number;
  /** when its day's budget was last used up, if within a day */
  over?: number;
}

/** Still is a drawing that never changes. Its frame is that of all drawings. */
export interface Still {
  width: number;
  height: number;
  title: string;
  desc: string;
  shapes: Shape[];
}
