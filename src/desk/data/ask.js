// The requests of the page. Every change is answered with how everything stands after it.

export class Refused extends Error {
  constructor(status, errors) {
    super(errors.map((error) => error.what).join(" "));
    this.status = status;
    this.errors = errors;
  }
}

async function ask(path, options) {
  let response;
  try {
    response = await fetch(path, options);
  } catch {
    throw new Refused(0, [{ what: "The desk does not answer: it was closed.", hint: "Open it again in the terminal: panslate desk" }]);
  }
  if (response.status === 204) return null;
  const type = response.headers.get("Content-Type") || "";
  if (!type.startsWith("application/json"))
    throw new Refused(response.status, [{ what: (await response.text()).trim() || "The desk did not do it.", hint: "" }]);
  const body = await response.json();
  if (!response.ok) throw new Refused(response.status, body.errors);
  return body;
}

/// The state, or null where it is still the one of `version`.
export const readState = (version) => ask("state?have=" + encodeURIComponent(version));

export const change = (what, fields) => ask(what, {
  method: "POST",
  headers: { "Content-Type": "application/json" },
  body: JSON.stringify(fields || {}),
});

/// How a phone is let in: null where the desk is not shared, or this is the phone.
export async function readPhone() {
  try { return await ask("phone"); } catch { return null; }
}

export const clipAddress = (id, copy) => "clip?id=" + encodeURIComponent(id) + (copy ? "&as=proxy" : "");
export const readStrip = (id) => ask("strip?clip=" + encodeURIComponent(id));
export const readProposed = () => ask("proposed");
export const paperAddress = (name) => "paper?name=" + encodeURIComponent(name);
export const readProxy = (id) => ask("proxy?clip=" + encodeURIComponent(id));
/// Another one where the clip was replaced: the browser keeps stills for a while.
export const stillAddress = (clip, seconds) =>
  "still?clip=" + encodeURIComponent(clip.id) + "&of=" + encodeURIComponent(clip.content) + "&ms=" + Math.max(0, Math.round(seconds * 1000));

/// An element with its attributes and what is in it: text stays text.
export function make(name, attributes, ...inside) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes || {})) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else element.setAttribute(key, value === true ? "" : String(value));
  }
  for (const one of inside.flat(3)) if (one !== null && one !== undefined && one !== false && one !== "") element.append(one);
  return element;
}

export function clock(seconds) {
  const whole = Math.floor(seconds + 0.0005);
  const minutes = Math.floor(whole / 60) % 60;
  const hours = Math.floor(whole / 3600);
  const two = (number) => String(number).padStart(2, "0");
  return hours > 0 ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${minutes}:${two(whole % 60)}`;
}

export const count = (number, one, many) => (number === 1 ? "1 " + one : number + " " + many);

export const shapes = { good: "✓", doubt: "?", wrong: "✗", none: "–" };
const channels = [["said", "Said"], ["shown", "Shown"], ["picture", "On the picture"]];

/// What was found of a line: a shape, a colour and words for each of said, shown, on the picture.
export function findings(line) {
  return channels.filter(([name]) => line[name] && line[name].words).map(([name, label]) =>
    make("div", { class: "found" },
      make("dt", {}, label),
      make("dd", { class: line[name].standing },
        make("span", { class: "mark", "aria-hidden": "true" }, shapes[line[name].standing]), " ", line[name].words,
        line[name].detail ? ": " + line[name].detail : "")));
}

/// What is to be said or filmed for a line, and whether there is room for it.
export const jobs = (line) =>
  make("ul", {}, line.todo.map((job) => make("li", {}, job.what, job.fit ? make("span", { class: "small" }, job.fit) : "")));

export function heardWords(heard) {
  if (!heard) return null;
  return make("blockquote", {}, make("p", {}, heard.before ? heard.before + " " : "", make("mark", {}, heard.words),
    heard.after ? " " + heard.after : ""));
}
