// Puts everything in its place and listens to keys and buttons.

const keys = {
  "ArrowLeft": "frame-back", "ArrowRight": "frame-on",
  "Shift+ArrowLeft": "beat-back", "Shift+ArrowRight": "beat-on",
  "PageUp": "panel-back", "PageDown": "panel-on",
};

document.addEventListener("keydown", (e) => {
  const typing = e.target.matches("input, textarea");
  if (e.key === "Enter" && e.ctrlKey && e.target === $("text")) {
    $("write").requestSubmit();
  } else if (typing || e.ctrlKey || e.altKey || e.metaKey) {
    return;
  } else if (e.key === " " && !e.target.matches("button, summary, a")) {
    if (playing) stop(); else play();
  } else if (keys[(e.shiftKey ? "Shift+" : "") + e.key]) {
    step(keys[(e.shiftKey ? "Shift+" : "") + e.key]);
  } else if ((e.key === "Home" || e.key === "End") && allowed) {
    stop();
    seek(e.key === "Home" ? 0 : last);
  } else {
    return;
  }
  e.preventDefault();
});

$("play").addEventListener("click", () => { if (playing) stop(); else play(); });
for (const name in steps) $(name).addEventListener("click", () => step(name));
$("screen").addEventListener("click", () => { if (playing) stop(); else play(); });
$("write").addEventListener("submit", pin);
$("text").addEventListener("focus", stop);
$("leave").addEventListener("click", endWriting);
$("author").addEventListener("change", listNotes);
$("save").addEventListener("click", save);
$("copy").addEventListener("click", copy);
$("undo").addEventListener("click", bringBack);
$("watch").addEventListener("click", () => {
  allowed = true;
  $("caution").hidden = true;
  showPicture(frame);
  $("play").focus();
});

$("title").textContent = film.title || document.title;
$("about").textContent = film.about + (film.sound ? "" : ", silent");
$("screen").width = film.width;
$("screen").height = film.height;
strip.setAttribute("aria-valuemax", last);
$("beat-back").hidden = $("beat-on").hidden = $("on-beat").hidden = film.beats.length === 0;
if (film.caution) {
  $("caution-text").textContent = film.caution;
  $("caution").hidden = false;
}
loadSound();
listNotes();
show(0);
