package page

import (
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
)

// wordyFilm is the dancing film with long words, notes and answers.
func wordyFilm(t *testing.T) board.Board {
	b := danceFilm(board.FrameRate{Num: 24, Den: 1})
	b.Title = "The teapot and " + strings.Repeat("Donaudampfschiff", 12)
	b.Panels[0].Action = strings.Repeat("The lid rises, looks about and settles again. ", 4)
	b.Panels[0].Sound = "tink, " + strings.Repeat("tink", 60)
	b.Panels[0].Words.Size, b.Panels[0].Camera = "MCU", "push in"
	long := strings.Repeat("wobble", 40)
	return edited(t, b, board.TakeRemarks([]board.Remark{
		{ID: "a", Author: strings.Repeat("A", 60), Written: 1, Panel: 1, Text: "Hold the lid longer here, it goes by too fast to be read."},
		{ID: "b", Author: "Uncle", Written: 2, Panel: 4, After: 0.5, Text: long},
		{ID: "c", Author: "Aunt", Written: 3, Text: "What of the spoon?", Was: 2},
	}), board.AnswerRemark("a", long), board.AcceptRemark("a"), board.TickRemark("b"))
}

// On no screen is anything cut off at the side; on a phone what is pressed is
// as high as a finger.
func TestThePageFitsEveryScreen(t *testing.T) {
	br := newBrowser(t)
	path, _ := written(t, wordyFilm(t), clicks{}, Options{})
	for _, c := range []struct {
		name  string
		w, h  int
		phone bool
	}{{"phone", 360, 740, true}, {"small", 320, 568, true}, {"lying", 740, 360, true}, {"desktop", 1280, 800, false}, {"large", 2560, 1440, false}} {
		br.open(path, c.w, c.h, c.phone)
		br.look()
		var got struct {
			Wide, Screen float64
			Out, Low     []string
		}
		br.eval(`(() => {
		  const boxes = [...document.querySelectorAll("body *")].filter((e) => !e.closest(".unseen, .skip, noscript") && e.getClientRects().length);
		  const name = (e) => e.tagName + "#" + e.id + "." + e.className;
		  return {
		    Wide: document.documentElement.scrollWidth, Screen: innerWidth,
		    Out: boxes.filter((e) => e.getBoundingClientRect().right > innerWidth + 0.5 || e.getBoundingClientRect().left < -0.5).map(name),
		    Low: [...document.querySelectorAll("#transport button, #pin, #save, #copy")].filter((e) => !e.hidden && e.getBoundingClientRect().height < 44).map(name),
		  };
		})()`, &got)
		if got.Wide > got.Screen || int(got.Screen) != c.w || len(got.Out) > 0 || len(got.Low) > 0 {
			t.Errorf("%s: %+v", c.name, got)
		}
		br.shot(c.name)
	}
	br.clean()
}

// A finger on the strip goes to the frame under it.
func TestTouchingTheStrip(t *testing.T) {
	br := newBrowser(t)
	b := danceFilm(board.FrameRate{Num: 24, Den: 1})
	path, _ := written(t, b, nil, Options{Silent: true})
	br.open(path, 360, 740, true)
	var box struct{ X, Y, Width float64 }
	br.eval(`(() => { const r = strip.getBoundingClientRect(); return {X: r.x, Y: r.y, Width: r.width}; })()`, &box)
	for _, f := range []board.Frame{0, 57, 105, 209} {
		at := map[string]any{"x": box.X + (float64(f)+0.5)/210*box.Width, "y": box.Y + 40}
		br.call("Input.dispatchTouchEvent", map[string]any{"type": "touchStart", "touchPoints": []any{at}}, nil)
		br.call("Input.dispatchTouchEvent", map[string]any{"type": "touchEnd", "touchPoints": []any{}}, nil)
		if s := br.look(); s.Frame != f {
			t.Errorf("touched at frame %d, frame %d is shown", f, s.Frame)
		}
	}
	br.clean()
}

