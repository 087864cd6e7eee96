// The strip under the picture: beats above, panels as long as they hold, notes
// below, and the playhead over all. Where a panel begins, a filled diamond says
// that it is on the beat and an open ring that it is not.

const ink = "#2b2521", paper = "#fbf7ee", tint = "#e9dfcc", line = "#8b7d6b", red = "#b3231b", green = "#1f6b3a";
const beatTop = 4, rowTop = 22, bottom = 66, noteTop = 70, stripHeight = 88;
const strip = $("strip"), stripPaper = $("strip-paper");
let ground = null; // the strip without the playhead

const wide = () => strip.clientWidth;
const placeOf = (f) => f / film.frames * wide();

function drawStrip() {
  const scale = window.devicePixelRatio || 1;
  stripPaper.width = Math.max(1, Math.round(wide() * scale));
  stripPaper.height = Math.round(stripHeight * scale);
  const g = stripPaper.getContext("2d");
  g.scale(scale, scale);
  g.fillStyle = paper;
  g.fillRect(0, 0, wide(), stripHeight);
  drawBeats(g);
  film.panels.forEach((p, i) => drawPanel(g, p, i));
  if (film.beats.length) film.panels.forEach((p, i) => drawStart(g, p, placeOf(endOf(i) - p.start)));
  drawNotes(g);
  ground = document.createElement("canvas");
  ground.width = stripPaper.width;
  ground.height = stripPaper.height;
  ground.getContext("2d").drawImage(stripPaper, 0, 0);
  moveHead();
}

function drawBeats(g) {
  const room = wide() / Math.max(1, film.beats.length);
  for (const b of film.beats) {
    if (!b.bar && room < 3) continue;
    g.fillStyle = b.bar ? ink : line;
    g.fillRect(Math.round(placeOf(b.frame)), b.bar ? beatTop : beatTop + 7, 1, (b.bar ? 16 : 9));
  }
}

function drawPanel(g, p, i) {
  const x = placeOf(p.start), w = placeOf(endOf(i)) - x;
  g.fillStyle = i % 2 ? tint : "#f4eee1";
  g.fillRect(x, rowTop, w, bottom - rowTop);
  if (w < 3) return;
  g.fillStyle = line;
  g.fillRect(x, rowTop, 1, bottom - rowTop);
  g.font = "13px system-ui, sans-serif";
  if (w > g.measureText(p.number).width + 18) {
    g.fillStyle = ink;
    g.fillText(p.number, x + 12, bottom - 8);
  }
}

function drawStart(g, p, w) {
  if (w < 9) return; // marks would cover each other
  const x = placeOf(p.start) + 5, y = rowTop + 10;
  g.beginPath();
  if (p.onBeat) {
    for (const [dx, dy] of [[0, -6], [5, 0], [0, 6], [-5, 0]]) g.lineTo(x + dx, y + dy);
    g.fillStyle = green;
    g.fill();
  } else {
    g.arc(x, y, 3.5, 0, 7);
    g.strokeStyle = ink;
    g.lineWidth = 1.5;
    g.stroke();
  }
}

function drawNotes(g) {
  g.fillStyle = ink;
  for (const n of notes) {
    if (n.gone || n.loose) continue;
    const x = placeOf(n.frame + 0.5);
    g.beginPath();
    g.moveTo(x, noteTop);
    g.lineTo(x + 6, noteTop + 12);
    g.lineTo(x - 6, noteTop + 12);
    g.fill();
  }
}

function moveHead() {
  if (!ground) return;
  const g = stripPaper.getContext("2d");
  g.setTransform(1, 0, 0, 1, 0, 0);
  g.drawImage(ground, 0, 0);
  const scale = window.devicePixelRatio || 1;
  g.fillStyle = red;
  g.fillRect(Math.round((placeOf(frame + 0.5) - 1) * scale), 0, Math.round(2 * scale), stripPaper.height);
  strip.setAttribute("aria-valuenow", frame);
  strip.setAttribute("aria-valuetext", spoken(frame));
}

// A finger or the mouse goes to the frame under it.
function scrub(e) {
  if (!allowed) return;
  const box = strip.getBoundingClientRect();
  seek(Math.floor((e.clientX - box.left) / box.width * film.frames));
}

strip.addEventListener("pointerdown", (e) => {
  stop();
  strip.setPointerCapture(e.pointerId);
  scrub(e);
});
strip.addEventListener("pointermove", (e) => { if (strip.hasPointerCapture(e.pointerId)) scrub(e); });
new ResizeObserver(drawStrip).observe(strip);
