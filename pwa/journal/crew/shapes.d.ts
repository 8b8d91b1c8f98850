/** What the server answers to a request. Types only: nothing of them is sent. */
import type { Addresses } from "../../types/server.js";

/** An address with any text in place of what stands in braces. */
type Filled<A extends string> = A extends `${infer B}{${string}}${infer C}` ? `${B}${string}${Filled<C>}` : A;

type Matching<A extends string> = { [K in keyof Addresses]: A extends Filled<K> ? K : never }[keyof Addresses];

/** By method and address, such as "GET /api/status"; null where there is nothing to tell. */
export type Answer<A extends string> = [Matching<A>] extends [never] ? null : Addresses[Matching<A>];
