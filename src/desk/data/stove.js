// Beside the stove: what to film and to say for the step at hand, big enough to read from a step away.
import { change, count, make, readPhone } from "./ask.js";

let index = 0;
let awake = null;
let here = false; // she is on this page
const kTicks = "ticks";

// Ticks are no decisions about the film: they stay in this tab, for this project, and end with it. (The desk is at
// another port each time, which to a browser is another place: nothing that it keeps for longer is found again.)
function ticksOf(state) {
  try { return new Set(JSON.parse(sessionStorage.getItem(kTicks + state.file) || "[]")); } catch { return new Set(); }
}
function keep(state, ticks) {
  try { sessionStorage.setItem(kTicks + state.file, JSON.stringify([...ticks])); } catch { /* a browser that keeps nothing */ }
}

async function stayAwake() {
  if (awake || !here || document.hidden || !navigator.wakeLock) return;
  try {
    awake = await navigator.wakeLock.request("screen");
    awake.addEventListener("release", () => { awake = null; });
    if (!here) awake.release();
  } catch { awake = null; }
}
// The browser lets the screen sleep as soon as the page is not seen: once it is seen again, no more.
document.addEventListener("visibilitychange", stayAwake);

// Filled when the desk answers: its code may have been used since.
const phoneBox = make("section", { class: "phone-box", "aria-label": "Your phone", "aria-live": "polite" });
function showPhone(phone) {
  if (!phone) return phoneBox.replaceChildren(make("p", { class: "small" }, "To have this page on your phone, open the desk with: panslate desk --share"));
  const renew = make("button", { type: "button", onclick: async () => { try { showPhone(await change("phone/again")); } catch { /* told by the next reading */ } } }, "New code");
  return phoneBox.replaceChildren(make("h3", {}, "On your phone"),
    make("p", {}, "In the same network, open ", make("b", {}, phone.address)),
    phone.code ? make("p", {}, "and type ", make("b", { class: "code" }, phone.code.slice(0, 3) + " " + phone.code.slice(3)), ` (good once, for ${count(Math.max(1, Math.ceil(phone.seconds / 60)), "more minute", "more minutes")})`)
      : make("p", {}, "Its code was used, or is no longer good."),
    ...(phone.too_often ? [make("p", {}, "Wrong codes were typed too often. If that was not you, somebody else in this network tried to get in.")] : []),
    make("p", { class: "small" }, "New code lets the next phone in, and puts out those that were let in before."),
    make("p", { class: "answers" }, renew));
}
const onThisMachine = ["127.0.0.1", "localhost"].includes(location.hostname);

export function stovePage(desk) {
  const state = desk.state;
  const steps = state.jobs;
  if (!steps.length) return { parts: [make("h2", { id: "step-title", tabindex: "-1" }, "The recipe has no steps.")], first: "step-title", keys: {}, keyWords: [] };
  here = true;
  stayAwake();
  if (onThisMachine) readPhone().then(showPhone);
  index = Math.min(index, steps.length - 1);
  const step = steps[index];
  const ticks = ticksOf(state);
  const go = (by) => { index = Math.min(steps.length - 1, Math.max(0, index + by)); desk.show(true); scrollTo(0, 0); };
  const tick = (id, words, more) => make("li", {}, make("label", { class: "tick" }, make("input", { type: "checkbox", checked: ticks.has(id), "data-focus": "tick-" + id, onchange: (event) => {
    if (event.target.checked) ticks.add(id); else ticks.delete(id);
    keep(state, ticks);
  } }), make("span", {}, make("span", { class: "big" }, words), more)));
  const film = step.film.filter((shot) => !shot.filmed);
  const filmed = step.film.length - film.length;
  return {
    parts: [make("section", { class: "stove", "aria-labelledby": "step-title" },
      make("p", { class: "kind" }, `Step ${step.step} of ${steps.length}${step.part ? " · " + step.part : ""}`),
      make("h2", { id: "step-title", tabindex: "-1" }, step.text),
      step.say.length ? [make("h3", {}, "Say"), make("ul", {}, step.say.map((line) => tick("say/" + line.id, line.words)))] : null,
      film.length ? [make("h3", {}, "Film"), make("ul", {}, film.map((shot) => tick("film/" + shot.id, shot.subject, make("span", { class: "small" }, [shot.framing, shot.once ? "only once: it cannot be done again" : "", shot.shows.length ? "to be seen: " + shot.shows.join(", ") : ""].filter(Boolean).join(" · ")))))] : null,
      !film.length && !step.say.length ? make("p", { class: "done" }, "Nothing is left to film or to say for this step.") : null,
      filmed ? make("p", { class: "small" }, filmed === 1 ? "One shot of this step is filmed already." : filmed + " shots of this step are filmed already.") : null,
      make("div", { class: "turns" }, make("button", { type: "button", "data-focus": "back", disabled: index === 0, onclick: () => go(-1) }, "Step before"),
        make("button", { type: "button", "data-focus": "on", disabled: index === steps.length - 1, onclick: () => go(1) }, "Next step")),
      make("p", { class: "small" }, "Ticks stay as long as this tab is open.", navigator.wakeLock ? "" : " This browser lets the screen sleep on this page: set the screen to stay on while you cook."),
      onThisMachine ? phoneBox : null)],
    first: "step-title",
    keys: { j: () => go(1), k: () => go(-1) },
    keyWords: [["J", "next step"], ["K", "step before"]],
    leave: () => { here = false; if (awake) awake.release(); },
  };
}
