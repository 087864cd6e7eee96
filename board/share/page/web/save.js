// Hands the notes on: as a file for the program, as text for a message.

// What goes into the file: all that was written, changed or deleted here. A
// note that was deleted before anybody could have it is left out.
function notesFile() {
  const list = notes.filter((n) => n.touched && (!n.gone || n.known)).map((n) => {
    const out = {id: n.id, author: n.author, written: n.written, frame: n.frame};
    if (!n.loose && n.panel) Object.assign(out, {panel: n.panel, in: n.in});
    return Object.assign(out, n.gone ? {gone: true} : {text: n.text});
  });
  return JSON.stringify({format: film.format, version: film.version, film: film.film, notes: list}, null, 1) + "\n";
}

function save() {
  const url = URL.createObjectURL(new Blob([notesFile()], {type: "application/json"}));
  const link = made("a");
  link.href = url;
  link.download = film.save;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
  for (const n of notes) if (n.touched) n.known = true;
  unsaved = false;
  $("saved").textContent = "Saved as " + film.save + ".";
}

function notesText() {
  const lines = [film.title || "Notes", ""];
  for (const n of inOrder()) {
    lines.push(placeText(n) + (n.loose ? "" : ", " + clockText(n.frame)) + ", " + n.author + (n.state ? " (" + n.state + ")" : "") + ":", n.text);
    if (n.answer) lines.push("Answer: " + n.answer);
    lines.push("");
  }
  return lines.join("\n");
}

// Where the clipboard is closed to pages, the text is selected and copied as
// if by hand.
async function copy() {
  let done = true;
  try {
    await navigator.clipboard.writeText(notesText());
  } catch {
    const area = made("textarea", "unseen");
    area.value = notesText();
    document.body.append(area);
    area.select();
    done = document.execCommand("copy");
    area.remove();
    $("copy").focus();
  }
  $("saved").textContent = done ? "The notes are in the clipboard." : "The clipboard is closed to this page: save the notes instead.";
}

window.addEventListener("beforeunload", (e) => {
  if (unsaved || $("text").value.trim() !== (editing ? editing.text : "")) e.preventDefault();
});
