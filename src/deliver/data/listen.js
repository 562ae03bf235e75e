"use strict";
// Everything stands in the page already; this plays a moment in the clip's own player instead of opening it.
(function () {
  let until = null;
  let lit = null;
  for (const clip of document.querySelectorAll(".clip")) {
    const player = clip.querySelector(".player");
    const gone = () => { clip.querySelector(".no-clip").hidden = false; player.hidden = true; };
    player.addEventListener("error", gone);
    player.addEventListener("timeupdate", () => {
      if (until !== null && player.currentTime >= until) { player.pause(); until = null; }
    });
    player.addEventListener("pause", () => { if (lit && clip.contains(lit)) lit.classList.remove("playing"); });
    clip.addEventListener("click", (event) => {
      const link = event.target.closest("a[data-t]");
      if (!link || player.hidden || event.metaKey || event.ctrlKey || event.shiftKey) return;
      event.preventDefault();
      for (const other of document.querySelectorAll(".player")) if (other !== player) other.pause();
      if (lit) lit.classList.remove("playing");
      lit = link;
      const play = () => {
        until = null;
        player.currentTime = Math.max(0, Number(link.dataset.t) - 0.15);
        until = Number(link.dataset.e) + 0.25;
        link.classList.add("playing");
        player.play().catch(() => {});
      };
      if (player.readyState > 0) play();
      else { player.addEventListener("loadedmetadata", play, { once: true }); player.load(); }
    });
  }
})();
