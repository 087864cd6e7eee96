package board

import (
	"math"
	"reflect"
	"strings"
	"testing"
)

func TestPlainEdits(t *testing.T) {
	b := atFrames(0, 5, 12, 20)
	words := Words{Title: "wide", Action: "the cup tips", Sound: "clink", Note: "rig behind"}
	for name, c := range map[string]struct {
		edit Edit
		got  func(Board) any
		want any
	}{
		"title":         {SetTitle("Tea"), func(b Board) any { return b.Title }, "Tea"},
		"rate":          {SetRate(FrameRate{25, 1}), func(b Board) any { return b.Rate }, FrameRate{25, 1}},
		"step":          {SetStep(3), func(b Board) any { return b.Step }, 3},
		"words":         {setWords(1, words), func(b Board) any { return b.Panels[1].Words }, words},
		"paint over":    {PaintOver(2, "beef"), func(b Board) any { return b.Panels[2].Picture }, MediaID("beef")},
		"picture":       {SetPicture(one(2), "beef"), func(b Board) any { return b.Panels[2].Picture }, MediaID("beef")},
		"panel step":    {SetPanelStep(one(0), 4), func(b Board) any { return b.StepOf(0) }, 4},
		"follow film":   {SetPanelStep(one(0), 0), func(b Board) any { return b.StepOf(0) }, 1},
		"start":         {SetStart(1, Free(8.0/24)), func(b Board) any { return b.Starts() }, []Frame{0, 8, 12, 20}},
		"start to edge": {SetStart(1, Free(11.0/24)), func(b Board) any { return b.Starts() }, []Frame{0, 11, 12, 20}},
		"end":           {SetStart(3, Free(2)), func(b Board) any { return b.Starts() }, []Frame{0, 5, 12, 48}},
		"first hold":    {SetHold(one(0), 1), func(b Board) any { return b.Starts() }, []Frame{0, 1, 8, 16}},
		"middle hold":   {SetHold(one(1), 9), func(b Board) any { return b.Starts() }, []Frame{0, 5, 14, 22}},
		"last hold":     {SetHold(one(2), 9), func(b Board) any { return b.Starts() }, []Frame{0, 5, 12, 21}},
	} {
		t.Run(name, func(t *testing.T) {
			out := do(t, b, c.edit)
			if got := c.got(out); !reflect.DeepEqual(got, c.want) {
				t.Errorf("got %v, want %v", got, c.want)
			}
			if c.edit.Name == "" {
				t.Error("undo has no name for it")
			}
			undoes(t, b, c.edit)
		})
	}
}

// undoes fails unless undo and redo of an edit return to boards equal to those
// before and after.
func undoes(t *testing.T, b Board, e Edit) {
	t.Helper()
	h := NewHistory(b)
	if err := h.Do(e); err != nil {
		t.Fatal(err)
	}
	after := deepCopy(h.Board())
	if !h.Undo() || !reflect.DeepEqual(h.Board(), b) {
		t.Errorf("undo of %s gives %+v, want %+v", e.Name, h.Board(), b)
	}
	if !h.Redo() || !reflect.DeepEqual(h.Board(), after) {
		t.Errorf("redo of %s gives %+v, want %+v", e.Name, h.Board(), after)
	}
}

