package ui

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
)

func TestMatchingCommands(t *testing.T) {
	commands := []*command{
		{menu: "Edit", name: "Undo", key: fyne.KeyZ, mod: ctrl, label: func() string { return "Undo: snap" }},
		{menu: "Edit"},
		{menu: "Timing", name: "Snap to beats", key: fyne.KeyB, mod: ctrl},
		{menu: "Timing", name: "Snap to bars"},
		{menu: "Panel", name: "Move later", key: fyne.KeyRight, mod: ctrl},
		{menu: "Play", name: "Play around the cut"},
		{menu: "Picture", group: "Camera", name: "Camera: span to the right"},
		{menu: "Picture", group: "Camera", name: "Camera: pan right"},
		{menu: "Beats", name: "Take the nearest beat out", key: fyne.KeyH, mod: shift},
	}
	for _, tt := range []struct {
		typed string
		want  []string
	}{
		{"", []string{"Undo", "Snap to beats", "Snap to bars", "Move later", "Play around the cut", "Camera: span to the right", "Camera: pan right", "Take the nearest beat out"}},
		{"snap", []string{"Snap to beats", "Snap to bars", "Undo"}}, // names that begin so first
		{"  BEAT  snap ", []string{"Snap to beats"}},
		{"pan right", []string{"Camera: pan right", "Camera: span to the right", "Move later"}}, // "Panel" and "Ctrl+Right" last
		{"play", []string{"Play around the cut"}},
		{"right pan", []string{"Camera: pan right", "Camera: span to the right", "Move later"}},
		{"cut", []string{"Play around the cut"}},
		{"timing", []string{"Snap to beats", "Snap to bars"}},
		{"ctrl+b", []string{"Snap to beats"}},
		{"shift", []string{"Take the nearest beat out"}},
		{"kettle", nil},
	} {
		var got []string
		for _, c := range matching(commands, tt.typed) {
			got = append(got, c.name)
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("matching %q: %q, want %q", tt.typed, got, tt.want)
		}
	}
}

func TestACommandIsFoundAndDone(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.choose(0)
	cv := w.win.Canvas()
	find := func(words string) *field {
		w.findCommand()
		f := cv.Focused().(*field)
		f.SetText(words)
		return f
	}
	key := func(f *field, name fyne.KeyName) { f.TypedKey(&fyne.KeyEvent{Name: name}) }

	key(find("a copy dupl"), fyne.KeyReturn) // nothing has these words
	if len(w.board.Panels) != 3 || cv.Overlays().Top() == nil {
		t.Errorf("words that fit nothing leave %d panels", len(w.board.Panels))
	}
	cv.Overlays().Top().Hide()

	key(find("duplicate"), fyne.KeyReturn)
	if len(w.board.Panels) != 4 || cv.Overlays().Top() != nil {
		t.Errorf("found and taken by Return, Duplicate leaves %d panels", len(w.board.Panels))
	}

	f := find("look:")
	key(f, fyne.KeyDown) // the second of the looks
	key(f, fyne.KeyReturn)
	if worn != looks[1] {
		t.Errorf("the second look is %q, worn is %q", looks[1].name, worn.name)
	}

	f = find("even holds") // for several panels only
	key(f, fyne.KeyReturn)
	if cv.Overlays().Top() == nil || w.foot.words.Text != "That cannot be done now." {
		t.Errorf("what cannot be done says %q", w.foot.words.Text)
	}
	key(f, fyne.KeyEscape)
	if cv.Overlays().Top() != nil {
		t.Error("Escape does not close the list")
	}
}

func TestContextMenus(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	w.choose(0)
	w.keys.give(w.keys.named["Duplicate"], chord{fyne.KeyF8, 0})
	for _, tt := range []struct {
		onPanel  bool
		has, not []string
	}{
		{true, []string{"Duplicate", "F8", "Join", "Split at the playhead"}, []string{"Set the tempo…", "Even holds"}}, // one panel has no even holds
		{false, []string{"Set the tempo…", "A bar starts here…"}, []string{"Duplicate", "Join"}},
	} {
		w.contextMenu(tt.onPanel, fyne.NewPos(50, 50))
		top := w.win.Canvas().Overlays().Top()
		if top == nil {
			t.Fatalf("on a panel %v: no menu", tt.onPanel)
		}
		shown := textsIn(top)
		for _, s := range tt.has {
			if !slices.Contains(shown, s) {
				t.Errorf("on a panel %v: %q is missing in %q", tt.onPanel, s, shown)
			}
		}
		for _, s := range tt.not {
			if slices.Contains(shown, s) {
				t.Errorf("on a panel %v: %q stands in the menu", tt.onPanel, s)
			}
		}
		top.Hide()
	}
}
