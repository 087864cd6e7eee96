// What the page knows of the film, and how its frames lie in time.

const $ = (id) => document.getElementById(id);
const film = JSON.parse($("data").textContent);
const last = film.frames - 1;

const secondsOf = (f) => f * film.den / film.num;

// The frame on the screen at t seconds: the last one begun.
function frameAt(t) {
  let f = Math.round(t * film.num / film.den);
  if (secondsOf(f) > t) f--;
  return Math.min(Math.max(f, 0), last);
}

// The index of the last element that begins at frame f or before, -1 for none.
// The list ascends; at gives an element's frame.
function upTo(list, f, at) {
  let low = 0, high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (at(list[middle]) <= f) low = middle + 1; else high = middle;
  }
  return low - 1;
}

const changeAt = (f) => upTo(film.changes, f, (c) => c[0]);
const panelAt = (f) => upTo(film.panels, f, (p) => p.start);
const beatAt = (f) => upTo(film.beats, f, (b) => b.frame);
const endOf = (i) => i + 1 < film.panels.length ? film.panels[i + 1].start : film.frames;

// m:ss.mmm, cut off rather than rounded, so that it never runs ahead.
function clockText(f) {
  const ms = Math.floor(secondsOf(f) * 1000 + 1e-6);
  const two = (n, width) => String(n).padStart(width, "0");
  return Math.floor(ms / 60000) + ":" + two(Math.floor(ms / 1000) % 60, 2) + "." + two(ms % 1000, 3);
}

// A new element with a class and a text. Texts never become markup.
function made(tag, name, text) {
  const e = document.createElement(tag);
  if (name) e.className = name;
  if (text !== undefined) e.textContent = text;
  return e;
}