func TestRefusedEditsChangeNothing(t *testing.T) {
	b := atFrames(0, 5, 12, 20)
	long := strings.Repeat("x", MaxText+1)
	for _, c := range []struct {
		edit Edit
		want string
	}{
		{SetTitle(long), "title"},
		{SetTitle("\xff"), "title"},
		{SetRate(FrameRate{0, 1}), "frame rate"},
		{SetRate(FrameRate{24, 0}), "frame rate"},
		{SetStep(0), "step"},
		{SetStep(13), "step"},
		{setWords(-1, Words{}), "no such panel"},
		{setWords(3, Words{}), "no such panel"},
		{setWords(0, Words{Note: long}), "too long"},
		{SetPicture(one(3), "beef"), "no such panel"},
		{SetPanelStep(one(3), 1), "no such panel"},
		{SetPanelStep(one(0), -1), "step"},
		{SetPanelStep(one(0), 13), "step"},
		{SetStart(0, Free(0)), "no such panel"},
		{SetStart(-1, Free(0)), "no such panel"},
		{SetStart(4, Free(1)), "no such panel"},
		{SetStart(1, Free(0)), "1 to 11"},
		{SetStart(1, Free(0.5)), "1 to 11"},
		{SetStart(3, Free(0.5)), "13 to"},
		{SetStart(1, Free(math.NaN())), "outside the room"},
		{SetStart(3, Free(math.Inf(1))), "outside the room"},
		{SetStart(3, Free(MaxSeconds)), "outside the room"},
		{SetStart(1, Start{Time: 0.25, Anchor: Anchor{Of: MaxParts + 1}}), "makes no sense"},
		{SetHold(one(-1), 5), "no such panel"},
		{SetHold(one(3), 5), "no such panel"},
		{SetHold(one(0), 0), "at least one frame"},
		{SetHold(one(0), -5), "at least one frame"},
		{SetHold(one(0), math.MaxInt64), "longer than a film"},
		{SetHold(one(0), MaxSeconds*24), "outside the film"},
		{Insert(-1, make([]Panel, 1), 1), "no such panel"},
		{Insert(4, make([]Panel, 1), 1), "no such panel"},
		{Insert(0, make([]Panel, 1), 0), "not on every 0"},
		{Insert(0, make([]Panel, 3), math.MaxInt/2), "not on every"},
		{Insert(0, make([]Panel, MaxPanels), 1), "a film has at most"},
		{Insert(0, []Panel{{Step: 99}}, 1), "step"},
		{Delete(upTo(0, 0)), "no such panel"},
		{Delete(upTo(-1, 1)), "no such panel"},
		{Delete(upTo(2, 4)), "no such panel"},
		{Delete(upTo(2, 1)), "no such panel"},
		{moveTo(-1, 0), "no such panel"},
		{moveTo(0, 3), "no such panel"},
		{moveTo(3, 0), "no such panel"},
		{Duplicate(one(-1)), "no such panel"},
		{Duplicate(one(3)), "no such panel"},
		{Split(3, 15), "no such panel"},
		{Split(1, 5), "frames 6 to 11"},
		{Split(1, 12), "frames 6 to 11"},
		{SlideSong(1), "no song"},
		{SetSong(&Song{Seconds: math.NaN()}, Grid{}), "impossible"},
		{SetSong(&Song{}, NewGrid([]float64{1, 0}, nil)), "ascending"},
		{TrimSong(0, 1), "no song"},
		{FadeSong(0, 1), "no song"},
		{SetGain(1), "no song"},
		{SetTempo(math.NaN(), 0), "tempo of NaN is outside"},
		{SetTempo(9, 0), "outside 10 to 600"},
		{SetTempo(601, 0), "outside 10 to 600"},
		{SetTempo(120, math.Inf(1)), "outside the film"},
		{SetClick(Click{}, 0), "outside 10 to 600"},
		{ScaleTempo(2, 1), "no beats"},
		{ScaleTempo(1, 1), "not by 1/1"},
		{ScaleTempo(2, 0), "not by 2/0"},
		{SlideGrid(1), "no beats"},
		{MoveBeat(0, 1), "no such beat"},
		{MoveBeat(-1, 1), "no such beat"},
		{AddBeat(math.NaN()), "outside the film"},
		{AddBeat(MaxSeconds + 1), "outside the film"},
		{RemoveBeat(0), "no such beat"},
		{RemoveBeat(-1), "no such beat"},
		{SetBars(0, 4), "no such beat"},
		{LockBeats(2, 2), "no stretch"},
		{LockBeats(math.NaN(), 2), "no stretch"},
		{UnlockBeats(3, 2), "no stretch"},
		{MergeGrid(NewGrid([]float64{1, 0}, nil)), "ascending"},
		{LayTaps(TapFit{}), "no beats"},
		{LayTaps(TapFit{Beats: []float64{1, 0}, Follow: true}), "ascending"},
		{Snap(SnapOptions{To: ToBeat}), "no beats to snap to"},
		{Snap(SnapOptions{To: "noon"}), "no noons to snap to"},
	} {
		refused(t, b, c.edit, c.want)
		h := NewHistory(b)
		if h.Do(c.edit) == nil || h.Undo() || h.Redo() {
			t.Errorf("%s was refused but left a step to undo", c.edit.Name)
		}
	}
	refused(t, New(), Snap(SnapOptions{To: ToBeat}), "no panels")
	refused(t, New(), Delete(upTo(0, 1)), "no such panel")

	full := atFrames(0, 20)
	full.End = Free(MaxSeconds - 1)
	refused(t, full, Duplicate(one(0)), "outside the film")
	refused(t, do(t, New(), SetSong(&Song{}, Grid{})), SlideSong(math.NaN()), "impossible")
	refused(t, do(t, New(), SetSong(&Song{}, Grid{})), SlideSong(MaxSeconds+1), "impossible")
}

