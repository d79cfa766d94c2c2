/* Plays the versions of a mix and changes between them while the sound goes on. Without it every version has its own player. */
(() => {
  "use strict";

  const { durationS } = JSON.parse(document.getElementById("listen-data").textContent);
  const list = document.getElementById("versions");
  const players = [...list.querySelectorAll("audio")];
  const buttons = [...list.querySelectorAll(".choose")];
  const play = document.getElementById("play");
  const place = document.getElementById("place");
  const time = document.getElementById("time");
  const trouble = document.getElementById("trouble");
  /** Two players closer than this are not heard as two. */
  const together = 0.025;
  const attempts = 4;
  const fadeSteps = 5;
  const fadeStepMs = 5;
  let current = 0;
  let coming = null;
  let held = false;

  for (const player of players) player.controls = false;
  for (const name of list.querySelectorAll(".plain-name")) name.hidden = true;
  for (const button of buttons) button.hidden = false;
  document.getElementById("transport").hidden = false;
  document.getElementById("keys").hidden = false;
  place.max = String(durationS);

  function clock(seconds) {
    const whole = Math.floor(seconds);
    return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
  }

  function show() {
    const { currentTime, paused } = players[current];
    if (!held) place.value = String(currentTime);
    time.textContent = `${clock(currentTime)} of ${clock(durationS)}`;
    play.textContent = paused ? "Play" : "Stop";
    const chosen = coming ?? current;
    buttons.forEach((button, index) => button.setAttribute("aria-pressed", String(index === chosen)));
  }

  /** From one to the other within a blink, so that the change itself is not heard. */
  function fade(before, next) {
    for (const player of players) if (player !== before && player !== next) player.pause();
    let step = 0;
    next.volume = 0;
    (function turn() {
      step++;
      const share = Math.min(1, step / fadeSteps);
      next.volume = share;
      if (next === players[current]) before.volume = 1 - share;
      if (share < 1) {
        setTimeout(turn, fadeStepMs);
        return;
      }
      if (before !== players[current]) {
        before.muted = true;
        before.pause();
      }
      before.volume = 1;
    })();
  }

  function take(index) {
    const before = players[current];
    const next = players[index];
    const sounded = !before.paused && !next.paused;
    next.muted = false;
    current = index;
    coming = null;
    if (before !== next) {
      if (sounded) fade(before, next);
      else {
        before.muted = true;
        before.pause();
      }
    }
    document.documentElement.dataset.sounding = String(index);
    show();
  }

  /** Starts the other silently beside the one that sounds, and lets it in when both are at the same place. */
  async function change(index) {
    if (index === (coming ?? current)) return;
    if (coming !== null && coming !== current) players[coming].pause();
    const now = players[current];
    const next = players[index];
    if (index === current) {
      coming = null;
      show();
      return;
    }
    if (now.paused) {
      next.currentTime = now.currentTime;
      take(index);
      return;
    }
    coming = index;
    show();
    next.muted = true;
    let ahead = 0;
    for (let attempt = 0; attempt < attempts && coming === index; attempt++) {
      next.currentTime = Math.min(durationS, now.currentTime + ahead);
      await next.play();
      await new Promise((resolve) => setTimeout(resolve, 60));
      const late = now.currentTime - next.currentTime;
      if (Math.abs(late) < together) break;
      ahead += late;
    }
    if (coming === index) take(index);
    else if (index !== current) next.pause();
  }

  function complain(error) {
    if (error.name === "AbortError") return;
    trouble.textContent = "A file cannot be played: it must lie beside this page. " + error.message;
  }

  function toggle() {
    const player = players[current];
    if (player.paused) {
      player.muted = false;
      player.play().catch(complain);
    } else {
      for (const one of players) one.pause();
      coming = null;
    }
    show();
  }

  play.addEventListener("click", toggle);
  place.addEventListener("pointerdown", () => (held = true));
  place.addEventListener("change", () => {
    held = false;
    players[current].currentTime = Number(place.value);
    show();
  });
  buttons.forEach((button, index) => button.addEventListener("click", () => change(index).catch(complain)));
  players.forEach((player, index) => {
    for (const event of ["timeupdate", "play", "pause", "ended"]) {
      player.addEventListener(event, () => {
        if (index === current) show();
      });
    }
  });
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const index = Number(event.key) - 1;
    if (event.key === " " && !/^(BUTTON|SUMMARY|AUDIO)$/.test(event.target.tagName)) {
      event.preventDefault();
      toggle();
    } else if (buttons[index] && event.target.tagName !== "INPUT") change(index).catch(complain);
  });
  take(0);
})();
