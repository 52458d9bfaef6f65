"use strict";
// The steps of the job and the first entry of its journal stand in the page as JSON.
const job = JSON.parse(document.getElementById("job").textContent);
const store = "torquebook " + job.start.job + " " + job.start.records;
const START = "0".repeat(64);
const ABSURD = 50;
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
let entries = JSON.parse(localStorage.getItem(store) || "[]");
function append(facts) {
  const last = entries[entries.length - 1];
  const body = { seq: last ? last.seq + 1 : 1, at: now(), ...facts };
  const sorted = {};
  Object.keys(body).sort().forEach((key) => { sorted[key] = body[key]; });
  const prev = last ? last.hash : START;
  const hash = sha256(prev + "\n" + ascii(JSON.stringify(sorted)));
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
function state() {
  const done = new Map(), failed = new Map();
  for (const entry of entries) {
    if (["done", "reading", "skip"].includes(entry.what)) {
      done.delete(entry.step); done.set(entry.step, true); failed.delete(entry.step);
    } else if (entry.what === "back") done.delete(entry.step);
    else if (entry.what === "failed") failed.set(entry.step, entry.said);
  }
  const step = job.steps.find((one) => !done.has(one.id));
  const last = [...done.keys()].pop();
  return {
    step, done: done.size, failed: step ? failed.get(step.id) || "" : "",
    before: job.steps.find((one) => one.id === last),
  };
}
const facts = (what, step, more) => ({ what, step: step.id, title: step.title, big: step.big, ...more });

function reading(step) {
  const text = at("reading").value.trim().replace(step.reading.unit, "").trim();
  const value = /^-?[0-9]+([.,][0-9]+)?$/.test(text) ? Number(text.replace(",", ".")) : NaN;
  const { low, high, unit } = step.reading;
  const most = Math.max(...[low, high].filter((end) => end).map(Math.abs), 0);
  if (Number.isNaN(value) || (most && Math.abs(value) > ABSURD * most)) {
    return tell("no reading in " + unit + "; read again");
  }
  const less = low !== null && value < low, more = high !== null && value > high;
  const held = { value, unit };
  if (!less && !more) return keep(facts("reading", step, held));
  const shown = value + " " + unit;
  if (step.kind === "finish") {
    const said = shown + ": " + (less ? FAR_LESS : FAR_MORE);
    return keep(facts("reading", step, { ...held, said }), said);
  }
  const said = shown + ", and it has to be " + (less ? "at least " + low : "at most " + high) + " " + unit;
  return keep(facts("failed", step, { ...held, said }), said);
}
function skip(step, now_) {
  if (now_.failed && step.blocks) return tell("this gate blocks: " + now_.failed);
  const why = at("reason").value.trim();
  if (!why) { at("reason").hidden = false; return tell("why is it left out? then press again"); }
  return keep(facts("skip", step, { why }));
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
  at("count").textContent = step ? (now_.done + 1) + " of " + job.steps.length : "all done";
  at("title").textContent = step ? (step.kind === "gate" ? "gate: " : "") + step.title : job.start.title;
  at("big").textContent = step ? step.big : "";
  at("lines").replaceChildren(...(step ? step.lines : ["export the record, then import it on the bench computer"])
    .map((line) => { const p = document.createElement("p"); p.textContent = line; return p; }));
  at("reading").value = ""; at("reason").value = ""; at("reason").hidden = true;
  at("reading").hidden = !(step && step.reading);
  if (step && step.reading) at("reading").placeholder = step.reading.unit;
  at("yes").hidden = at("no").hidden = !(step && step.asks);
  at("done").hidden = !step || Boolean(step.asks);
  at("back").hidden = !now_.before;
  at("skip").hidden = !step;
  tell(now_.failed);
}

at("done").onclick = () => {
  const now_ = state();
  return now_.step.reading ? reading(now_.step) : keep(facts("done", now_.step));
};
at("yes").onclick = () => keep(facts("done", state().step, { value: "yes" }));
at("no").onclick = () => keep(facts("failed", state().step, { said: "no" }), "no");
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
