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
let busy = false;

const desk = {
  state: null,
  /// Does one thing and shows how everything stands after it; null where it was refused, which is told.
  async do(what, fields) {
    if (busy) return null;
    busy = true;
    try {
      const result = await change(what, fields);
      desk.state = result.state;
      trouble([]);
      show(true);
      return result;
    } catch (refused) {
      trouble(refused.errors || [{ what: String(refused), hint: "" }]);
      if (refused.status === 409) await refresh();
      return null;
    } finally {
      busy = false;
    }
  },
  tell(words, milliseconds) {
    byId("told").textContent = words;
    if (milliseconds !== undefined) document.documentElement.dataset.took = String(milliseconds);
  },
  show,
};

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
  const focused = document.activeElement && document.activeElement.dataset.focus;
  const inside = byId("main").contains(document.activeElement);
  const open = new Set(Array.from(document.querySelectorAll("details[data-keep][open]"), (one) => one.dataset.keep));
  const next = draw(desk);
  if (view && view.leave && pageOf !== id) view.leave();
  pageOf = id;
  view = next;
  byId("main").replaceChildren(...view.parts.filter(Boolean));
  for (const details of document.querySelectorAll("details[data-keep]")) details.open = open.has(details.dataset.keep);
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
    show(first);
  } catch (refused) {
    trouble(refused.errors || [{ what: String(refused), hint: "" }]);
  }
}

async function takeBack(name) {
  const what = desk.state && desk.state[name];
  if (what && await desk.do(name)) desk.tell((name === "undo" ? "Taken back: " : "Done again: ") + what + ".");
}

byId("undo").addEventListener("click", () => takeBack("undo"));
byId("redo").addEventListener("click", () => takeBack("redo"));
addEventListener("hashchange", () => show(true));
// Another tab or her editor may have changed something.
setInterval(() => { if (!document.hidden && !busy) refresh(); }, 3000);
addEventListener("focus", () => { if (!busy) refresh(); });

// Single letters can be switched off, as WCAG 2.1.4 asks.
document.addEventListener("keydown", (event) => {
  if (!view || !byId("keys-on").checked || event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
  if (event.target.closest("input:not([type=checkbox]), textarea, select, video")) return;
  const key = event.key.toLowerCase();
  if (view.keys[key]) view.keys[key]();
  else if (key === "u") takeBack("undo");
  else if (key === "r") takeBack("redo");
  else if (key === "?") byId("keys").open = !byId("keys").open;
  else if (pages[Number(key) - 1]) location.hash = pages[Number(key) - 1][0];
  else return;
  event.preventDefault();
});

refresh();
