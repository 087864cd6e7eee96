// Notes, pinned to frames: those that came with the film and those written
// here. Who writes may change and delete what is under the own name.

const notes = film.notes.map((n) => ({...n, known: true})); // known: others may have it
let unsaved = false, editing = null, deleted = null, pinAt = 0;

const writer = () => $("author").value.trim();
const own = (n) => n.here || n.author === writer();

// An id that no other page gives.
function newID() {
  const random = crypto.getRandomValues(new Uint32Array(2));
  return Date.now().toString(36) + "-" + random[0].toString(36) + random[1].toString(36);
}

function changed() {
  unsaved = true;
  $("saved").textContent = "";
  listNotes();
  drawStrip();
}

// Marks a note as changed here, later than it ever was.
function touch(n) {
  n.touched = true;
  n.written = Math.max(Date.now(), n.written + 1);
}

function pin(e) {
  e.preventDefault();
  const text = $("text").value.trim();
  const trouble = !writer() ? ["author", "Write your name first, so that it is known whose note it is."] :
    !text ? ["text", "There is nothing in the note yet."] :
    notes.filter((n) => n.touched).length >= film.most ? ["text", "No more notes fit into one file: save these first and go on in a new page."] : null;
  $("trouble").textContent = trouble ? trouble[1] : "";
  for (const id of ["author", "text"]) {
    if (trouble && trouble[0] === id) $(id).setAttribute("aria-invalid", "true"); else $(id).removeAttribute("aria-invalid");
  }
  if (trouble) {
    $(trouble[0]).focus();
    return;
  }
  if (editing) {
    Object.assign(editing, {text, state: ""});
    touch(editing);
  } else {
    const p = film.panels[panelAt(pinAt)];
    const n = {id: newID(), author: writer(), written: 0, frame: pinAt, panel: p.id, in: pinAt - p.start, text, answer: "", state: "", here: true};
    touch(n);
    notes.push(n);
  }
  endWriting();
  changed();
}

function endWriting() {
  editing = null;
  $("text").value = "";
  $("leave").hidden = true;
  $("pin").textContent = "Pin note";
  pinAt = frame;
  labelText();
}

function edit(n) {
  editing = n;
  stop();
  if (!n.loose) seek(n.frame);
  $("text").value = n.text;
  $("leave").hidden = false;
  $("pin").textContent = "Change note";
  labelText();
  $("text").focus();
}

function remove(n) {
  if (editing === n) endWriting();
  deleted = n;
  touch(n);
  n.gone = true;
  $("undo").hidden = false;
  changed();
  $("undo").focus();
}

function bringBack() {
  touch(deleted);
  deleted.gone = false;
  deleted = null;
  $("undo").hidden = true;
  changed();
  $("text").focus();
}

function labelText() {
  $("text-label").textContent = editing ? "Change the note on frame " + editing.frame : "Note on frame " + pinAt;
}

// Called for each frame that is shown. A note that is being written stays
// where it was begun.
function followNotes() {
  if (!editing && !$("text").value) {
    pinAt = frame;
    labelText();
  }
  for (const item of $("list").children) {
    const here = Number(item.dataset.frame) === frame;
    if (here) item.setAttribute("aria-current", "true"); else item.removeAttribute("aria-current");
  }
}

const inOrder = () => notes.filter((n) => !n.gone).sort((a, b) =>
  (a.loose ? 1 : 0) - (b.loose ? 1 : 0) || a.frame - b.frame || a.written - b.written);

const placeText = (n) => n.loose ? "Its panel is gone (it was at " + clockText(n.frame) + ")" :
  "Frame " + n.frame + ", panel " + film.panels[panelAt(n.frame)].number;

function listNotes() {
  const items = inOrder().map((n) => {
    const item = made("li", n.state);
    if (!n.loose) item.dataset.frame = n.frame;
    const where = made("button", "where", placeText(n));
    where.type = "button";
    where.addEventListener("click", () => { if (allowed) { stop(); seek(n.frame); } });
    const by = made("span", "by", n.author), text = made("p", "said", n.text);
    by.dir = text.dir = "auto";
    item.append(where, by);
    if (n.state) item.append(made("span", "state", n.state));
    item.append(text);
    if (n.answer) {
      const answer = made("p", "answer"), words = made("span", "", n.answer);
      words.dir = "auto";
      answer.append(made("b", "", "Answer: "), words);
      item.append(answer);
    }
    if (own(n)) item.append(button("Edit", n, edit), button("Delete", n, remove));
    return item;
  });
  $("list").replaceChildren(...(items.length ? items : [made("li", "none", "Nobody has noted anything yet.")]));
  followNotes();
}

function button(name, n, act) {
  const b = made("button", "small", name);
  b.type = "button";
  b.setAttribute("aria-label", name + " the note on frame " + n.frame);
  b.addEventListener("click", () => act(n));
  return b;
}
