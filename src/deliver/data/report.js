"use strict";
// Everything stands in the page already; this only moves in it, filters it and plays the film beside it.
(function () {
  const all = (selector, root) => Array.from((root || document).querySelectorAll(selector));
  const one = (selector, root) => (root || document).querySelector(selector);

  // The film.
  const player = one(".player");
  const video = one("video");
  const strips = all(".strip");
  const films = Boolean(video);
  let source = video ? video.getAttribute("src") : "";
  const film = source;
  const unplayable = new Set();
  const which = one(".which");
  const nameOf = (url) => { try { return decodeURIComponent(url.slice(url.lastIndexOf("/") + 1)); } catch { return url; } };
  function putAway() {
    if (!video) return;
    video.pause();
    document.body.classList.remove("playing");
    one(".stop").hidden = true;
  }
  // A moment of the film, or of another clip, which then takes its place in the player.
  function seek(seconds, plays, url) {
    const wanted = url || film;
    if (!films || unplayable.has(wanted)) return false;
    if (wanted !== source) {
      video.pause();
      source = wanted;
      video.src = wanted;
      video.hidden = false;
      which.textContent = wanted === film ? "" : nameOf(wanted);
      which.hidden = wanted === film;
      for (const strip of strips) one(".head", strip).hidden = true;
    }
    const go = () => { video.currentTime = seconds; if (plays) video.play().catch(() => {}); };
    if (video.readyState > 0) go();
    else { video.addEventListener("loadedmetadata", go, { once: true }); video.load(); }
    if (plays) { document.body.classList.add("playing"); one(".stop").hidden = false; }
    return true;
  }
  if (video) {
    // The page first, the film when she can read already.
    addEventListener("load", () => setTimeout(() => { video.preload = "metadata"; }, 50));
    video.addEventListener("error", () => {
      unplayable.add(source);
      if (source !== film) {
        which.textContent = nameOf(source) + ": this browser cannot play it.";
        return;
      }
      video.hidden = true;
      one(".no-film").hidden = false;
      document.body.classList.remove("playing");
    });
    one(".stop").addEventListener("click", putAway);
    video.addEventListener("timeupdate", () => {
      for (const strip of strips) {
        if (strip.dataset.plays !== source) continue;
        const head = one(".head", strip);
        head.hidden = false;
        head.style.setProperty("--x", String(100 * video.currentTime / Number(strip.dataset.length)));
      }
    });
  }

  // Lines: the cards and the lines of the recipe.
  const lines = all("[data-kind]").map((element) => ({ element, text: null }));
  const box = one("#find");
  const count = one(".count");
  const buttons = all("[data-show]");
  let show = "all";
  const textOf = (line) => {
    if (line.text === null) line.text = line.element.textContent.toLowerCase().replace(/\s+/g, " ");
    return line.text;
  };
  function filter() {
    const words = box.value.toLowerCase().split(/\s+/).filter(Boolean);
    const seen = new Set();
    for (const line of lines) {
      const data = line.element.dataset;
      const fits = (show === "all" || (show === "problems" ? data.problem === "yes" : data.kind === show)) &&
        words.every((word) => textOf(line).includes(word));
      line.element.hidden = !fits;
      if (fits) seen.add(line.element.id.slice(1));
    }
    for (const button of buttons) button.setAttribute("aria-pressed", String(button.dataset.show === show));
    const narrowed = show !== "all" || words.length > 0;
    count.textContent = narrowed ? (seen.size === 1 ? "1 line" : seen.size + " lines") : "";
    document.body.classList.toggle("narrowed", narrowed);
    // A heading over nothing says nothing.
    for (const list of all(".lines, .faults, .steps > li")) {
      const empty = narrowed && !one("[data-kind]:not([hidden])", list);
      list.classList.toggle("emptied", empty);
      const before = list.previousElementSibling;
      if (before && before.tagName === "H4") before.classList.toggle("emptied", empty);
    }
  }
  one(".finder").hidden = false;
  box.addEventListener("input", filter);
  for (const button of buttons) button.addEventListener("click", () => { show = button.dataset.show; filter(); });

  // Going there. The recipe at the side follows.
  let current = null;
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  function goTo(element, moves) {
    if (!element) return;
    if (element.hidden) { show = "all"; box.value = ""; filter(); }
    if (current) current.classList.remove("current");
    current = element;
    current.classList.add("current");
    element.scrollIntoView({ block: "nearest", behavior: calm.matches ? "auto" : "smooth" });
    if (moves) {
      element.tabIndex = -1;
      element.focus({ preventScroll: true });
    }
    const twin = document.getElementById((element.id[0] === "p" ? "l" : "p") + element.id.slice(1));
    const pane = one(".right");
    if (twin && !twin.hidden && element.id[0] === "p" && pane.contains(twin) && pane.scrollHeight > pane.clientHeight)
      pane.scrollTo({ top: pane.scrollTop + twin.getBoundingClientRect().top - pane.getBoundingClientRect().top - 120 });
    for (const marked of all(".twin")) marked.classList.remove("twin");
    if (twin) twin.classList.add("twin");
  }
  function step(by) {
    const cards = lines.filter((line) => !line.element.hidden).map((line) => line.element);
    const at = cards.indexOf(current);
    goTo(cards[at < 0 ? 0 : Math.min(cards.length - 1, Math.max(0, at + by))], true);
  }
  document.addEventListener("focusin", (event) => {
    const card = event.target.closest(".fault");
    if (card && card !== current) goTo(card, false);
  });
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a");
    if (!link || event.metaKey || event.ctrlKey || event.shiftKey) return;
    if (link.classList.contains("play")) {
      if (seek(Number(link.dataset.t), true, link.getAttribute("href").split("#")[0])) event.preventDefault();
      return;
    }
    const hash = link.getAttribute("href");
    if (hash[0] !== "#") return;
    const target = document.getElementById(hash.slice(1));
    if (target && target.dataset.kind) {
      event.preventDefault();
      history.replaceState(null, "", hash);
      const strip = link.closest(".strip[data-plays]");
      if (strip) seek(Number(link.dataset.t), false, strip.dataset.plays);
      goTo(target, true);
    }
  });

  // The strip: one stop for the Tab key, arrows within; lanes set anew for the width there is.
  const tip = one(".tip");
  const marks = all(".marks");
  function setLanes() {
    const widths = marks.map((row) => row.clientWidth);
    marks.forEach((row, r) => {
      const ends = [];
      for (const mark of row.children) {
        const x = Number(mark.style.getPropertyValue("--x")) / 100 * widths[r];
        let lane = 0;
        while (lane < ends.length && lane < 40 && ends[lane] > x) ++lane;
        ends[lane] = x + 26;
        mark.style.setProperty("--y", String(lane));
      }
      row.style.setProperty("--lanes", String(ends.length));
    });
  }
  let width = innerWidth;
  addEventListener("resize", () => { if (innerWidth !== width) { width = innerWidth; setLanes(); } });
  addEventListener("beforeprint", setLanes);
  for (const row of marks) {
    const links = Array.from(row.children);
    links.forEach((link, i) => { link.tabIndex = i === 0 ? 0 : -1; });
    const tell = (event) => {
      const link = event.target.closest("a");
      if (link) tip.textContent = link.getAttribute("aria-label");
    };
    row.addEventListener("mouseover", tell);
    row.addEventListener("focusin", tell);
    row.addEventListener("keydown", (event) => {
      const at = links.indexOf(event.target);
      const to = { ArrowRight: at + 1, ArrowDown: at + 1, ArrowLeft: at - 1, ArrowUp: at - 1, Home: 0, End: links.length - 1 }[event.key];
      if (at < 0 || to === undefined || !links[to]) return;
      event.preventDefault();
      links[at].tabIndex = -1;
      links[to].tabIndex = 0;
      links[to].focus();
    });
  }

  // Keys. Single letters can be switched off, as WCAG 2.1.4 asks.
  const keysOn = one("#keys-on");
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape") {
      if (document.body.classList.contains("narrowed")) { show = "all"; box.value = ""; filter(); box.blur(); }
      else putAway();
      return;
    }
    if (!keysOn.checked || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target.closest("input:not([type=checkbox]), video, textarea")) return;
    const shows = { a: "all", p: "problems", f: "food", h: "heat", s: "step" };
    if (shows[event.key]) { show = shows[event.key]; filter(); }
    else if (event.key === "/") box.focus();
    else if (event.key === "?") { const keys = one(".keys"); keys.open = !keys.open; }
    else if (event.key === "j") step(1);
    else if (event.key === "k") step(-1);
    else if (event.key === "t" && marks.length) { one("[tabindex='0']", marks[0]).focus(); }
    else if (event.key === "l" && films) {
      if (!video.paused) video.pause();
      else { const play = current && one(".play", current); if (play) seek(Number(play.dataset.t), true, play.getAttribute("href").split("#")[0]); else video.play().catch(() => {}); }
    } else return;
    event.preventDefault();
  });

  // The pane that scrolls by itself must be reachable with the keyboard; one that does not needs no stop.
  const pane = one(".right");
  const setPane = () => {
    if (pane.scrollHeight > pane.clientHeight + 1 && getComputedStyle(pane).overflowY === "auto") pane.tabIndex = 0;
    else pane.removeAttribute("tabindex");
  };
  addEventListener("resize", setPane);
  // Measuring makes the browser lay out all of the page; she can use it before that.
  requestAnimationFrame(() => { setLanes(); setPane(); });

  // report.html#t=81.2 opens at that moment; #p3 and #l3 at their line.
  const asked = /^#t=(\d+(?:\.\d+)?)$/.exec(location.hash);
  if (asked) seek(Number(asked[1]), false);
  else if (/^#[pl]\d+$/.test(location.hash)) goTo(document.getElementById(location.hash.slice(1)), false);
  document.documentElement.classList.add("ready");
  performance.mark("ready");
})();
