// @ts-check
/** The journal as a file. What customers are called goes with it only if that is said. */
import { handOver } from "./download.js";
import { say } from "../words/words.js";

/** @param {Pick<import("../app.js").Deps, "journal"|"chooser"|"toasts">} deps @param {string} [crew] another one than that of now */
export async function exportJournal({ journal, chooser, toasts }, crew) {
  let made = await journal.exportText(crew);
  if (made.says) {
    const word = await chooser.ask({ label: made.says, options: [{ word: "without", label: say("export.without") }, { word: "with", label: say("export.with") }] });
    if (!word) return;
    if (word === "with") made = await journal.exportText(crew, true);
  }
  if (await handOver(made.name, made.text)) toasts.show(say("book.exported", { name: made.name }));
}
