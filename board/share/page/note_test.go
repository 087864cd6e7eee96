package page

import (
	"fmt"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"stillbeat/board"
	"stillbeat/board/review"
)

// pinNote writes a note as a person does.
func (b *browser) pinNote(author string, f board.Frame, text string) {
	b.t.Helper()
	b.eval(fmt.Sprintf(`$("author").value = %q, $("author").dispatchEvent(new Event("change")), seek(%d), $("text").focus()`, author, f), nil)
	b.call("Input.insertText", map[string]any{"text": text}, nil)
	b.key("Ctrl+Enter")
}

// listed returns the list of notes as it is read, a line each.
func (b *browser) listed() string {
	var items []string
	b.eval(`[...$("list").children].map((li) => !li.children.length ? li.textContent :
	  [...li.children].filter((e) => !e.matches(".small")).map((e) => e.textContent).join(" | "))`, &items)
	return strings.Join(items, "\n")
}

// saved saves the notes and reads the file, which must keep to the schema.
func (b *browser) saved(name string) review.File {
	b.t.Helper()
	b.eval(`$("save").click()`, nil)
	data := b.downloaded(name)
	schema, err := jsonschema.NewCompiler().Compile("../../review/notes.schema.json")
	if err != nil {
		b.t.Fatal(err)
	}
	v, err := jsonschema.UnmarshalJSON(strings.NewReader(string(data)))
	if err == nil {
		err = schema.Validate(v)
	}
	if err != nil {
		b.t.Errorf("the saved file is not as the schema says: %v\n%s", err, data)
	}
	f, err := review.Read(data)
	if err != nil {
		b.t.Fatalf("the saved file cannot be read: %v\n%s", err, data)
	}
	return f
}

func edited(t *testing.T, b board.Board, edits ...board.Edit) board.Board {
	t.Helper()
	for _, e := range edits {
		var err error
		if b, err = e.Apply(b); err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
	}
	return b
}

// taken returns the film with the notes of a file.
func taken(t *testing.T, b board.Board, f review.File) (board.Board, board.TakenRemarks) {
	t.Helper()
	e, n, err := review.Take(b, f, false)
	if err != nil {
		t.Fatal(err)
	}
	return edited(t, b, e), n
}

// Film, page, notes, film, page with answers, notes, film: nothing is lost on
// the way, and a note is changed and taken back by its author alone.
func TestNotesGoThereAndBack(t *testing.T) {
	br := newBrowser(t)
	film := danceFilm(board.FrameRate{Num: 24, Den: 1})
	path, _ := written(t, film, nil, Options{Silent: true, Name: "dance"})
	br.open(path, 1280, 800, false)
	br.pinNote("Aunt <b>", 31, "Hold the lid longer.")
	br.pinNote("Aunt <b>", 100, hostile[0]+" קומקום 👩\u200d🚀")
	br.pinNote("Aunt <b>", 60, "never mind")
	br.eval(`$("list").querySelector("[data-frame='60'] [aria-label^=Delete]").click()`, nil) // before anybody has it
	first := br.saved("dance.notes.json")
	if len(first.Notes) != 2 || first.Notes[0].Text != "Hold the lid longer." || first.Notes[0].Panel != 2 || first.Notes[0].In != 1 ||
		first.Notes[1].Text != hostile[0]+" קומקום 👩\u200d🚀" || first.Notes[1].Author != "Aunt <b>" {
		t.Fatalf("saved are %+v", first.Notes)
	}
	film, n := taken(t, film, first)
	if n.New != 2 {
		t.Errorf("taken: %+v", n)
	}
	if _, again := taken(t, film, first); again != (board.TakenRemarks{Known: 2}) {
		t.Errorf("taken twice: %+v", again)
	}

	// Another one looks at the same page and writes too.
	br.open(path, 1280, 800, false)
	br.pinNote("Uncle", 31, "I like it short.")
	film, _ = taken(t, film, br.saved("dance.notes.json"))

	lid := first.Notes[0].ID
	film = edited(t, film, board.AnswerRemark(lid, "Yes, by 6 frames <i>."), board.AcceptRemark(lid), board.Delete([]int{3}), board.SetHold([]int{0}, 36))
	path, _ = written(t, film, nil, Options{Silent: true, Name: "dance"})
	br.open(path, 1280, 800, false)
	br.eval("seek(37)", nil)
	br.shot("answered")
	want := "Frame 37, panel 2 | Aunt <b> | accepted | Hold the lid longer. | Answer: Yes, by 6 frames <i>.\n" +
		"Frame 37, panel 2 | Uncle | I like it short.\n" +
		"Its panel is gone (it was at 0:04.166) | Aunt <b> | " + hostile[0] + " קומקום 👩\u200d🚀"
	if got := br.listed(); got != want {
		t.Errorf("the page lists\n%s\nwant\n%s", got, want)
	}

	// The author changes one and takes the other back; the rest is not hers.
	br.eval(`$("author").value = "Aunt <b>", $("author").dispatchEvent(new Event("change"))`, nil)
	var mine []string
	br.eval(`[...document.querySelectorAll("#list .small")].map((b) => b.getAttribute("aria-label"))`, &mine)
	if strings.Join(mine, ", ") != "Edit the note on frame 37, Delete the note on frame 37, Edit the note on frame 100, Delete the note on frame 100" {
		t.Errorf("the author can %q", mine)
	}
	br.eval(`document.querySelector("[aria-label='Edit the note on frame 37']").click(), $("text").value = "Much longer.", $("pin").click()`, nil)
	br.eval(`document.querySelector("[aria-label='Delete the note on frame 100']").click()`, nil)
	second := br.saved("dance.notes.json")
	film, n = taken(t, film, second)
	if n != (board.TakenRemarks{Changed: 1, Gone: 1}) {
		t.Errorf("taken: %+v of %+v", n, second.Notes)
	}
	if _, n := taken(t, film, first); n != (board.TakenRemarks{Known: 2}) {
		t.Errorf("the older file, taken again: %+v", n)
	}
	path, _ = written(t, film, nil, Options{Silent: true, Name: "dance"})
	br.open(path, 1280, 800, false)
	want = "Frame 37, panel 2 | Uncle | I like it short.\nFrame 37, panel 2 | Aunt <b> | Much longer. | Answer: Yes, by 6 frames <i>."
	if got := br.listed(); got != want {
		t.Errorf("the last page lists\n%s\nwant\n%s", got, want)
	}
	br.clean()
}

