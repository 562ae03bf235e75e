// The recipe with what was found of each line; a line clicked goes to its moment.
import { clock, findings, heardWords, jobs, make, paperAddress, shapes, stillAddress } from "./ask.js";
import { player } from "./player.js";

let chosen = null; // key of a line
let play = null;

// The mark of a line: the worst that was found, where it matters.
function markOf(line) {
  if (!line.attention) return line.covered ? "good" : "none";
  const all = ["said", "shown", "picture"].map((name) => line[name] && line[name].standing);
  return all.includes("wrong") ? "wrong" : "doubt";
}

const markWords = { good: "in order", doubt: "please check", wrong: "needs attention", none: "need not be found" };

// What the program writes into files, as it would be now.
const papers = [["H", "the report", "report.html"], ["S", "the shot list", "shot-list.html"], ["C", "what to say and film again, for a spreadsheet", "pickups.csv"], ["T", "the text for the picture", "overlay.srt"]];

export function recipePage(desk) {
  const state = desk.state;
  const lines = [];
  const take = (line) => { if (line) lines.push(line); return line; };
  if (!play) play = player(state.clips, (words) => desk.tell(words));

  const choose = (line, plays) => {
    if (chosen !== line.line) play.away();
    chosen = line.line;
    desk.show(false);
    if (plays && line.moment) play.play(line.moment);
    const button = document.querySelector(`[data-focus="line-${CSS.escape(line.line)}"]`);
    if (button) { button.focus(); button.scrollIntoView({ block: "nearest" }); }
  };
  const row = (line) => {
    take(line);
    const mark = markOf(line);
    return make("li", {}, make("button", {
      type: "button", class: "line-button", "data-focus": "line-" + line.line, "aria-pressed": String(chosen === line.line), onclick: () => choose(line, true),
    }, make("span", { class: "mark " + mark, "aria-hidden": "true" }, shapes[mark]), make("span", { class: "quiet" }, markWords[mark] + ": "),
    make("span", { class: "written" }, line.written), line.when ? make("span", { class: "at" }, line.when) : ""));
  };

  const text = [];
  if (state.recipe.yields.length) text.push(make("ul", { class: "lines" }, state.recipe.yields.map(row)));
  text.push(make("h2", {}, "Ingredients"));
  for (const group of state.recipe.groups) text.push(group.name ? make("h3", {}, group.name) : null, make("ul", { class: "lines" }, group.lines.map(row)));
  text.push(make("h2", {}, "Method"));
  let part = "";
  for (const step of state.recipe.steps) {
    if (step.part && step.part !== part) text.push(make("h3", {}, step.part));
    part = step.part;
    text.push(make("section", { class: "step-lines", "aria-label": "Step " + step.number },
      make("ul", { class: "lines" }, step.line ? row({ ...step.line, written: step.number + ". " + step.text }) : make("li", {}, step.number + ". " + step.text), step.lines.map(row))));
  }

  const line = lines.find((one) => one.line === chosen) || null;
  const clip = line && line.moment && state.clips.find((one) => one.id === line.moment.clip);
  const doubt = line && state.doubts.find((one) => one.line === line.line);
  const side = make("section", { class: "side card", "aria-label": "The line you chose", "aria-live": "polite" },
    line ? [make("h2", {}, line.written), make("dl", { class: "state" }, findings(line)), heardWords(line.heard),
      line.onPicture ? make("p", { class: "on-picture" }, "On the picture: ", make("span", { class: "caption" }, line.onPicture)) : null,
      line.why ? make("p", {}, line.why[0].toUpperCase() + line.why.slice(1) + ".") : null,
      clip ? play.element : make("p", { class: "small" }, "Nothing in the footage tells where it is."),
      clip && clip.picture ? make("figure", {}, make("img", { src: stillAddress(clip, line.moment.begin), alt: `${clip.id} at ${clock(line.moment.begin)}`, width: clip.shape[0], height: clip.shape[1] }),
        make("figcaption", {}, `${clip.id}, ${clock(line.moment.begin)}`)) : null,
      line.todo.length ? make("div", { class: "jobs" }, jobs(line)) : null,
      doubt ? make("p", {}, make("a", { href: "#answer" }, "It is one of the open questions")) : null]
      : [make("h2", {}, "Choose a line"), make("p", {}, "What was said, shown and written on the picture for it stands here, and its moment plays.")]);

  const step = (by) => {
    const at = lines.findIndex((one) => one.line === chosen);
    const next = lines[at < 0 ? 0 : Math.min(lines.length - 1, Math.max(0, at + by))];
    if (next) choose(next, false);
  };
  return {
    parts: [make("nav", { class: "papers", "aria-label": "To print and to keep" }, make("ul", {}, papers.map(([key, words, name]) => make("li", {},
      make("a", { href: paperAddress(name), target: "_blank", rel: "noopener", "data-focus": "paper-" + key, "data-paper": key }, words[0].toUpperCase() + words.slice(1)), " ", make("kbd", { "aria-hidden": "true" }, key))))),
    make("p", { id: "summary", tabindex: "-1", class: "summary" + (state.doubts.length ? "" : " good") }, state.summary), make("div", { class: "pair-of" }, make("div", { class: "text" }, text), side)],
    first: "summary",
    leave: () => play.away(),
    keys: { ...Object.fromEntries(papers.map(([key]) => [key.toLowerCase(), () => document.querySelector(`[data-paper="${key}"]`).click()])), j: () => step(1), k: () => step(-1), p: () => { if (line && line.moment) play.play(line.moment); } },
    keyWords: [["J", "next line"], ["K", "line before"], ["P", "play the moment, or stop"], ...papers.map(([key, words]) => [key, words])],
  };
}
