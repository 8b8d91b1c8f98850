/** What a page asks the worker for, and the worker the wasm. Types only: nothing of them is sent. */
import type { Answer, CalculatorName, Calls as SumCalls, Entries, Results } from "../types/calc.js";
import type { Calls as JournalCalls, Exported, RefusedLine } from "../types/journal.js";

/** What goes into a call: what is left out counts as Go's zero value. */
export type Given<T> = T extends object ? { [K in keyof T]?: Given<T[K]> } : T;

/** The calls into the wasm. */
export type Calls = SumCalls & JournalCalls & { [N in CalculatorName]: { in: Entries<N>; out: Answer<Results[N]> } };

/** What the worker does by itself. */
export interface WorkerCalls {
  /** db: the name of another database than this phone's */
  "export-journal": { in: { db?: string; customers?: boolean }; out: Exported };
  "import-journal": { in: { text: string }; out: { added: number; known: number; refused: RefusedLine[] } };
  "journal-resume": { in: {}; out: {} };
}

/** What a page asks the worker for. */
export type Asked = Calls & WorkerCalls;

/** A call into the wasm; throws a Trouble. */
export type Call = <N extends keyof Calls>(name: N, input: Given<Calls[N]["in"]>) => Calls[N]["out"];
