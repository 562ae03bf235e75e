// The strip under a clip: its pictures from end to end, where its shots begin, where somebody speaks, what is wrong,
// the parts that she marked, and those that are proposed.
import { clock, count, make, readStrip, stillAddress } from "./ask.js";

const kPictures = 10;
const known = new Map(); // by id and content: what was logged of the clip

const nameOf = (clip) => clip.id + " " + clip.content;

/// What was logged of the clip, once it is read; `then` is called when it comes later.
export function logOf(clip, then) {
  const name = nameOf(clip);
  if (!known.has(name)) {
    known.set(name, null);
    readStrip(clip.id).then((log) => { known.set(name, log); then(); }, () => known.delete(name));
  }
  return known.get(name);
}

/// Where the next shot begins after `at`, or the one before it; null where none does.
export function shotFrom(log, at, by) {
  const begins = log && log.logged ? log.shots.map((shot) => shot[0]) : [];
  const found = by > 0 ? begins.find((begin) => begin > at + 0.02) : begins.filter((begin) => begin < at - 0.02).pop();
  return found === undefined ? null : found;
}

function band(clip, begin, end, name) {
  const one = make("span", { class: name });
  one.style.left = 100 * begin / clip.length + "%";
  one.style.width = 100 * Math.max(0, end - begin) / clip.length + "%";
  return one;
}

/// The strip as one thing to look at; `head` is where she is, `go` takes a moment that she clicks.
export function clipStrip(clip, log, parts, chosen, proposals, head, go) {
  const pictures = Array.from({ length: kPictures }, (_, i) => make("img", { src: stillAddress(clip, clip.length * (i + 0.5) / kPictures), alt: "", loading: "lazy", width: clip.shape[0], height: clip.shape[1] }));
  const logged = log && log.logged;
  const strip = make("div", { class: "clip-strip", "aria-hidden": "true", onclick: (event) => { const box = strip.getBoundingClientRect(); go(clip.length * (event.clientX - box.left) / box.width); } },
    make("div", { class: "pictures" }, pictures),
    logged ? make("div", { class: "row shots" }, log.shots.map(([begin, end]) => band(clip, begin, end, "shot"))) : null,
    logged ? make("div", { class: "row speech" }, log.speech.map(([begin, end]) => band(clip, begin, end, "spoken")), log.faults.map(([begin, end]) => band(clip, begin, end, "fault"))) : null,
    make("div", { class: "row parts-row" }, parts.map((one) => band(clip, one.in, one.out, "band" + (one.id === chosen ? " chosen" : ""))), proposals.map((one) => band(clip, one.in, one.out, "band proposed-band"))),
    head);
  return strip;
}

/// The same in words, for whoever does not see it.
export function stripWords(log) {
  if (!log) return "";
  if (!log.logged) return "Where its shots begin and where somebody speaks stands here once the footage was read: panslate log.";
  const faults = log.faults.map(([begin, end, what]) => `${what} from ${clock(begin)} to ${clock(end)}`);
  const shown = faults.slice(0, 3).join("; ") + (faults.length > 3 ? `; and ${faults.length - 3} more` : "");
  return [count(log.shots.length, "shot", "shots"), log.speech.length ? "somebody speaks in " + count(log.speech.length, "place", "places") : "nobody speaks", shown].filter(Boolean).join(" · ") + ".";
}
