// Parts of clips that are proposed by what is said there: one key takes one, and it can be put right like any other.
import { clock, make, readProposed } from "./ask.js";

let madeFor = ""; // how everything stood when they were asked for
let all = [];
const left = new Set(); // that she does not want, until the page is opened anew

export const nameOf = (one) => [one.clip, one.in, one.out, one.step].join(" ");

/// Those she has neither taken nor left, of all clips; `then` is called when others come later.
export function proposed(state, then) {
  if (madeFor !== state.version) {
    const wanted = madeFor = state.version;
    readProposed().then((found) => {
      if (madeFor !== wanted) return;
      const otherwise = JSON.stringify(found) !== JSON.stringify(all);
      all = found;
      if (otherwise) then();
    }, () => { if (madeFor === wanted) madeFor = ""; });
  }
  return all.filter((one) => !left.has(nameOf(one)));
}

export const leave = (one) => left.add(nameOf(one));
export const isTaken = (one) => { all = all.filter((other) => nameOf(other) !== nameOf(one)); };

/// The list under the strip; `chosen`: the one she looks at.
export function proposedList(list, chosen, stepName, choose, buttons) {
  if (!list.length) return null;
  return make("section", { class: "proposed", "aria-labelledby": "proposed-title" },
    make("h3", { id: "proposed-title" }, "Proposed by what is said there"),
    make("p", { class: "answers" }, buttons),
    make("ul", { class: "part-list" }, list.map((one) => make("li", {}, make("button", { type: "button", class: "line-button", "data-focus": "proposed-" + nameOf(one), "aria-pressed": String(chosen !== null && nameOf(one) === nameOf(chosen)), onclick: () => choose(one) },
      make("span", { class: "at" }, `${clock(one.in)}–${clock(one.out)}`),
      make("span", { class: "written" }, stepName(one.step), make("span", { class: "small" }, ` “${one.said}” at ${clock(one.at)}${one.draft ? ", written by ear" : ""}`)))))));
}
