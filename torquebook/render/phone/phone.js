"use strict";
// The steps of the job and the first entry of its journal stand in the page as JSON.
const job = JSON.parse(document.getElementById("job").textContent);
const store = "torquebook " + job.start.job + " " + job.start.records;
const START = "0".repeat(64);
const DOUBTFUL = 10; // times beyond a limit: asked back once
const FAR_LESS = job.words.far_less, FAR_MORE = job.words.far_more;
const at = (id) => document.getElementById(id);

// -- SHA-256 (FIPS 180-4), for pages that are opened from a file ---------------------------
const primes = (() => {
  const found = [];
  for (let n = 2; found.length < 64; n++) if (found.every((p) => n % p)) found.push(n);
  return found;
})();
const part = (x) => ((x - Math.floor(x)) * 2 ** 32) | 0;
const K = primes.map((p) => part(Math.cbrt(p)));
const H = primes.slice(0, 8).map((p) => part(Math.sqrt(p)));
const turn = (x, n) => (x >>> n) | (x << (32 - n));
function sha256(text) {
  const bytes = Array.from(text, (c) => c.charCodeAt(0));
  const length = bytes.length * 8;
  bytes.push(0x80);
  while (bytes.length % 64 !== 56) bytes.push(0);
  for (let i = 7; i >= 0; i--) bytes.push(Math.floor(length / 2 ** (8 * i)) & 255);
  const hash = H.slice();
  for (let from = 0; from < bytes.length; from += 64) {
    const w = [];
    for (let i = 0; i < 64; i++) {
      if (i < 16) {
        const o = from + 4 * i;
        w[i] = (bytes[o] << 24) | (bytes[o + 1] << 16) | (bytes[o + 2] << 8) | bytes[o + 3];
      } else {
        const a = w[i - 15], b = w[i - 2];
        const s0 = turn(a, 7) ^ turn(a, 18) ^ (a >>> 3);
        const s1 = turn(b, 17) ^ turn(b, 19) ^ (b >>> 10);
        w[i] = (w[i - 16] + s0 + w[i - 7] + s1) | 0;
      }
    }
    let [a, b, c, d, e, f, g, h] = hash;
    for (let i = 0; i < 64; i++) {
      const s1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
      const t1 = (h + s1 + ((e & f) ^ (~e & g)) + K[i] + w[i]) | 0;
      const s0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
      const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      h = g; g = f; f = e; e = (d + t1) | 0; d = c; c = b; b = a; a = (t1 + t2) | 0;
    }
    [a, b, c, d, e, f, g, h].forEach((x, i) => { hash[i] = (hash[i] + x) | 0; });
  }
  return hash.map((x) => (x >>> 0).toString(16).padStart(8, "0")).join("");
}

// -- the journal -----------------------------------------------------------------------
const ascii = (text) => text.replace(/[\u007f-\uffff]/g,
  (c) => "\\u" + c.charCodeAt(0).toString(16).padStart(4, "0"));
function sorted(value) { // keys in order, at every depth, as the bench computer has them
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.keys(value).sort().map((key) => [key, sorted(value[key])]));
}
let entries = JSON.parse(localStorage.getItem(store) || "[]");
function append(facts) {
  const last = entries[entries.length - 1];
  const body = { seq: last ? last.seq + 1 : 1, at: now(), job: job.start.job, ...facts };
  const prev = last ? last.hash : START;
  const hash = sha256(prev + "\n" + ascii(JSON.stringify(sorted(body))));
  const kept = [...entries, { ...body, prev, hash }];
  localStorage.setItem(store, JSON.stringify(kept)); // raises where there is no room
  entries = kept;
}
function now() {
  const time = new Date();
  const zone = -time.getTimezoneOffset();
  const two = (n) => String(Math.floor(Math.abs(n))).padStart(2, "0");
  const local = new Date(time.getTime() + zone * 60000).toISOString().slice(0, 19);
  return local + (zone < 0 ? "-" : "+") + two(zone / 60) + ":" + two(zone % 60);
}

// -- where the run stands -----------------------------------------------------------------
const closes = (entry) => ["bolt", "done", "skip", "sign"].includes(entry.what)
  || (["gate", "reading"].includes(entry.what) && (entry.ok === true || Boolean(entry.reason)));
function state() {
  const closed = new Map(), failed = new Map();
  for (const entry of entries) {
    if (entry.what === "back") { closed.delete(entry.step); failed.delete(entry.step); }
    else if (closes(entry)) { closed.set(entry.step, true); failed.delete(entry.step); }
    else if (["gate", "reading"].includes(entry.what)) failed.set(entry.step, entry);
  }
  const at_ = job.steps.findIndex((one) => !closed.has(one.id));
  const step = job.steps[at_], before = job.steps[(at_ < 0 ? job.steps.length : at_) - 1];
  return { step, before, done: closed.size, failed: step && failed.get(step.id) };
}
function facts(what, step, more) {
  const said = { what, step: step.id, of: step.name, spot: step.spot };
  if (what === "back") return said;
  said.asks = step.asks;
  if (what === "bolt" && step.setting) { said.wrench = step.wrench; said.setting = step.setting; }
  return { ...said, ...more };
}
const opens = (step) => (step.opens.length ? { opens: step.opens } : {});
const DONE = { bolt: "bolt", gate: "gate", finish: "reading" };
const closing = (step, more) =>
  ({ ...facts(DONE[step.kind] || "done", step, more), ...opens(step) });

