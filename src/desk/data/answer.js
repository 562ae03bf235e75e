// One doubt at a time: the line, what was seen and heard of it, and a key for each answer.
import { clock, count, findings, heardWords, jobs, make, stillAddress } from "./ask.js";
import { player } from "./player.js";

const later = []; // ids of what she put off, in this tab only
const answeredIn = []; // seconds
let current = null; // id
let shownAt = 0;
let fixing = false;
let play = null;

const answerWords = { yes: "yes", no: "no", leave: "leave this line alone" };
const aboutWords = { said: "said as written", shown: "to be seen", picture: "right on the picture" };
const measures = [["metric", "metric: cup 250 ml, tablespoon 15 ml"], ["us", "American: cup 237 ml, tablespoon 14.8 ml"],
  ["uk", "British: pint 568 ml, tablespoon 15 ml"], ["au", "Australian: cup 250 ml, tablespoon 20 ml"]];

function inOrder(doubts) {
  const put = (doubt) => later.indexOf(doubt.id);
  return doubts.slice().sort((a, b) => put(a) - put(b) || doubts.indexOf(a) - doubts.indexOf(b));
}

/// "about 3 minutes", once it is known how fast she is.
export function timeLeft(state) {
  if (answeredIn.length < 3 || state.counts.open === 0) return "";
  const sorted = answeredIn.slice(-15).sort((a, b) => a - b);
  const seconds = sorted[Math.floor(sorted.length / 2)] * state.counts.open;
  return seconds < 60 ? "less than a minute left at your pace" : "about " + count(Math.round(seconds / 60), "minute", "minutes") + " left at your pace";
}

function stills(doubt, clips) {
  const moment = doubt.moment;
  const clip = moment && clips.find((one) => one.id === moment.clip);
  if (!clip || !clip.picture) return null;
  const middle = (moment.begin + moment.end) / 2;
  const far = doubt.about === "shown" ? Math.max(1, (moment.end - moment.begin) / 3) : 1.5; // seconds
  const last = Math.max(0, clip.length - 0.05);
  const times = [middle - far, middle, middle + far].map((time) => Math.min(last, Math.max(0, time)));
  return make("ul", { class: "stills" }, times.map((time) => make("li", {}, make("figure", {},
    make("img", { src: stillAddress(clip, time), alt: `${clip.id} at ${clock(time)}`, width: clip.shape[0], height: clip.shape[1] }),
    make("figcaption", {}, `${clip.id}, ${clock(time)}`)))));
}

function fixes(doubt) {
  if (!doubt.todo.length) return make("p", {}, doubt.about === "picture" ? "Put the text on the picture right as the line is written." : "Nothing needs to be said or filmed again for this line as it stands; if you answer no, it comes onto the list.");
  return jobs(doubt);
}

