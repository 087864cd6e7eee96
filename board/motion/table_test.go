package motion

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"stillbeat/board"
)

// teaFilm is a film at 24 frames a second on twos, its second panel on ones,
// with a click of 12 frames and bars of four: the cup falls and lands on beat 3
// of the first bar, frame 24, the saucer slides off while it does.
func teaFilm(t testing.TB) board.Board {
	t.Helper()
	b := board.New()
	b.Step = 2
	for i, f := range []board.Frame{0, 12, 36} {
		b.Panels = append(b.Panels, board.Panel{ID: board.PanelID(i + 1), Start: board.Free(b.Rate.Seconds(f))})
	}
	b.Panels[1].Step, b.NextID, b.End = 1, 4, board.Free(2)
	fall := Suggest(board.Falling, 1, 2)
	fall.Hits = []board.Hit{{Moment: 1, Start: board.Start{Anchor: board.Anchor{Beat: 2, Of: 1}}}}
	late := Suggest(board.SlowingBoth, 3, 3)
	late.Hits = []board.Hit{{Moment: 1, Start: board.Start{Anchor: board.Anchor{Beat: 3, Part: 1, Of: 4}}}}
	for _, e := range []board.Edit{board.SetClick(board.Click{Frames: 12}, 0), board.SetBars(0, 4),
		board.AddObjectMove(fall), board.AddObjectMove(late), board.AddObjectMove(Suggest(board.Evenly, 1, 3))} {
		var err error
		if b, err = e.Apply(b); err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
	}
	return b
}

func TestTablesOfAFilm(t *testing.T) {
	b := teaFilm(t)
	tables := Tables(b, Limits{})
	var out strings.Builder
	for _, tab := range tables {
		fmt.Fprintf(&out, "%s\n%s\n", tab.Move.Object, written(tab))
	}
	for _, f := range Findings(tables) {
		fmt.Fprintf(&out, "%s: move %d, panel %d, frame %d: %s: %s\n", f.Object, f.Move, f.Panel+1, f.Frame, f.Kind, f.Reason)
	}
	golden(t, "tea.txt", out.String())
}

// The last step of the fall, which takes 11.87 frames, is what 200 mm leave of
// it after 10.87: 200 (1 - (10.87/11.87)^2) = 32.3 mm.
func TestWordsForASheet(t *testing.T) {
	tables := Tables(teaFilm(t), Limits{})
	for _, c := range []struct {
		table int
		frame board.Frame
		want  string
	}{
		{0, 0, "cup 200.0 mm high"},
		{0, 24, "cup 0.0 mm high, step 32.3, lands"},
		{2, 0, "sugar lumps 0.0 mm, sets off"},
		{2, 24, "sugar lumps 125.2 mm, step 5.2"},
		{2, 46, "sugar lumps 240.0 mm, step 10.4, arrives"},
	} {
		r, ok := tables[c.table].At(c.frame)
		if got := tables[c.table].Words(r, true); !ok || r.Frame != c.frame || got != c.want {
			t.Errorf("frame %d: %q, want %q", c.frame, got, c.want)
		}
	}
	hop := board.ObjectMove{Manner: board.Jumping, Rise: 30, Keys: []board.Spot{{X: -20}, {X: 20, Y: 30}}}
	rate := board.FrameRate{Num: 24, Den: 1}
	landing := board.Frame(math.Round(24 * HangSeconds(30, 1)))
	table := Space(hop, Every(rate, board.Span{End: 24}, 1), nil, Limits{})
	if got, want := table.Words(table.Rows[landing], false), "50.0 mm, 0.0 high, step "; !strings.HasPrefix(got, want) {
		t.Errorf("a hop across the set lands with %q, want how far as well: %q", got, want)
	}
	if r, ok := tables[0].At(1); !ok || r.Frame != 0 {
		t.Errorf("frame 1, held on twos, is shown by %+v, %v", r, ok)
	}
	if r, ok := tables[1].At(47); !ok || r.Frame != 46 {
		t.Errorf("frame 47 is shown by %+v, %v", r, ok)
	}
	if _, ok := tables[1].At(48); ok {
		t.Error("the film has a frame after its end")
	}
	if got := Tenths(-0.04); got != "0.0" {
		t.Errorf("it writes %q", got)
	}
}
