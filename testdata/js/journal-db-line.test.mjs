// A worker has one transaction in flight, whatever database it is for.

import assert from "node:assert/strict";
import { test } from "node:test";
import { resultOf, Phone } from "./phone.mjs";
import { turn } from "./turn.mjs";
import { Database, quiesce } from "../../pwa/journal/db.js";

/** Has a database count how many transactions, over all that share tally, are in flight. */
function counted(db, tally) {
  const open = db.factory.open.bind(db.factory);
  db.factory = {
    open(name, version) {
      tally.now++; // opening counts too
      const request = open(name, version);
      request.addEventListener("success", () => {
        tally.now--;
        const begin = request.result.transaction.bind(request.result);
        request.result.transaction = (...words) => {
          const tx = begin(...words);
          tally.most = Math.max(tally.most, ++tally.now);
          tally.all++;
          tx.addEventListener("complete", () => tally.now--);
          tx.addEventListener("abort", () => tally.now--);
          return tx;
        };
      });
      return request;
    },
  };
  return db;
}

// Last in this file: nothing runs after rest().
test("one transaction at a time, over all databases, and none after rest", async () => {
  const phone = new Phone();
  const tally = { now: 0, most: 0, all: 0 };
  const dbs = ["line-a", "line-b"].map((name) => counted(new Database(name, { factory: phone.factory }), tally));
  const order = [];
  const write = (db, id) => db.run(["event"], "readwrite", (tx) => resultOf(tx.objectStore("event").put({ id, l: 1 }))).then(() => order.push(id));
  const read = (db) => db.run(["event"], "readonly", (tx) => resultOf(tx.objectStore("event").count()));
  const failing = dbs[0].run(["event"], "readwrite", () => Promise.reject(new RangeError("no")));
  await Promise.all([assert.rejects(failing, RangeError), write(dbs[0], "a"), write(dbs[1], "b"), read(dbs[0]), read(dbs[1]), write(dbs[0], "c")]);
  assert.deepEqual([tally.all, tally.most], [6, 1]);
  assert.deepEqual(order, ["a", "b", "c"]);

  const current = write(dbs[0], "d");
  write(dbs[1], "e");
  await turn(); // the first of the two has begun
  await quiesce();
  await current;
  await new Promise((resolve) => setTimeout(resolve, 20));
  assert.deepEqual(order, ["a", "b", "c", "d"], "what was waiting does not begin");
  for (const db of dbs) db.close();
});
