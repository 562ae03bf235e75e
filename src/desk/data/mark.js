// Her clips: play, step by frame, set in and out by keys, say which step it is and what is seen. Each is saved as
// it is done.
import { clock, count, make, stillAddress } from "./ask.js";
import { copyOf, hasCopy, sourceOf } from "./clip_source.js";
import { isTaken, leave, nameOf, proposed, proposedList } from "./proposed.js";
import { clipStrip, logOf, shotFrom, stripWords } from "./strip.js";

let clipId = null;
let partId = null;
let offered = null; // the proposed part she looks at
let from = null; // seconds: where the next new part begins
let at = 0; // seconds: where she is in the clip
let video = null;
let videoOf = null;
let silent = false; // this browser cannot play the clip: its stills stand for it

const precise = (seconds) => clock(seconds) + "." + String(Math.floor((seconds * 1000 + 0.5) % 1000)).padStart(3, "0");

export function markPage(desk) {
  const state = desk.state;
  const clips = state.clips.filter((clip) => clip.picture);
  if (!clips.length)
    return { parts: [make("section", { class: "card" }, make("h2", { id: "clip-title", tabindex: "-1" }, "There is no clip to look at."), make("p", {}, "Clips come into the project with: panslate new, or by hand under media."))], first: "clip-title", keys: {}, keyWords: [] };
  if (!clips.some((clip) => clip.id === clipId)) { clipId = clips[0].id; partId = null; offered = null; }
  const clip = clips.find((one) => one.id === clipId);
  const parts = state.parts.filter((part) => part.clip === clipId).sort((a, b) => a.in - b.in);
  const part = parts.find((one) => one.id === partId) || null;
  const frame = clip.rate[1] / clip.rate[0];
  const allProposed = proposed(state, () => desk.show(false));
  const proposals = allProposed.filter((one) => one.clip === clipId);
  if (offered && !proposals.some((one) => nameOf(one) === nameOf(offered))) offered = null;

  if (videoOf !== clipId) {
    videoOf = clipId;
    silent = !clip.plays && !hasCopy(clip);
    at = 0;
    from = null;
    video = make("video", { controls: true, preload: "metadata", playsinline: true, src: silent ? null : sourceOf(clip), "aria-label": "The clip " + clipId });
    const shown = video;
    // Its stills stand for it until there is a copy; she marks on meanwhile.
    const useCopy = async () => {
      const made = await copyOf(clip, (words) => { if (shown === video) desk.tell(words); });
      if (shown !== video) return;
      if (!made) return desk.tell("This browser cannot play " + clip.id + ". Go through it by its stills: all keys but play work.");
      const place = at;
      silent = false;
      shown.src = sourceOf(clip);
      shown.addEventListener("loadedmetadata", () => { shown.currentTime = place; }, { once: true });
      desk.tell(clip.id + " can be played now.");
      return desk.show(false);
    };
    video.addEventListener("error", () => {
      if (shown !== video || !shown.src) return;
      silent = true;
      desk.show(false);
      if (hasCopy(clip)) desk.tell("This browser cannot play " + clip.id + ". Go through it by its stills: all keys but play work.");
      else useCopy();
    });
    if (silent) useCopy();
  }
  // Of this drawing: the one before has a clock that nobody sees any more.
  video.ontimeupdate = () => where();
  // The browser tells of the time four times a second only: a mark is made where the film is when she presses.
  const here = () => { if (!silent) at = video.currentTime; return at; };
  const still = make("img", { src: stillAddress(clip, at), alt: `${clipId} at ${clock(at)}`, width: clip.shape[0], height: clip.shape[1] });
  const head = make("span", { class: "head", hidden: false });
  const now = make("output", { class: "now" });

  function where() {
    here();
    head.style.left = 100 * at / Math.max(clip.length, 0.001) + "%";
    now.textContent = precise(at) + " of " + clock(clip.length);
  }
  let waiting = 0;
  function go(seconds) {
    at = Math.min(Math.max(0, clip.length - frame / 2), Math.max(0, seconds));
    if (silent) {
      clearTimeout(waiting);
      waiting = setTimeout(() => { still.src = stillAddress(clip, at); }, 120);
    } else {
      video.pause();
      video.currentTime = at;
    }
    where();
  }
  // The middle of a frame: no rounding takes its neighbour.
  const stepFrame = (by) => go((Math.floor(here() / frame + 0.001) + by + 0.5) * frame);
  // Where the frame begins, in whole milliseconds, never in the frame before.
  const frameBegin = () => Math.ceil(Math.floor(here() / frame + 0.001) * frame * 1000 - 0.001) / 1000;
  const frameEnd = () => Math.min(clip.length, Math.ceil((Math.floor(here() / frame + 0.001) + 1) * frame * 1000 - 0.001) / 1000);

  // `changed` makes what is otherwise from the part as it is when its turn comes.
  async function save(changed, words, then) {
    const id = part ? part.id : "";
    const of = clipId;
    const began = from;
    let before = new Set();
    const result = await desk.do("part", (now) => {
      const base = id ? now.parts.find((one) => one.id === id) : { id: "", stamp: "", clip: of, steps: [], shows: [], framing: "", note: "" };
      before = new Set(now.parts.map((one) => one.id));
      return base ? { id, was: base.stamp, clip: of, in: base.in, out: base.out, steps: base.steps, shows: base.shows, framing: base.framing, note: base.note, ...changed(base) } : null;
    }, (saved) => {
      const added = saved.state.parts.find((one) => !before.has(one.id));
      if (added && of === clipId) partId = added.id;
      if (from === began) from = null;
      if (then) then();
    });
    if (result) desk.tell(words);
  }
  const setIn = () => {
    const begin = frameBegin();
    if (part) save(() => ({ in: begin }), `Saved: ${part.id} begins at ${precise(begin)}.`);
    else { from = begin; desk.tell(`A new part begins at ${precise(from)}. Now press O where it ends.`); desk.show(false); }
  };
  const setOut = () => {
    const begin = from;
    const end = frameEnd();
    if (part) save(() => ({ out: end }), `Saved: ${part.id} ends at ${precise(end)}.`);
    else if (begin === null) desk.tell("Press I first, where the part begins.");
    else save(() => ({ in: begin, out: end }), `Saved: a new part, ${precise(begin)} to ${precise(end)}.`);
  };
  const gone = () => { if (part) save(() => ({ gone: true }), `Taken away: ${part.id}. U brings it back.`); };
  const chooseClip = (id) => { clipId = id; partId = null; offered = null; desk.show(false); focusOn("clip-" + id); };
  const choosePart = (id) => {
    partId = id;
    offered = null;
    from = null;
    const chosen = parts.find((one) => one.id === id);
    desk.show(false);
    if (chosen) desk.goTo(chosen.in + frame / 2);
  };
  const offer = (one) => {
    offered = one;
    partId = null;
    from = null;
    desk.show(false);
    desk.goTo(one.in + frame / 2);
  };
  const nextProposed = () => {
    const i = offered ? proposals.findIndex((one) => nameOf(one) === nameOf(offered)) : -1;
    if (proposals.length) return offer(proposals[(i + 1) % proposals.length]);
    const elsewhere = allProposed.find((one) => clips.some((other) => other.id === one.clip));
    return desk.tell(elsewhere ? `No part of ${clipId} is proposed; there are some of ${elsewhere.clip}.` : "No part is proposed. It takes clips in which the steps are told, and panslate log.");
  };
  async function take() {
    const one = offered;
    if (!one) return;
    let before = new Set();
    const taken = await desk.do("take", (now) => { before = new Set(now.parts.map((part) => part.id)); return { clip: one.clip, in: one.in, out: one.out, step: one.step }; }, (saved) => {
      isTaken(one);
      const added = saved.state.parts.find((part) => !before.has(part.id));
      if (added && added.clip === clipId) { partId = added.id; offered = null; }
    });
    if (taken) desk.tell(`Saved: a part, ${precise(one.in)} to ${precise(one.out)}. U takes it back.`);
  }
  const leaveIt = () => {
    if (!offered) return;
    const i = proposals.findIndex((one) => nameOf(one) === nameOf(offered));
    leave(offered);
    offered = null;
    const next = proposals[i + 1];
    if (next) offer(next);
    else desk.show(false);
  };
  const another = () => { partId = null; offered = null; from = null; desk.tell("A new part: press I where it begins."); desk.show(false); };
  const focusOn = (name) => { const one = document.querySelector(`[data-focus="${CSS.escape(name)}"]`); if (one) one.focus(); };
  const next = (by) => {
    const i = parts.findIndex((one) => one.id === partId);
    const to = parts[i < 0 ? (by > 0 ? 0 : parts.length - 1) : Math.min(parts.length - 1, Math.max(0, i + by))];
    if (to) choosePart(to.id);
  };
  const nextClip = (by) => {
    const i = clips.findIndex((one) => one.id === clipId);
    chooseClip(clips[Math.min(clips.length - 1, Math.max(0, i + by))].id);
  };
  const toggle = () => { if (silent) return; if (video.paused) video.play().catch(() => {}); else video.pause(); };
  desk.goTo = go;

  const key = (words, name, does, more) => make("button", { type: "button", "aria-keyshortcuts": name, "data-focus": "key-" + name, onclick: does, ...more }, words, " ", make("kbd", { "aria-hidden": "true" }, name));
  const offersOf = (id) => { const many = allProposed.filter((one) => one.clip === id).length; return many ? `, ${many} proposed` : ""; };
  const list = make("ul", { class: "clips" }, clips.map((one) => make("li", {}, make("button", { type: "button", class: "clip-button", "data-focus": "clip-" + one.id, "aria-pressed": String(one.id === clipId), onclick: () => chooseClip(one.id) },
    make("img", { src: stillAddress(one, one.length / 2), alt: "", width: one.shape[0], height: one.shape[1], loading: "lazy" }),
    make("span", {}, one.id), make("span", { class: "small" }, `${clock(one.length)}, ${count(state.parts.filter((p) => p.clip === one.id).length, "part", "parts")}${offersOf(one.id)}`)))));
  const log = logOf(clip, () => { if (clipId === clip.id) desk.show(false); });
  const strip = clipStrip(clip, log, parts, partId, proposals, head, go);
  const toShot = (by) => {
    const place = shotFrom(log, here(), by);
    if (place !== null) go(place + frame / 2);
    else desk.tell(log && log.logged ? "There is no further shot." : "The shots of this clip are not known yet: panslate log finds them.");
  };
  const stepName = (id) => { const step = state.recipe.steps.find((one) => one.key === id); return step ? `${step.number}. ${step.text}` : id; };

  const partList = make("ul", { class: "part-list" }, parts.map((one) => make("li", {}, make("button", { type: "button", class: "line-button", "data-focus": "part-" + one.id, "aria-pressed": String(one.id === partId), onclick: () => choosePart(one.id) },
    make("span", { class: "at" }, `${clock(one.in)}–${clock(one.out)}`), make("span", { class: "written" }, one.steps.length ? one.steps.map(stepName).join(" / ") : "no step yet")))));

  const offers = proposedList(proposals, offered, stepName, offer, [offered ? [key("Take it", "Y", take), key("Leave it", "X", leaveIt)] : null, key(offered ? "Next proposed" : "Look at them", "G", nextProposed)]);

  let noteSeen = part && part.note; // where it was written elsewhere meanwhile, that is told
  const form = part && make("fieldset", { class: "part-form" }, make("legend", {}, `Part ${part.id}, ${precise(part.in)} to ${precise(part.out)}`),
    make("label", {}, "Step ", make("select", { "data-focus": "step", onchange: (event) => { const id = event.target.value; save(() => ({ steps: id ? [id] : [] }), "Saved: the step."); } },
      make("option", { value: "" }, "not decided"), state.recipe.steps.map((step) => make("option", { value: step.key, selected: part.steps[0] === step.key }, `${step.number}. ${step.text}`)))),
    part.steps.length > 1 ? make("p", { class: "small" }, "It films " + count(part.steps.length, "step", "steps") + "; choosing one here leaves that one alone.") : null,
    make("label", {}, "Framing ", make("select", { "data-focus": "framing", onchange: (event) => { const framing = event.target.value; save(() => ({ framing }), "Saved: the framing."); } },
      state.framings.map((name) => make("option", { value: name, selected: part.framing === name }, name || "not said")))),
    make("fieldset", { class: "shows" }, make("legend", {}, "What can be seen in it"), state.ingredients.map((food) => make("label", {}, make("input", { type: "checkbox", checked: part.shows.includes(food.key), "data-focus": "shows-" + food.key,
      onchange: (event) => { const seen = event.target.checked; save((now) => ({ shows: [...now.shows.filter((one) => one !== food.key), ...(seen ? [food.key] : [])] }), "Saved: what is seen."); } }), " ", food.name))),
    make("label", {}, "Note ", make("input", { type: "text", value: part.note, maxlength: "500", "data-focus": "note", onchange: (event) => { const note = event.target.value; save((now) => (now.note === noteSeen ? { note } : { note, was: part.stamp }), "Saved: the note.", () => { noteSeen = note; }); } })),
    make("p", { class: "answers" }, key("Take this part away", "D", gone)));

  where();
  return {
    parts: [make("div", { class: "marking" }, list, make("section", { class: "card", "aria-labelledby": "clip-title" },
      make("h2", { id: "clip-title", tabindex: "-1" }, clip.id),
      silent ? make("figure", { class: "big" }, still) : video, strip, make("p", { class: "small" }, stripWords(log)),
      make("p", { class: "kind" }, now, from !== null ? ` · a new part from ${precise(from)}` : part ? ` · part ${part.id}` : offered ? ` · proposed, ${precise(offered.in)} to ${precise(offered.out)}` : ""),
      make("div", { class: "answers" }, silent ? null : key("Play or stop", "P", toggle), key("Frame back", ",", () => stepFrame(-1)), key("Frame on", ".", () => stepFrame(1)), key("Second back", "[", () => go(here() - 1)), key("Second on", "]", () => go(here() + 1)), log && log.logged ? [key("Shot before", "W", () => toShot(-1)), key("Next shot", "E", () => toShot(1))] : null,
        key(part ? "Begins here" : "New part begins here", "I", setIn), key("Ends here", "O", setOut), part ? key("Another part", "A", another) : null),
      partList, offers, form))],
    first: "clip-title",
    keys: { p: toggle, ",": () => stepFrame(-1), ".": () => stepFrame(1), "[": () => go(here() - 1), "]": () => go(here() + 1), w: () => toShot(-1), e: () => toShot(1), i: setIn, o: setOut, a: another, d: gone, g: nextProposed, y: take, x: leaveIt, j: () => next(1), k: () => next(-1), n: () => nextClip(1), b: () => nextClip(-1), s: () => focusOn("step") },
    keyWords: [["P", "play or stop"], [", .", "a frame back, on"], ["[ ]", "a second back, on"], ["W E", "shot before, next shot"], ["I", "the part begins here"], ["O", "the part ends here"], ["A", "another part"], ["G", "next proposed part"], ["Y X", "take it, leave it"], ["J K", "next part, part before"], ["N B", "next clip, clip before"], ["S", "to its step"], ["D", "take the part away"]],
    repeats: [",", ".", "[", "]"],
    leave: () => { if (video) video.pause(); },
  };
}