let doubted = "";
function reading(step) {
  const text = at("reading").value.trim(), { low, high, unit, shown } = step.limits;
  const typed = text.replace(unit.replace(".", "\u00b7"), "").replace(unit, "").trim().replace("\u2212", "-");
  const value = /^-?[0-9]{1,9}([.,][0-9]{1,5})?$/.test(typed) && !/^[1-9][0-9]{0,2},[0-9]{3}$/.test(typed)
    ? Number(typed.replace(",", ".")) : NaN;
  if (Number.isNaN(value)) return tell("a reading in " + unit + " is due: " + shown);
  const ends = [low, high].filter((end) => end !== null), sizes = ends.map(Math.abs);
  const out = (low !== null && value < low) || (high !== null && value > high);
  const most = Math.max(...sizes), least = Math.min(...sizes), size = Math.abs(value);
  const strange = (value < 0 && Math.min(...ends) >= 0 && unit !== "degC")
    || (out && most > 0 && size >= DOUBTFUL * most)
    || (low !== null && value < low && size > 0 && size <= least / DOUBTFUL);
  if (strange && doubted !== text) {
    doubted = text;
    return tell(text + " is far off: press again if it is so");
  }
  const held = { value, unit, typed: text };
  if (!out) return keep(closing(step, { ok: true, ...held }));
  const less = low !== null && value < low;
  const entry = facts(step.kind === "gate" ? "gate" : "reading", step, { ok: false, ...held });
  const means = step.kind === "gate" ? "" : "; " + (less ? FAR_LESS : FAR_MORE);
  return keep(entry, value + " " + unit + " is " + (less ? "below" : "above") + " the limit: " + shown
    + means + "; " + (step.blocks ? "the work stops here" : "read again, or go on with a reason"));
}
function skip(step, now_) {
  const reason = at("reason").value.trim();
  if (!/\p{L}{2}/u.test(reason)) {
    at("reason").hidden = false;
    return tell("why is it skipped? then press again");
  }
  if (!now_.failed) return keep({ ...facts("skip", step, { reason }), ...opens(step) });
  const { value, unit, typed } = now_.failed;
  const held = value === undefined ? {} : { value, unit, typed };
  return keep(closing(step, { ...held, ok: false, reason }));
}
function keep(entry, said) {
  try { append(entry); } catch (fault) { return tell("not kept: the phone has no room (" + fault.name + ")"); }
  show();
  tell(said || "");
  return undefined;
}
function tell(text) { at("said").textContent = text; }

function show() {
  const now_ = state(), step = now_.step;
  doubted = "";
  // The signature is a step of the run too; it is given on the bench computer.
  at("count").textContent = "step " + (now_.done + 1) + " of " + job.start.steps;
  at("title").textContent = step ? (step.kind === "gate" ? "gate: " : "") + step.name : job.start.title;
  at("big").textContent = step ? step.big : "";
  const end = ["export the record, import it on the bench computer, and sign it there"];
  at("lines").replaceChildren(...(step ? step.lines : end)
    .map((line) => { const p = document.createElement("p"); p.textContent = line; return p; }));
  at("reading").value = ""; at("reason").value = ""; at("reason").hidden = true;
  at("reading").hidden = !(step && step.limits);
  if (step && step.limits) at("reading").placeholder = step.limits.shown;
  const asks = Boolean(step) && step.kind === "gate" && !step.must;
  at("yes").hidden = at("no").hidden = !asks;
  at("done").hidden = !step || asks;
  at("back").hidden = !now_.before;
  at("skip").hidden = !step || step.blocks;
  tell(now_.failed ? "did not pass: " + (now_.failed.typed || "no") : "");
}

at("done").onclick = () => {
  const now_ = state(), step = now_.step;
  if (step.must || at("reading").value.trim()) return reading(step);
  if (now_.failed) return tell("read again, or go on with a reason");
  return keep(closing(step));
};
at("yes").onclick = () => keep(closing(state().step, { ok: true }));
at("no").onclick = () => keep(facts("gate", state().step, { ok: false }), "no: the work stops here");
at("back").onclick = () => keep(facts("back", state().before));
at("skip").onclick = () => { const now_ = state(); return skip(now_.step, now_); };
at("export").onclick = () => {
  const text = entries.map((entry) => ascii(JSON.stringify(entry)) + "\n").join("");
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/x-ndjson" }));
  link.download = job.file;
  link.click();
};
document.addEventListener("click", () => {
  if (navigator.wakeLock) navigator.wakeLock.request("screen").catch(() => {});
}, { once: true });

if (!entries.length) append(job.start);
show();
