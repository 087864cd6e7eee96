// Plays and steps. The sound is the master: while it plays, the frame shown is
// the one at the second that is heard. Without sound a clock runs instead.

let frame = 0, playing = false, allowed = !film.caution;
let from = 0, since = 0; // the clock: seconds of film, and when it was there
let sound = null;

function loadSound() {
  if (!film.sound) return;
  const text = atob($("sound").textContent), bytes = new Uint8Array(text.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = text.charCodeAt(i);
  sound = new Audio(URL.createObjectURL(new Blob([bytes], {type: "audio/mp4"})));
  sound.preload = "auto";
  sound.addEventListener("ended", () => { stop(); seek(last); });
  sound.addEventListener("error", withoutSound);
}

function withoutSound() {
  if (!sound) return;
  sound = null;
  $("silent").hidden = false;
  setClock(secondsOf(frame));
}

function setClock(t) {
  from = t;
  since = performance.now();
}

const now = () => sound ? sound.currentTime : from + (performance.now() - since) / 1000;

function play() {
  if (!allowed) {
    $("watch").focus();
    return;
  }
  if (frame === last) seek(0);
  playing = true;
  $("play").textContent = "Stop";
  if (sound) sound.play().catch((e) => { if (e.name === "NotSupportedError") withoutSound(); else stop(); });
  else setClock(secondsOf(frame));
  requestAnimationFrame(tick);
}

function stop() {
  if (!playing) return;
  playing = false;
  $("play").textContent = "Play";
  if (sound) sound.pause();
  seek(frame);
}

function tick() {
  if (!playing) return;
  const t = now();
  show(frameAt(t));
  if (!sound && t >= secondsOf(film.frames)) stop();
  else requestAnimationFrame(tick);
}

// Goes to frame f. The sound is put a moment into the frame, since browsers
// round the second they are asked for.
function seek(f) {
  f = Math.min(Math.max(f, 0), last);
  const t = secondsOf(f) + Math.min(0.001, secondsOf(1) / 4);
  if (sound) sound.currentTime = t; else setClock(t);
  show(f);
}

const steps = {
  "frame-back": () => frame - 1,
  "frame-on": () => frame + 1,
  "beat-back": () => { const k = beatAt(frame - 1); return k < 0 ? 0 : film.beats[k].frame; },
  "beat-on": () => { const k = beatAt(frame) + 1; return k < film.beats.length ? film.beats[k].frame : last; },
  "panel-back": () => { const i = panelAt(frame); return frame > film.panels[i].start ? film.panels[i].start : film.panels[Math.max(i - 1, 0)].start; },
  "panel-on": () => Math.min(endOf(panelAt(frame)), last),
};

function step(name) {
  if (!allowed) return;
  stop();
  seek(steps[name]());
}

let shownPanel = -1, saying = 0;

function show(f) {
  frame = f;
  if (allowed) showPicture(f);
  const i = panelAt(f), p = film.panels[i], k = beatAt(f);
  $("screen").dataset.frame = f;
  $("frame").textContent = f;
  $("time").textContent = clockText(f);
  $("beat").textContent = k < 0 ? "–" : film.beats[k].words;
  $("beat").classList.toggle("on", k >= 0 && film.beats[k].frame === f);
  if (i !== shownPanel) showPanel(i, p);
  moveHead();
  followNotes();
  clearTimeout(saying);
  if (!playing) saying = setTimeout(() => { $("status").textContent = spoken(f); }, 250);
}

function showPanel(i, p) {
  shownPanel = i;
  const hold = endOf(i) - p.start;
  $("panel").textContent = p.number + " (" + (i + 1) + " of " + film.panels.length + ")";
  $("hold").textContent = hold + (hold === 1 ? " frame" : " frames") + ", " + secondsOf(hold).toFixed(2) + " s";
  $("screen").setAttribute("aria-label", ["Panel " + p.number, p.title, p.action].filter(Boolean).join(". "));
  const words = [["Title", p.title], ["Action", p.action], ["Sound", p.sound], ["Note", p.note], ["Shot", p.shot]];
  $("words").replaceChildren(...words.filter((w) => w[1]).map(([name, text]) => {
    const row = made("div"), said = made("dd", "", text);
    said.dir = "auto";
    row.append(made("dt", "", name), said);
    return row;
  }));
}

function spoken(f) {
  const k = beatAt(f);
  const beat = k >= 0 && film.beats[k].frame === f ? ", on " + film.beats[k].words : "";
  return "Panel " + film.panels[panelAt(f)].number + ", frame " + f + beat;
}
