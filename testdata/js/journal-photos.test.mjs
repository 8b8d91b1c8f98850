// Pictures on the phone and their way to the server.

import assert from "node:assert/strict";
import { test } from "node:test";

import { resultOf, note, quota, withPhone } from "./phone.mjs";

const { Photos } = await import("../../pwa/journal/photo/photos.js");
const { applyChange, readExchange } = await import("../../pwa/worker/apply.js");
const { PhotoQueue } = await import("../../pwa/worker/photo-queue.js");
const { UploadLoop } = await import("../../pwa/worker/upload-loop.js");

const picture = (name) => ({ sha256: name.repeat(64).slice(0, 64), type: "image/jpeg", bytes: new TextEncoder().encode(name).buffer });

/** Marks an entry as arrived at the server. */
function arrive(tab, id, n) {
  return tab.db.run(["event"], "readwrite", async (tx) => {
    const store = tx.objectStore("event");
    const record = await new Promise((resolve) => (store.get(id).onsuccess = (event) => resolve(event.target.result)));
    store.put({ ...record, n });
  });
}

/** A server of pictures that answers by a script of statuses; null: no answer. */
function server(...script) {
  const asked = [];
  const held = new Set();
  const send = async (address, { method }) => {
    const sha256 = address.split("/").at(-1);
    asked.push(`${method} ${sha256[0]}`);
    const status = script.length > 0 ? script.shift() : undefined;
    if (status === null) throw new TypeError("no network");
    if (status !== undefined) return new Response(null, { status, headers: status === 503 ? { "Retry-After": "7" } : {} });
    if (method === "HEAD") return new Response(null, { status: held.has(sha256) ? 200 : 404 });
    held.add(sha256);
    return new Response(null, { status: 204 });
  };
  return { send, asked, held };
}

async function kept(tab, ...names) {
  const photos = new Photos(tab.db);
  for (const [i, name] of names.entries()) {
    const { id } = await tab.tap(note(name));
    await photos.keep(picture(name), id);
    await arrive(tab, id, i + 1);
  }
  return photos;
}

test("a picture is stored with its bytes and comes back", withPhone(async (phone) => {
  const photos = await kept(phone.tab(), "a");
  const { bytes, type } = await photos.get(picture("a").sha256);
  assert.equal(new TextDecoder().decode(bytes), "a");
  assert.equal(type, "image/jpeg");
  assert.equal(await photos.get(picture("b").sha256), null);
  assert.equal(await photos.get("waiting"), null, "the list is no picture");
}));

test("pictures follow oldest first, each after its entry", withPhone(async (phone) => {
  const tab = phone.tab();
  const photos = await kept(tab, "a", "b");
  const { id } = await tab.tap(note("not at the server yet"));
  await photos.keep(picture("c"), id);
  const { send, asked } = server();
  const upload = new UploadLoop({ photos: new PhotoQueue(photos.db), send, locks: undefined });
  assert.equal(await upload.run(), null);
  assert.deepEqual(asked, ["PUT a", "PUT b"]);
  await arrive(tab, id, 9);
  assert.equal(await upload.run(), null);
  assert.deepEqual(asked, ["PUT a", "PUT b", "PUT c"]);
  assert.equal(await upload.run(), null);
  assert.equal(asked.length, 3, "what is there is not sent again");
}));

test("after a try that broke off the server is asked first", withPhone(async (phone) => {
  const photos = await kept(phone.tab(), "a");
  const { send, asked, held } = server(null);
  const upload = new UploadLoop({ photos: new PhotoQueue(photos.db), send, locks: undefined });
  assert.equal(await upload.run(), 0);
  held.add(picture("a").sha256); // it had got through, only the answer was lost
  assert.equal(await upload.run(), null);
  assert.deepEqual(asked, ["PUT a", "HEAD a"]);
}));

test("a busy or full server is left alone, and what is refused for good holds up nothing", withPhone(async (phone) => {
  const photos = await kept(phone.tab(), "a", "b");
  const { send, asked } = server(503, 507, 401, 422);
  const upload = new UploadLoop({ photos: new PhotoQueue(photos.db), send, locks: undefined });
  assert.equal(await upload.run(), 7, "it says how long");
  assert.equal(await upload.run(), 0);
  assert.equal(await upload.run(), 0);
  assert.equal(await upload.run(), null);
  assert.deepEqual(asked, ["PUT a", "PUT a", "PUT a", "PUT a", "PUT b"]);
  assert.ok(await photos.get(picture("a").sha256), "a refused picture stays on the phone");
}));

test("after a restored server every picture is asked for again", withPhone(async (phone) => {
  const tab = phone.tab();
  const photos = await kept(tab, "a", "b");
  const { send, asked, held } = server();
  const upload = new UploadLoop({ photos: new PhotoQueue(photos.db), send, locks: undefined });
  await upload.run();
  held.delete(picture("b").sha256);
  await phone.setMeta({ gen: 1 });
  await upload.run();
  assert.deepEqual(asked.slice(2), ["HEAD a", "HEAD b", "PUT b"]);
  await upload.run();
  assert.equal(asked.length, 5, "once");
}));

test("a full phone says so and stores nothing by half", withPhone(async (phone) => {
  const tab = phone.tab();
  const photos = new Photos(tab.db);
  const run = tab.db.run.bind(tab.db);
  tab.db.run = (stores, mode, body) => run(stores, mode, async (tx) => {
    await body(tx);
    throw quota();
  });
  await assert.rejects(photos.keep(picture("a"), "x"), { name: "QuotaExceededError" });
  tab.db.run = run;
  assert.equal(await photos.get(picture("a").sha256), null);
  assert.deepEqual(await phone.all("photo"), []);
}));

