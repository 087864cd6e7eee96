package ui

import (
	"strings"
	"testing"

	"stillbeat/board"
)

func TestSeenRatesGoRound(t *testing.T) {
	b := board.New()
	for _, tt := range []struct {
		film string
		want []string
	}{
		{"24", []string{"8", "12"}}, {"12", []string{"8", "24"}}, {"25", []string{"8", "12", "24"}}, {"23.976", []string{"8", "12", "24"}},
	} {
		var err error
		if b.Rate, err = board.ParseRate(tt.film); err != nil {
			t.Fatal(err)
		}
		var got []string
		for r := nextSeenRate(b.Rate, nil); r != nil && len(got) < 9; r = nextSeenRate(b.Rate, seenAs(nil, b, *r)) {
			got = append(got, r.String())
		}
		if strings.Join(got, " ") != strings.Join(tt.want, " ") {
			t.Errorf("a film of %s is seen at %v, want %v", tt.film, got, tt.want)
		}
	}
}

func TestSeenAtAnotherRate(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.do(board.SetStart(1, board.Free(26./24))) // at 8 fps frame 8.67, nearest 9: 27 of 24
	was := w.board
	up := func(f board.Frame) board.PanelID {
		w.seek(f)
		return w.viewer.panel.ID
	}
	first, second := w.board.Panels[0].ID, w.board.Panels[1].ID
	if up(25) != first || up(26) != second {
		t.Fatal("the film itself does not cut at frame 26")
	}
	next := w.keys.named["See it at 8, 12 or 24 fps"]
	next.run()
	if up(26) != first || up(27) != second {
		t.Error("at 8 fps the cut is not at frame 27")
	}
	if note := w.viewer.over.note; note.back.Hidden || !strings.Contains(note.text, "8 fps") {
		t.Errorf("the picture says %q", note.text)
	}
	next.run()
	if up(25) != first || up(26) != second || !strings.Contains(w.viewer.over.note.text, "12 fps") {
		t.Errorf("at 12 fps the cut is not at frame 26, or it says %q", w.viewer.over.note.text)
	}
	w.do(board.SetStart(1, board.Free(1))) // an edit is seen at once
	if up(23) != first || up(24) != second {
		t.Error("the edit is not seen at 12 fps")
	}
	w.desk.Undo()
	next.run()
	if w.seen != nil || !w.viewer.over.note.back.Hidden || up(25) != first || up(26) != second {
		t.Error("it does not go back to the film's own rate")
	}
	if w.board.Rate != was.Rate || w.starts[1] != 26 {
		t.Errorf("the film changed: %v, start %d", w.board.Rate, w.starts[1])
	}
	next.run()
	w.do(board.SetRate(board.FrameRate{Num: 8, Den: 1}))
	if w.seen != nil {
		t.Error("a film of 8 fps is still seen as at 8 fps")
	}
	if next.run(); w.seen == nil {
		t.Error("a film of 8 fps is not seen at 12")
	}
	w.openFilm("")
	settle(t, w)
	if w.seen != nil {
		t.Error("another film is seen at the rate of the one before")
	}
}