func TestARateAtWhichTheFilmWouldNotFitIsRefused(t *testing.T) {
	b := do(t, New(), SetRate(FrameRate{120, 1}))
	for i := range Frame(MaxPanels) { // a frame each: 2 min 47 s, at 1 fps over 5 hours
		b.Panels = append(b.Panels, Panel{ID: b.NextID, Start: Free(b.Rate.Seconds(i))})
		b.NextID++
	}
	b.End = Free(b.Rate.Seconds(MaxPanels))
	refused(t, b, SetRate(FrameRate{1, 1}), "the longest is 3")
	do(t, b, SetRate(frameRate24))
}

func TestInsertWithoutBeatsGivesEachPanelASecond(t *testing.T) {
	wantStarts(t, do(t, New(), Insert(0, make([]Panel, 3), 1)), 0, 24, 48, 72)
	b := do(t, do(t, New(), SetRate(FrameRate{30000, 1001})), Insert(0, make([]Panel, 40), 1))
	for i, f := range b.Starts() { // in all they keep to the second
		if off := math.Abs(b.Rate.Seconds(f) - float64(i)); off > 0.5*b.Rate.Seconds(1)+1e-9 {
			t.Errorf("panel %d starts %.4f s off its second", i+1, off)
		}
	}
	wantStarts(t, do(t, atFrames(0, 5, 9), Insert(1, make([]Panel, 2), 1)), 0, 5, 29, 53, 57)
}

func TestInsertGivesOutIDs(t *testing.T) {
	fresh := []Panel{{ID: 77, Start: Free(9), Picture: "p1"}, {ID: 77, Picture: "p2", Step: 2}}
	b := do(t, atFrames(0, 5, 9), Insert(2, fresh, 1))
	if b.Panels[2].ID != 3 || b.Panels[3].ID != 4 || b.NextID != 5 {
		t.Errorf("ids %d and %d, next %d", b.Panels[2].ID, b.Panels[3].ID, b.NextID)
	}
	if b.Panels[2].Picture != "p1" || b.Panels[3].Picture != "p2" || b.Panels[3].Step != 2 {
		t.Errorf("the panels came in as %+v", b.Panels[2:])
	}
	if fresh[0].ID != 77 || fresh[0].Start != Free(9) {
		t.Error("the caller's panels were changed")
	}
	again := do(t, do(t, b, Delete(upTo(3, 4))), Insert(3, make([]Panel, 1), 1))
	if again.Panels[3].ID != 5 {
		t.Errorf("the id of a deleted panel is given out again: %d", again.Panels[3].ID)
	}
}