const bytesOf = (size) => new Uint8Array(size).buffer;
const here = async (phone) => (await phone.all("photo")).filter(({ bytes }) => bytes).map(({ sha256 }) => sha256[0]).join("");

/** Looks at a picture of another phone whose entry is here. */
async function seen(tab, photos, name, size, room) {
  const { id } = await tab.tap({ kind: "photo.added", body: { sha256: picture(name).sha256 } });
  await photos.see({ ...picture(name), bytes: bytesOf(size) }, id, room);
  return id;
}

test("seen pictures of other phones are kept in bounded room, the oldest go, and own ones stay", withPhone(async (phone) => {
  const tab = phone.tab();
  const photos = await kept(tab, "a");
  for (const name of ["b", "c", "d"]) await seen(tab, photos, name, 40, 100);
  assert.equal(await here(phone), "acd");
  await photos.forgetSeen();
  assert.equal(await here(phone), "a");
}));

test("a seen picture that the server may have lost stays until it is sent", withPhone(async (phone) => {
  const tab = phone.tab();
  const photos = new Photos(tab.db);
  const id = await seen(tab, photos, "a", 40, 100);
  await phone.setMeta({ gen: 1 });
  const { send, asked } = server();
  const upload = new UploadLoop({ photos: new PhotoQueue(photos.db), send, locks: undefined });
  assert.equal(await upload.run(), null);
  assert.deepEqual(asked, [], "the restored server has not got the entry yet, and may count the picture as erased");
  await photos.forgetSeen();
  assert.equal(await here(phone), "a");
  await arrive(tab, id, 1);
  assert.equal(await upload.run(), null);
  assert.deepEqual(asked, ["HEAD a", "PUT a"]);
  await photos.forgetSeen();
  assert.equal(await here(phone), "");
}));

test("what arrives after its entry was erased is not kept", withPhone(async (phone) => {
  const tab = phone.tab();
  const { id } = await tab.tap({ kind: "erased", body: {} });
  await new Photos(tab.db).see(picture("a"), id);
  assert.equal(await here(phone), "");
}));

test("an own picture takes the room of seen ones when the phone is full", withPhone(async (phone) => {
  const tab = phone.tab();
  const photos = new Photos(tab.db);
  await seen(tab, photos, "a", 40, 100);
  const run = tab.db.run.bind(tab.db);
  tab.db.run = (stores, mode, body) => run(stores, mode, async (tx) => {
    const full = (await resultOf(tx.objectStore("photo").getKey(picture("a").sha256))) !== undefined;
    const result = await body(tx);
    if (full && (await resultOf(tx.objectStore("photo").count(picture("b").sha256)))) throw quota();
    return result;
  });
  await photos.keep(picture("b"), "x");
  assert.equal(await here(phone), "b");
}));

test("a picture that is refused for good is not sent again, and why is kept", withPhone(async (phone) => {
  const photos = await kept(phone.tab(), "a");
  const asked = [];
  const send = async (_address, { method }) => (asked.push(method), Response.json({ error: { kind: "refused", msg: "the picture's file may say where it was taken" } }, { status: 422 }));
  const upload = new UploadLoop({ photos: new PhotoQueue(photos.db), send, locks: undefined });
  await upload.run();
  await upload.run();
  assert.deepEqual(asked, ["PUT"]);
  const { refused } = (await phone.all("photo")).find(({ sha256 }) => sha256 === "waiting");
  assert.deepEqual(refused.map(({ sha256, why }) => [sha256[0], why]), [["a", "the picture's file may say where it was taken"]]);
}));

test("a picture that the server does not take now waits, with its words, and is tried again", withPhone(async (phone) => {
  for (const [status, msg] of [[429, "this phone has sent its share for today"], [507, "the server's disk is full"], [503, ""]]) {
    const tab = phone.tab();
    const photos = await kept(tab, "a");
    const { send, held } = server();
    const refuses = async (address, words) => (words.method === "PUT" ? new Response(msg && JSON.stringify({ error: { kind: "busy", msg } }), { status, headers: { "Retry-After": "9" } }) : send(address, words));
    assert.equal(await new UploadLoop({ photos: new PhotoQueue(photos.db), send: refuses, locks: undefined }).run(), 9);
    assert.deepEqual(await photos.held(), { n: 1, why: msg });
    assert.equal(await here(phone), "a");
    assert.equal(await new UploadLoop({ photos: new PhotoQueue(photos.db), send, locks: undefined }).run(), null);
    assert.deepEqual([await photos.held(), held.size], [{ n: 0, why: "" }, 1]);
  }
}));

test("a phone that is taken off the crew drops what it saw of others, and keeps its own", withPhone(async (phone) => {
  const tab = phone.tab();
  const photos = await kept(tab, "a");
  await seen(tab, photos, "b", 40);
  const say = (kind) => readExchange(tab.db).then((exchange) => applyChange(tab.db, exchange, { meta: { turn: exchange.meta.turn + 1 }, say: { kind, msg: "m" } }));
  await say("busy");
  assert.equal(await here(phone), "ab");
  await say("revoked");
  assert.equal(await here(phone), "a");
}));