export function answerPage(desk) {
  const state = desk.state;
  // `stands`: whether it can still be asked for when its turn comes; `seconds`: how long she looked at it.
  const send = async (what, fields, stands, seconds) => {
    const began = performance.now();
    const result = await desk.do(what, (now) => (stands(now) ? fields : null), () => { if (seconds) answeredIn.push(Math.min(120, seconds)); });
    if (!result) return;
    const others = result.settled > 0 ? ` It settled ${count(result.settled, "other", "others")}.` : "";
    desk.tell(`Saved.${others}`, Math.round(performance.now() - began));
  };
  const doubts = inOrder(state.doubts);
  const doubt = doubts[0] || null;
  if (!doubt || doubt.id !== current) {
    if (play) play.away();
    play = null;
    fixing = false;
    shownAt = performance.now();
  }
  current = doubt && doubt.id;

  const decide = (is) => {
    if (!doubt) return;
    // The answer is to what she sees: pressed twice, it does not go to the next question, which she did not see.
    send("answer", { line: doubt.line, about: doubt.about, is, written: doubt.written, found: doubt.found, was: "" },
      (now) => now.doubts.some((one) => one.id === doubt.id), (performance.now() - shownAt) / 1000);
  };
  const postpone = () => {
    if (!doubt) return;
    const at = later.indexOf(doubt.id);
    if (at >= 0) later.splice(at, 1);
    later.push(doubt.id);
    desk.tell("Put off: it comes again at the end.");
    desk.show(true);
  };
  const listen = () => { if (doubt && doubt.moment) play.play(doubt.moment); };
  const fix = () => {
    fixing = !fixing;
    const box = document.getElementById("fix");
    box.hidden = !fixing;
    document.getElementById("fix-button").setAttribute("aria-expanded", String(fixing));
  };

  const parts = [];
  if (state.measures.ask)
    parts.push(make("section", { class: "card", "aria-labelledby": "measures-title" },
      make("h2", { id: "measures-title" }, "Whose cups and spoons are these?"),
      make("p", {}, "One answer holds for every line of the recipe. They are taken as " + (measures.find(([id]) => id === state.measures.is) || ["", state.measures.is])[1] + (state.measures.why ? " (" + state.measures.why + ")." : ".")),
      make("p", { class: "answers" }, measures.map(([id, words]) =>
        make("button", { type: "button", "data-focus": "measures-" + id, onclick: () => send("measures", { measures: id, was: "" }, (now) => now.measures.ask) }, words)))));
  for (const again of state.again)
    parts.push(make("section", { class: "card doubtful" }, make("h2", {}, "Please decide again: " + again.what),
      make("p", {}, again.before + "."), make("p", {}, "Now " + again.after + "."),
      make("p", { class: "answers" }, make("button", { type: "button", onclick: () => send("forget", again.forget, (now) => now.again.some((one) => JSON.stringify(one.forget) === JSON.stringify(again.forget))) }, "Forget the old answer"))));

  if (doubt) {
    if (!play) play = player(state.clips, (words) => desk.tell(words));
    const button = (key, id, words, does, more) => make("button", { type: "button", id, "aria-keyshortcuts": key, onclick: does, ...more }, words, " ", make("kbd", { "aria-hidden": "true" }, key));
    parts.push(make("article", { class: "card", "aria-labelledby": "card-title" },
      make("p", { class: "kind" }, doubt.kind, doubt.when ? " · " + doubt.when : "", ` · ${count(doubts.length, "open question", "open questions")}`),
      make("h2", { id: "card-title", tabindex: "-1" }, doubt.written),
      make("p", { class: "question" }, doubt.question),
      make("dl", { class: "state" }, findings(doubt)),
      stills(doubt, state.clips),
      heardWords(doubt.heard),
      doubt.onPicture ? make("p", { class: "on-picture" }, "On the picture: ", make("span", { class: "caption" }, doubt.onPicture)) : null,
      doubt.why ? make("p", { class: "why" }, doubt.why[0].toUpperCase() + doubt.why.slice(1) + ".") : null,
      doubt.moment ? make("p", { class: "answers" }, button("P", "listen", `Play it, from ${doubt.moment.time}`, listen)) : make("p", { class: "small" }, "Nothing in the footage tells where to look."),
      doubt.moment ? play.element : null,
      make("div", { class: "answers", role: "group", "aria-label": "Your answer" },
        button("Y", "yes", "Yes", () => decide("yes")),
        button("N", "no", "No", () => decide("no")),
        button("F", "fix-button", "How to put it right", fix, { "aria-expanded": String(fixing), "aria-controls": "fix" }),
        button("X", "leave", "Leave this line alone", () => decide("leave")),
        button("L", "later", "Later", postpone)),
      make("div", { id: "fix", class: "jobs", hidden: !fixing }, fixes(doubt))));
  } else {
    parts.push(make("section", { class: "card" }, make("h2", { id: "card-title", tabindex: "-1" }, "Nothing is open."),
      make("p", {}, state.summary)));
  }

  if (state.answers.length)
    parts.push(make("details", { class: "given", "data-keep": "given" },
      make("summary", {}, count(state.answers.length, "answer", "answers") + " given"),
      make("ul", {}, state.answers.map((answer) => make("li", {},
        make("span", {}, make("b", {}, answer.written), ` ${aboutWords[answer.about]}: ${answerWords[answer.is]}`),
        make("button", { type: "button", "data-focus": "take-" + answer.line + answer.about, "aria-label": `Ask again about ${answer.written}`,
          onclick: () => send("answer", { line: answer.line, about: answer.about, written: answer.written, found: answer.found, was: answer.is },
            (now) => now.answers.some((one) => one.line === answer.line && one.about === answer.about && one.is === answer.is)) }, "Ask again"))))));

  return {
    parts,
    first: "card-title",
    leave: () => { if (play) play.away(); },
    keys: { y: () => decide("yes"), n: () => decide("no"), f: () => doubt && fix(), x: () => decide("leave"), l: postpone, p: listen },
    keyWords: [["Y", "yes, as written"], ["N", "no: to say, film or write again"], ["F", "how to put it right"], ["X", "leave this line alone"], ["L", "later"], ["P", "play the moment, or stop"]],
  };
}
