// Which film of a clip plays here: its own, or the copy that the desk makes where this browser cannot play it.
import { change, clipAddress, readProxy } from "./ask.js";

const copies = new Map(); // id and content: "ready", or a promise of it

const nameOf = (clip) => clip.id + " " + clip.content;
const wait = (ms) => new Promise((done) => setTimeout(done, ms));

async function make(clip, tell) {
  let told = -1;
  let copy = await change("proxy", { clip: clip.id });
  for (;;) {
    if (copy.is === "ready") return;
    if (copy.is === "failed" || copy.is === "none") throw new Error(copy.why);
    if (copy.percent !== told) tell(`${clip.id} does not play in this browser: a copy that plays is being made, ${copy.percent} %. Work on meanwhile.`);
    told = copy.percent;
    await wait(700);
    copy = await readProxy(clip.id);
  }
}

/// Whether the copy is there already.
export const hasCopy = (clip) => copies.get(nameOf(clip)) === "ready";
/// Where the clip, or its copy, is to be had.
export const sourceOf = (clip) => clipAddress(clip.id, hasCopy(clip));

/// Has the copy made, once, and again where that failed; `tell` says how far it is. True once it is there, false where there will be none.
export function copyOf(clip, tell) {
  const name = nameOf(clip);
  if (copies.get(name) === "ready") return Promise.resolve(true);
  if (!copies.has(name)) copies.set(name, make(clip, tell).then(() => { copies.set(name, "ready"); return true; }, () => { copies.delete(name); return false; }));
  return copies.get(name);
}