func TestDelete(t *testing.T) {
	b := atFrames(0, 5, 12, 20, 31)
	for name, c := range map[string]struct {
		i, j int
		want []Frame
	}{
		"the one before holds on":   {1, 2, []Frame{0, 12, 20, 31}},
		"two of them":               {1, 3, []Frame{0, 20, 31}},
		"the next starts the film":  {0, 1, []Frame{0, 12, 20, 31}},
		"the last ends the film":    {3, 4, []Frame{0, 5, 12, 20}},
		"all but the first":         {1, 4, []Frame{0, 5}},
		"all but the last":          {0, 3, []Frame{0, 31}},
		"all of them":               {0, 4, []Frame{0}},
		"two in the middle of four": {2, 4, []Frame{0, 5, 12}},
	} {
		t.Run(name, func(t *testing.T) {
			out := do(t, b, Delete(upTo(c.i, c.j)))
			wantStarts(t, out, c.want...)
			undoes(t, b, Delete(upTo(c.i, c.j)))
			if len(out.Panels) > 0 && out.Panels[0].Start != (Start{}) {
				t.Errorf("the first panel keeps the start %+v", out.Panels[0].Start)
			}
			for k, id := 0, PanelID(1); id <= 4; id++ {
				if int(id) > c.i && int(id) <= c.j {
					continue
				}
				if out.Panels[k].ID != id {
					t.Errorf("panel %d has the id %d, want %d", k+1, out.Panels[k].ID, id)
				}
				k++
			}
		})
	}
}

func TestMoveDuplicateSplit(t *testing.T) {
	b := atFrames(0, 5, 12, 20, 31) // holds 5 7 8 11
	for name, c := range map[string]struct {
		edit Edit
		ids  []PanelID
		want []Frame
	}{
		"first to last":   {moveTo(0, 3), []PanelID{2, 3, 4, 1}, []Frame{0, 7, 15, 26, 31}},
		"last to first":   {moveTo(3, 0), []PanelID{4, 1, 2, 3}, []Frame{0, 11, 16, 23, 31}},
		"one up":          {moveTo(1, 2), []PanelID{1, 3, 2, 4}, []Frame{0, 5, 13, 20, 31}},
		"where it is":     {moveTo(2, 2), []PanelID{1, 2, 3, 4}, []Frame{0, 5, 12, 20, 31}},
		"copy the first":  {Duplicate(one(0)), []PanelID{1, 5, 2, 3, 4}, []Frame{0, 5, 10, 17, 25, 36}},
		"copy the last":   {Duplicate(one(3)), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 5, 12, 20, 31, 42}},
		"split early":     {Split(1, 6), []PanelID{1, 2, 5, 3, 4}, []Frame{0, 5, 6, 12, 20, 31}},
		"split late":      {Split(3, 30), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 5, 12, 20, 30, 31}},
		"split the first": {Split(0, 4), []PanelID{1, 5, 2, 3, 4}, []Frame{0, 4, 5, 12, 20, 31}},
	} {
		t.Run(name, func(t *testing.T) {
			out := do(t, b, c.edit)
			wantStarts(t, out, c.want...)
			var ids []PanelID
			for _, p := range out.Panels {
				ids = append(ids, p.ID)
			}
			if !reflect.DeepEqual(ids, c.ids) {
				t.Errorf("ids %v, want %v", ids, c.ids)
			}
			undoes(t, b, c.edit)
		})
	}
	drawn := do(t, do(t, b, SetPicture(one(1), "beef")), SetPanelStep(one(1), 2))
	for _, out := range []Board{do(t, drawn, Duplicate(one(1))), do(t, drawn, Split(1, 9))} {
		if p := out.Panels[2]; p.Picture != "beef" || p.Step != 2 {
			t.Errorf("the new panel is %+v", p)
		}
	}
}
