// Plays a moment of a clip, for the time that it takes.
import { make } from "./ask.js";
import { copyOf, hasCopy, sourceOf } from "./clip_source.js";

const kBefore = 0.3; // seconds: the first sound is not cut off
const kAtLeast = 2; // seconds

/// A player for the moments of one card or line. `tell` says what cannot be played.
export function player(clips, tell) {
  const video = make("video", { controls: true, preload: "none", playsinline: true, "aria-label": "The clip" });
  const name = make("p", { class: "small" });
  // Not in the way before something plays in it.
  const element = make("div", { class: "player", hidden: true }, video, name);
  let source = "";
  let stopAt = Infinity;
  let ownSeek = false;
  video.addEventListener("timeupdate", () => {
    if (video.currentTime < stopAt) return;
    stopAt = Infinity;
    video.pause();
  });
  video.addEventListener("error", () => {
    if (source) useCopy(source);
  });
  // Whoever seeks, or stops and plays on, by hand is not stopped.
  video.addEventListener("seeking", () => { if (!ownSeek) stopAt = Infinity; });
  video.addEventListener("seeked", () => { ownSeek = false; });
  video.addEventListener("pause", () => { stopAt = Infinity; });

  const known = (id) => clips.find((one) => one.id === id);
  const plays = (id) => !known(id) || known(id).plays || hasCopy(known(id));
  async function useCopy(id) {
    const had = known(id) && hasCopy(known(id));
    source = "";
    element.hidden = true;
    const made = known(id) && !had && await copyOf(known(id), tell);
    tell(made ? id + " can be played now: press P." : "This browser cannot play " + id + ". Its stills can be seen all the same.");
  }
  function load(clip) {
    if (clip === source) return;
    source = clip;
    video.src = sourceOf(known(clip) || { id: clip });
    element.classList.toggle("heard-only", Boolean(known(clip)) && !known(clip).picture);
    name.textContent = clip;
  }
  function go(moment) {
    if (!plays(moment.clip)) { useCopy(moment.clip); return; }
    element.hidden = false;
    load(moment.clip);
    const begin = Math.max(0, moment.begin - kBefore);
    const there = () => {
      ownSeek = true;
      video.currentTime = begin;
      stopAt = Math.max(moment.end, begin + kAtLeast);
      video.play().catch(() => {});
    };
    if (video.readyState > 0) there();
    else {
      video.addEventListener("loadedmetadata", there, { once: true });
      video.load();
    }
  }
  return {
    element,
    video,
    /// Two seconds of it, or as long as the words last.
    play(moment) {
      if (!video.paused && source === moment.clip) video.pause();
      else go(moment);
    },
    away() { video.pause(); element.hidden = true; source = ""; video.removeAttribute("src"); },
  };
}