// The tree that screen readers get has a name for everything that is used, and
// says where the film is.
func TestScreenReadersGetNames(t *testing.T) {
	br := newBrowser(t)
	path, _ := written(t, wordyFilm(t), clicks{}, Options{})
	br.open(path, 1280, 800, false)
	br.eval(`$("author").value = "Uncle", listNotes(), seek(30)`, nil)
	var tree struct {
		Nodes []struct {
			Ignored    bool
			Role, Name struct{ Value any }
		}
	}
	br.call("Accessibility.getFullAXTree", nil, &tree)
	count := map[string]int{}
	for _, n := range tree.Nodes {
		role, _ := n.Role.Value.(string)
		name, _ := n.Name.Value.(string)
		if n.Ignored || !slices.Contains([]string{"button", "textbox", "slider", "image", "group", "region", "heading", "RootWebArea"}, role) {
			continue
		}
		if count[role]++; strings.TrimSpace(name) == "" && role != "group" {
			t.Errorf("a %s has no name", role)
		}
	}
	// Transport, notes to go to, those of the writer, and the rest of the form.
	if count["button"] != 7+3+2+3 || count["textbox"] != 2 || count["slider"] != 1 || count["image"] != 1 || count["region"] != 2 {
		t.Errorf("it finds %v", count)
	}
	var said, value, label string
	br.eval(`new Promise((r) => setTimeout(() => r($("status").textContent), 400))`, &said)
	br.eval(`strip.getAttribute("aria-valuetext")`, &value)
	br.eval(`$("screen").getAttribute("aria-label")`, &label)
	if said != "Panel 2, frame 30" || value != said || !strings.HasPrefix(label, "Panel 2. "+hostile[1]) {
		t.Errorf("it says %q, the strip %q, the picture %q", said, value, label)
	}
}

// The order in which Tab goes is that of the page, and the focus is seen.
func TestTabGoesInOrder(t *testing.T) {
	br := newBrowser(t)
	path, _ := written(t, danceFilm(board.FrameRate{Num: 24, Den: 1}), nil, Options{Silent: true})
	br.open(path, 1280, 800, false)
	var got []string
	for range 15 {
		br.key("Tab")
		var at string
		br.eval(`(() => { const e = document.activeElement; return (e.id || e.className || e.tagName) + (getComputedStyle(e).outlineStyle === "none" ? " unseen" : ""); })()`, &at)
		got = append(got, at)
	}
	want := "skip strip panel-back beat-back frame-back play frame-on beat-on panel-on author text pin save copy SUMMARY"
	if s := strings.Join(got, " "); s != want {
		t.Errorf("Tab goes\n%s\nwant\n%s", s, want)
	}
}

// Text stands out from its ground by 4.5:1 or more (WCAG 2.2, 1.4.3).
func TestTextCanBeRead(t *testing.T) {
	br := newBrowser(t)
	path, _ := written(t, wordyFilm(t), clicks{}, Options{})
	br.open(path, 1280, 800, false)
	br.eval(`$("author").value = "Uncle", listNotes(), seek(0), $("silent").hidden = false, $("saved").textContent = "Saved."`, nil)
	var low []string
	var seen int
	br.eval(`(() => {
	  const parse = (c) => c.match(/[\d.]+/g).map(Number);
	  const linear = (v) => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
	  const light = (c) => 0.2126 * linear(c[0]) + 0.7152 * linear(c[1]) + 0.0722 * linear(c[2]);
	  const ground = (e) => { for (; e; e = e.parentElement) { const c = parse(getComputedStyle(e).backgroundColor); if (c.length < 4 || c[3] > 0) return c; } return [255, 255, 255]; };
	  window.textsSeen = 0;
	  const out = [], walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	  while (walk.nextNode()) {
	    const e = walk.currentNode.parentElement;
	    if (!walk.currentNode.data.trim() || e.closest("script, style, noscript") || !e.getClientRects().length) continue;
	    const a = light(parse(getComputedStyle(e).color)), b = light(ground(e));
	    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
	    textsSeen++;
	    if (ratio < 4.5) out.push(e.tagName + "." + e.className + " " + ratio.toFixed(2) + " " + e.textContent.slice(0, 30));
	  }
	  return out;
	})()`, &low)
	br.eval("textsSeen", &seen)
	if len(low) > 0 || seen < 40 {
		t.Errorf("of %d texts these cannot be read well: %q", seen, low)
	}
}
