// The desk: what stands in the project now, one page of it at a time, and keys for all of it.
import { answerPage, timeLeft } from "./answer.js";
import { change, count, make, readState } from "./ask.js";
import { markPage } from "./mark.js";
import { recipePage } from "./recipe.js";
import { stovePage } from "./stove.js";

const pages = [["answer", "Answer", answerPage], ["recipe", "Recipe", recipePage], ["mark", "Clips", markPage], ["stove", "At the stove", stovePage]];
const byId = (id) => document.getElementById(id);
let view = null;
let pageOf = "";
let queue = Promise.resolve(); // what was asked for, one after the other
let waiting = 0; // of what she asked for
let late = false; // the page is to be drawn anew once she is done typing

const desk = {
  state: null,
  /// Does one thing when what was asked for before it is done, and shows how everything stands after it; null
  /// where it was refused, which is told. `fields` makes what is sent from the state at that moment, or null
  /// where there is nothing left to do; `done` is called before the page is drawn.
  do(what, fields, done) {
    waiting += 1;
    const turn = queue.then(() => act(what, fields, done)).finally(() => { waiting -= 1; });
    queue = turn;
    return turn;
  },
  tell(words, milliseconds) {
    byId("told").textContent = words;
    if (milliseconds !== undefined) document.documentElement.dataset.took = String(milliseconds);
  },
  show,
};

async function act(what, fields, done) {
  try {
    const sent = fields(desk.state);
    if (!sent) return null;
    const result = await change(what, sent);
    desk.state = result.state;
    trouble([]);
    if (done) done(result);
    show(true);
    return result;
  } catch (refused) {
    trouble(refused.errors || [{ what: String(refused), hint: "" }]);
    if (refused.status === 409) await refresh();
    return null;
  }
}

// Whether drawing would take something out of her hands: a list that is open, or words that are not saved yet.
function inHand(unasked) {
  const one = document.activeElement;
  if (!one || !byId("main").contains(one)) return false;
  if (one.matches("select")) return unasked;
  return one.matches("input:not([type=checkbox]), textarea") && (unasked || one.value !== one.defaultValue);
}

function trouble(errors) {
  byId("trouble").replaceChildren(...errors.map((error) => make("p", {}, error.what, error.hint ? make("span", { class: "small" }, error.hint) : "")));
}

function pageNow() {
  return pages.find(([id]) => "#" + id === location.hash) || pages[0];
}

/// Draws the page anew; `moves`: the focus goes to its first heading, else it stays where it was.
function show(moves) {
  if (!desk.state) return;
  const state = desk.state;
  const [id, , draw] = pageNow();
  late = id === pageOf && inHand(false);
  if (late) return;
  const focused = document.activeElement && document.activeElement.dataset.focus;
  const inside = byId("main").contains(document.activeElement);
  const open = new Set(Array.from(document.querySelectorAll("details[data-keep][open]"), (one) => one.dataset.keep));
  const next = draw(desk);
  if (view && view.leave && pageOf !== id) view.leave();
  pageOf = id;
  view = next;
  byId("main").replaceChildren(...view.parts.filter(Boolean));
  for (const details of document.querySelectorAll("details[data-keep]")) details.open = open.has(details.dataset.keep);
  document.body.dataset.page = id;
  document.title = state.title + ": desk";
  byId("title").textContent = state.title;
  byId("file").textContent = "Desk · " + state.file;
  const { measured, answered, open: questions } = state.counts;
  byId("counts").textContent = [count(measured, "line", "lines") + " in order by measuring", count(answered, "answer", "answers") + " of yours", count(questions, "question", "questions") + " open", timeLeft(state)].filter(Boolean).join(" · ");
  byId("tabs").replaceChildren(...pages.map(([page, words]) => make("li", {}, make("a", { href: "#" + page, "aria-current": page === id ? "page" : null }, words))));
  for (const name of ["undo", "redo"]) {
    const button = byId(name);
    button.disabled = !state[name];
    const words = name === "undo" ? "Undo" : "Redo";
    button.replaceChildren(words + " ", make("kbd", { "aria-hidden": "true" }, words[0]));
    button.title = state[name];
    button.setAttribute("aria-label", state[name] ? words + ": " + state[name] : words);
  }
  const all = [...view.keyWords, ["U", "undo, as often as you like"], ["R", "redo"], ["1 … " + pages.length, "the pages of the desk"], ["?", "these keys"]];
  byId("key-list").replaceChildren(...all.map(([key, words]) => make("li", {}, make("kbd", {}, key), " " + words)));
  const again = focused && document.querySelector(`[data-focus="${CSS.escape(focused)}"]`);
  if (again) again.focus();
  else if ((moves || inside) && byId(view.first)) byId(view.first).focus({ preventScroll: !moves });
  document.documentElement.classList.add("ready");
}

async function refresh() {
  try {
    const state = await readState(desk.state ? desk.state.version : "");
    if (!state) return;
    const first = !desk.state;
    desk.state = state;
    if (first) trouble([]);
    if (inHand(true)) late = true;
    else show(first);
  } catch (refused) {
    trouble(refused.errors || [{ what: String(refused), hint: "" }]);
  }
}

// After what is being saved, so that no older state comes last.
function refreshInTurn() {
  if (!waiting) queue = queue.then(refresh);
}

async function takeBack(name) {
  let what = "";
  const result = await desk.do(name, (state) => { what = state[name]; return what ? {} : null; });
  if (result) desk.tell((name === "undo" ? "Taken back: " : "Done again: ") + what + ".");
}

byId("undo").addEventListener("click", () => takeBack("undo"));
byId("redo").addEventListener("click", () => takeBack("redo"));
addEventListener("hashchange", () => show(true));
// Another tab or her editor may have changed something.
setInterval(() => { if (!document.hidden) refreshInTurn(); }, 3000);
addEventListener("focus", refreshInTurn);
byId("main").addEventListener("focusout", () => setTimeout(() => { if (late) show(false); }));

// Single letters can be switched off, as WCAG 2.1.4 asks.
document.addEventListener("keydown", (event) => {
  if (!view || !byId("keys-on").checked || event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.target.closest("input:not([type=checkbox]), textarea, select, video")) return;
  const key = event.key.toLowerCase();
  if (event.repeat && !(view.repeats || []).includes(key)) return;
  if (view.keys[key]) view.keys[key]();
  else if (key === "u") takeBack("undo");
  else if (key === "r") takeBack("redo");
  else if (key === "?") byId("keys").open = !byId("keys").open;
  else if (pages[Number(key) - 1]) location.hash = pages[Number(key) - 1][0];
  else return;
  event.preventDefault();
});

refreshInTurn();