func TestWritingNotes(t *testing.T) {
	br := newBrowser(t)
	path, _ := written(t, danceFilm(board.FrameRate{Num: 24, Den: 1}), nil, Options{Silent: true})
	br.open(path, 1280, 800, false)
	word := func(expression string) (s string) { br.eval("String("+expression+")", &s); return s }
	br.eval(`$("pin").click()`, nil)
	if got := word(`$("trouble").textContent + document.activeElement.id`); !strings.HasPrefix(got, "Write your name first") || !strings.HasSuffix(got, "author") {
		t.Errorf("without a name it says %q", got)
	}
	br.eval(`$("author").value = "Aunt", $("pin").click()`, nil)
	if got := word(`$("trouble").textContent + document.activeElement.id`); got != "There is nothing in the note yet.text" {
		t.Errorf("without a text it says %q", got)
	}
	if word("unsaved") != "false" {
		t.Error("nothing is written and it is unsaved")
	}
	br.eval(`seek(10), $("text").focus()`, nil)
	br.call("Input.insertText", map[string]any{"text": "blink"}, nil)
	br.eval(`seek(50)`, nil) // looking elsewhere does not move the note
	if got := word(`$("text-label").textContent`); got != "Note on frame 10" {
		t.Errorf("the label says %q", got)
	}
	warns := `(() => { const e = new Event("beforeunload", {cancelable: true}); dispatchEvent(e); return e.defaultPrevented; })()`
	if word(warns) != "true" {
		t.Error("a note half written may be lost without a warning")
	}
	br.eval(`$("pin").click()`, nil)
	if got := br.listed(); got != "Frame 10, panel 1 | Aunt | blink" || word("unsaved") != "true" || word(warns) != "true" {
		t.Errorf("it lists %q, unsaved %v", got, word("unsaved"))
	}
	if got := word("notesText()"); got != hostile[1]+"\n\nFrame 10, panel 1, 0:00.416, Aunt:\nblink\n" {
		t.Errorf("as text it is %q", got)
	}
	br.eval(`document.querySelector("#list [aria-label^=Delete]").click()`, nil)
	if got := br.listed(); got != "Nobody has noted anything yet." {
		t.Errorf("deleted, it lists %q", got)
	}
	br.eval(`$("undo").click()`, nil)
	if got := br.listed(); got != "Frame 10, panel 1 | Aunt | blink" {
		t.Errorf("brought back, it lists %q", got)
	}
	name := saveName("", hostile[1])
	if f := br.saved(name); len(f.Notes) != 1 || f.Notes[0].Frame != 10 || word("unsaved") != "false" || word(warns) != "false" {
		t.Errorf("saved are %+v, unsaved %v", f.Notes, word("unsaved"))
	}
	br.clean()
}
