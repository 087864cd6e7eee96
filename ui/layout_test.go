package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

func TestTheWindowIsAsItWasLeft(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	w.win.Resize(fyne.NewSize(1234, 777))
	w.rows.SetOffset(0.5)
	w.columns.SetOffset(0.4)
	for _, name := range []string{"Look: dark", "Larger text", "Strong onsets", "A dragged start lands on bars", "A dragged start takes all after it along"} {
		w.keys.named[name].run()
	}
	w.lead = 2
	w.keepArrangement()

	worn, textPercent = looks[0], 100
	again := newWindow(w.app, Options{Ear: clickEar{}, Mute: true, post: func(f func()) { posted <- f }}, w.desk)
	if worn != looks[1] || textPercent != 110 {
		t.Errorf("look %q and text at %d %%, want dark and 110", worn.name, textPercent)
	}
	if again.rows.Offset != 0.5 || again.columns.Offset != 0.4 {
		t.Errorf("splits at %g and %g, want 0.5 and 0.4", again.rows.Offset, again.columns.Offset)
	}
	if tl := again.timeline; tl.view.onsets != strongOnset || tl.target != board.ToBar || !tl.pushing || again.lead != 2 {
		t.Errorf("onsets %g, target %q, pushing %v, lead %d", tl.view.onsets, tl.target, tl.pushing, again.lead)
	}
	usual, room := fyne.NewSize(1000, 600), fyne.NewSize(1592, 856)
	if got := keptSize(w.app, usual, room); got != fyne.NewSize(1234, 777) {
		t.Errorf("a new window is %v, want 1234 x 777", got)
	}
	if got := keptSize(w.app, usual, fyne.NewSize(1016, 724)); got != fyne.NewSize(1016, 724) {
		t.Errorf("on a smaller screen a new window is %v, want all of it", got)
	}
}

func TestKeptArrangementsThatMakeNoSense(t *testing.T) {
	usual := usualArrangement()
	for _, tt := range []struct {
		name, kept string
		want       func(*arrangement)
	}{
		{"nothing", "", func(*arrangement) {}},
		{"no JSON", "{{", func(*arrangement) {}},
		{"of another kind", `{"rows":"wide"}`, func(*arrangement) {}},
		{"shares outside", `{"rows":0,"columns":7}`, func(*arrangement) {}},
		{"a look there is not", `{"look":"velvet"}`, func(*arrangement) {}},
		{"a size of text between two", `{"text":131}`, func(a *arrangement) { a.Text = 125 }},
		{"a huge text", `{"text":9000}`, func(a *arrangement) { a.Text = 150 }},
		{"a target there is not", `{"target":"moon"}`, func(*arrangement) {}},
		{"no target", `{"target":""}`, func(a *arrangement) { a.Target = "" }},
		{"a lead too far", `{"lead":-900}`, func(a *arrangement) { a.Lead = -maxLead }},
		{"onsets of a strength not offered", `{"onsets":0.123}`, func(*arrangement) {}},
		{"no onsets", `{"onsets":2}`, func(a *arrangement) { a.Onsets = noOnsets }},
		{"what a later version added", `{"wall":true,"push":true}`, func(a *arrangement) { a.Push = true }},
	} {
		t.Run(tt.name, func(t *testing.T) {
			want := usual
			tt.want(&want)
			if got := readArrangement(tt.kept); got != want {
				t.Errorf("readArrangement(%s) = %+v, want %+v", tt.kept, got, want)
			}
		})
	}
}

func TestAWindowTooSmallToUseIsNotKept(t *testing.T) {
	w := openWindow(t)
	usual := fyne.NewSize(1000, 600)
	for _, kept := range []string{"", `{"width":12,"height":900}`, `{"width":900}`, `{"width":-5,"height":-5}`} {
		w.app.Preferences().SetString(arrangementKey, kept)
		if got := keptSize(w.app, usual, fyne.NewSize(2000, 2000)); got != usual {
			t.Errorf("%s: a new window is %v, want the usual %v", kept, got, usual)
		}
	}
}
