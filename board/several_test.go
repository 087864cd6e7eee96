package board

import (
	"slices"
	"testing"
)

// ids returns the ids of the panels in order.
func ids(b Board) []PanelID {
	out := make([]PanelID, len(b.Panels))
	for i, p := range b.Panels {
		out[i] = p.ID
	}
	return out
}

// Five free panels of 10, 20, 30, 40 and 50 frames, ids 1 to 5.
func fiveHolds() Board { return atFrames(0, 10, 30, 60, 100, 150) }

func TestEditsOfSeveralPanels(t *testing.T) {
	for _, c := range []struct {
		name   string
		edit   Edit
		ids    []PanelID
		starts []Frame
	}{
		{"delete scattered, their time to the panel before", Delete([]int{3, 1}), []PanelID{1, 3, 5}, []Frame{0, 30, 100, 150}},
		{"delete the first two", Delete([]int{0, 1}), []PanelID{3, 4, 5}, []Frame{0, 60, 100, 150}},
		{"delete the last two and one before", Delete([]int{4, 3, 1}), []PanelID{1, 3}, []Frame{0, 30, 60}},
		{"delete all", Delete([]int{0, 1, 2, 3, 4}), nil, []Frame{0}},
		{"a panel named twice is deleted once", Delete([]int{1, 1}), []PanelID{1, 3, 4, 5}, []Frame{0, 30, 60, 100, 150}},
		{"cut out scattered, the rest moves up", CloseUp([]int{1, 3}), []PanelID{1, 3, 5}, []Frame{0, 10, 40, 90}},
		{"cut out the first", CloseUp([]int{0}), []PanelID{2, 3, 4, 5}, []Frame{0, 20, 50, 90, 140}},
		{"cut out all", CloseUp([]int{4, 3, 2, 1, 0}), nil, []Frame{0}},
		{"move two to the front", Move([]int{4, 2}, 0), []PanelID{3, 5, 1, 2, 4}, []Frame{0, 30, 80, 90, 110, 150}},
		{"move two to the end", Move([]int{0, 3}, 5), []PanelID{2, 3, 5, 1, 4}, []Frame{0, 20, 50, 100, 110, 150}},
		{"move two about themselves", Move([]int{1, 3}, 3), []PanelID{1, 3, 2, 4, 5}, []Frame{0, 10, 40, 60, 100, 150}},
		{"move to where it is", Move([]int{2}, 3), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 10, 30, 60, 100, 150}},
		{"duplicate scattered", Duplicate([]int{2, 0}), []PanelID{1, 2, 3, 6, 7, 4, 5}, []Frame{0, 10, 30, 60, 70, 100, 140, 190}},
		{"paste in the middle", Paste(1, []Panel{{ID: 99}, {ID: 1}}, []Frame{5, 6}), []PanelID{1, 6, 7, 2, 3, 4, 5}, []Frame{0, 10, 15, 21, 41, 71, 111, 161}},
		{"join a run, given by its ends", Join([]int{3, 1}), []PanelID{1, 2, 5}, []Frame{0, 10, 100, 150}},
		{"one hold for several", SetHold([]int{0, 2}, 12), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 12, 32, 44, 84, 134}},
		{"even holds, the length stays", Spread([]int{1, 3}), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 10, 40, 70, 100, 150}},
		{"holds in proportion", ScaleHolds([]int{1, 3}, 45), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 10, 20, 35, 55, 105}},
		{"holds as short as can be", ScaleHolds([]int{1, 2, 3}, 3), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 10, 11, 12, 13, 63}},
		{"a start and all after", Push(2, Free(1)), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 10, 24, 54, 94, 144}},
		{"the end", Push(5, Free(5)), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 10, 30, 60, 100, 120}},
		{"nudge two neighbours", Nudge([]int{1, 2}, 3), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 13, 33, 60, 100, 150}},
		{"nudge with the first, which stays", Nudge([]int{0, 1}, -2), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 8, 30, 60, 100, 150}},
		{"nudge by a second for want of beats", NudgeBeats([]int{4}, 1), []PanelID{1, 2, 3, 4, 5}, []Frame{0, 10, 30, 60, 124, 150}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := fiveHolds()
			out := do(t, b, c.edit)
			if got := ids(out); !slices.Equal(got, c.ids) {
				t.Errorf("panels %v, want %v", got, c.ids)
			}
			wantStarts(t, out, c.starts...)
			undoes(t, b, c.edit)
		})
	}
}

func TestEditsOfSeveralPanelsRefuse(t *testing.T) {
	b := fiveHolds()
	grid := withSong(t, frameRate24, 120, 8)
	grid = do(t, grid, Insert(0, make([]Panel, 2), 2))
	for _, c := range []struct {
		name string
		b    Board
		edit Edit
		want string
	}{
		{"nothing chosen", b, Delete(nil), "no such panel"},
		{"beyond the last", b, CloseUp([]int{1, 5}), "no such panel"},
		{"before the first", b, Duplicate([]int{-1}), "no such panel"},
		{"to nowhere", b, Move([]int{1}, 6), "no such panel"},
		{"a hold missing", b, Paste(0, make([]Panel, 2), []Frame{1}), "no such panel"},
		{"a hold of nothing", b, Paste(0, make([]Panel, 1), []Frame{0}), "at least one frame"},
		{"one alone", b, Join([]int{2}), "two panels or more"},
		{"too short to hold all", b, ScaleHolds([]int{0, 2}, 2), "do not fit into 2 frames"},
		{"longer than a film", b, ScaleHolds([]int{0, 2}, 1<<40), "do not fit"},
		{"beats without beats", b, HoldBeats([]int{0}, 1, ToBeat), "no beats"},
		{"onsets are no measure", grid, HoldBeats([]int{0}, 1, ToOnset), "not in onsets"},
		{"no beats at all", grid, HoldBeats([]int{0}, 0, ToBeat), "1 to 1000"},
		{"no hold left", b, Push(1, Free(0)), "panel 1 would hold for 0 frames"},
		{"the first start", b, Push(0, Free(1)), "no such panel"},
		{"the first alone", b, Nudge([]int{0}, 1), "always starts the film"},
		{"onto the panel before", b, Nudge([]int{1}, -10), "no room"},
		{"onto the panel after", b, Nudge([]int{1}, 20), "no room"},
		{"the first to be snapped", grid, Snap(SnapOptions{To: ToBeat, Panels: []int{0}}), "always starts the film"},
		{"none to be snapped", grid, Snap(SnapOptions{To: ToBeat, Panels: []int{}}), "no such panel"},
	} {
		t.Run(c.name, func(t *testing.T) { refused(t, c.b, c.edit, c.want) })
	}
}

func TestJoinKeepsWhatIsWritten(t *testing.T) {
	b := fiveHolds()
	b = do(t, b, setWords(0, Words{Action: "The lid lifts."}))
	b = do(t, b, setWords(1, Words{Title: "Steam", Action: "Steam.", Sound: "hiss"}))
	b = do(t, b, setWords(2, Words{Title: "More", Action: "Steam.", Note: "cotton wool"}))
	b = do(t, b, SetPicture(one(1), "aa"))
	got := do(t, b, Join([]int{0, 1, 2})).Panels[0]
	want := Words{Title: "Steam", Action: "The lid lifts.\nSteam.", Sound: "hiss", Note: "cotton wool"}
	if got.Words != want || got.Picture != "aa" || got.ID != 1 {
		t.Errorf("the panel is %+v, want the words %+v", got, want)
	}
}

func TestHoldBeats(t *testing.T) {
	b := withSong(t, frameRate24, 120, 20) // a beat is 12 frames, bars on 0 4 8 12 16
	b = do(t, b, Insert(0, make([]Panel, 4), 2))
	for _, c := range []struct {
		name   string
		set    []int
		n      int
		unit   Target
		starts []Frame
	}{
		{"a beat each", []int{0, 1, 2, 3}, 1, ToBeat, []Frame{0, 12, 24, 36, 48}},
		{"three beats for two of them", []int{1, 3}, 3, ToBeat, []Frame{0, 24, 60, 84, 120}},
		{"a bar each", []int{0, 1, 2, 3}, 1, ToBar, []Frame{0, 48, 96, 144, 192}},
		{"two bars, past the last bar line", []int{0, 1, 2, 3}, 2, ToBar, []Frame{0, 96, 192, 288, 384}},
		{"half a beat", []int{1}, 1, ToHalf, []Frame{0, 24, 30, 54, 78}},
		{"two thirds", []int{1}, 2, ToThird, []Frame{0, 24, 32, 56, 80}},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := do(t, b, HoldBeats(c.set, c.n, c.unit))
			wantStarts(t, out, c.starts...)
			undoes(t, b, HoldBeats(c.set, c.n, c.unit))
		})
	}
	if got := anchors(do(t, b, HoldBeats([]int{0, 1, 2, 3}, 1, ToBar))); got != "aaaa" {
		t.Errorf("laid on bars the starts are %q, want all anchored", got)
	}
	// From a start off the beat a hold ends on the beat all the same.
	off := do(t, b, SetStart(1, Free(25./24)))
	wantStarts(t, do(t, off, HoldBeats([]int{1}, 2, ToBeat)), 0, 25, 48, 72, 96)
	// Bars of three are counted from where they begin.
	waltz := do(t, b, SetBars(0, 3))
	wantStarts(t, do(t, waltz, HoldBeats([]int{0, 1, 2, 3}, 1, ToBar)), 0, 36, 72, 108, 144)
	none := b
	none.Grid = NewGrid(metronome(120, 8, 0), nil)
	wantStarts(t, do(t, none, HoldBeats([]int{0, 1}, 1, ToBar)), 0, 48, 96, 120, 144)
}

func TestNudgeKeepsTheAnchor(t *testing.T) {
	b := withSong(t, frameRate24, 120, 20)
	b = do(t, b, Insert(0, make([]Panel, 4), 2))
	wantAnchors(t, do(t, b, Nudge([]int{1, 2}, -2)), Anchor{Beat: 2, Of: 1, Offset: -2}, Anchor{Beat: 4, Of: 1, Offset: -2},
		Anchor{Beat: 6, Of: 1}, Anchor{Beat: 8, Of: 1})
	wantAnchors(t, do(t, b, NudgeBeats([]int{1, 2}, 1)), Anchor{Beat: 3, Of: 1}, Anchor{Beat: 5, Of: 1}, Anchor{Beat: 6, Of: 1}, Anchor{Beat: 8, Of: 1})
	free := do(t, b, SetStart(1, Free(25./24)))
	wantAnchors(t, do(t, free, NudgeBeats([]int{1}, 1)), Anchor{Beat: 3, Of: 1}, Anchor{Beat: 4, Of: 1}, Anchor{Beat: 6, Of: 1}, Anchor{Beat: 8, Of: 1})
	wantAnchors(t, do(t, free, NudgeBeats([]int{1}, -1)), Anchor{Beat: 2, Of: 1}, Anchor{Beat: 4, Of: 1}, Anchor{Beat: 6, Of: 1}, Anchor{Beat: 8, Of: 1})
	refused(t, b, NudgeBeats([]int{1}, 2), "no room")
	loose := do(t, b, SetFree([]int{1, 2, 3}))
	wantStarts(t, loose, b.Starts()...)
	if got := anchors(loose); got != "---a" {
		t.Errorf("set free the starts are %q", got)
	}
}

func TestPushKeepsTheAnchorOfWhatIsDragged(t *testing.T) {
	b := withSong(t, frameRate24, 120, 20)
	b = do(t, b, Insert(0, make([]Panel, 4), 2))
	out := do(t, b, Push(2, Start{Anchor: Anchor{Beat: 5, Of: 1, Offset: -1}}))
	wantStarts(t, out, 0, 24, 59, 84, 108) // what was on beats finds them
	wantAnchors(t, out, Anchor{Beat: 2, Of: 1}, Anchor{Beat: 5, Of: 1, Offset: -1}, Anchor{Beat: 7, Of: 1}, Anchor{Beat: 9, Of: 1})
	out = do(t, b, Push(2, Start{Anchor: Anchor{Beat: 6, Of: 1}}))
	wantAnchors(t, out, Anchor{Beat: 2, Of: 1}, Anchor{Beat: 6, Of: 1}, Anchor{Beat: 8, Of: 1}, Anchor{Beat: 10, Of: 1})
}

func TestSnapSome(t *testing.T) {
	b := withSong(t, frameRate24, 120, 20)
	b.Panels, b.NextID = []Panel{{ID: 1}}, 6
	for i, f := range []Frame{10, 25, 27, 50} {
		b.Panels = append(b.Panels, Panel{ID: PanelID(i + 2), Start: Free(b.Rate.Seconds(f))})
	}
	b.End = Free(b.Rate.Seconds(80))
	for _, c := range []struct {
		name   string
		opt    SnapOptions
		starts []Frame
	}{
		{"one", SnapOptions{To: ToBeat, Panels: []int{1}}, []Frame{0, 12, 25, 27, 50, 80}},
		{"one between two that stay", SnapOptions{To: ToBeat, Panels: []int{2}, Shortest: 1}, []Frame{0, 10, 24, 27, 50, 80}},
		{"two in a row give way to each other", SnapOptions{To: ToBeat, Panels: []int{2, 3}}, []Frame{0, 10, 24, 36, 50, 80}},
		{"apart", SnapOptions{To: ToBeat, Panels: []int{4, 1}}, []Frame{0, 12, 25, 27, 48, 80}},
		{"all, two frames ahead of the music", SnapOptions{To: ToBeat, Lead: 2}, []Frame{0, 10, 22, 34, 46, 82}},
		{"some, a frame behind", SnapOptions{To: ToBar, Panels: []int{4}, Lead: -1}, []Frame{0, 10, 25, 27, 49, 80}},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := do(t, b, Snap(c.opt))
			wantStarts(t, out, c.starts...)
			undoes(t, b, Snap(c.opt))
		})
	}
	refused(t, b, Snap(SnapOptions{To: ToBar, Panels: []int{2}}), "one panel does not fit on the bars")
	led := do(t, b, Snap(SnapOptions{To: ToBeat, Panels: []int{4}, Lead: 2}))
	if a := led.Panels[4].Start.Anchor; a != (Anchor{Beat: 4, Of: 1, Offset: -2}) {
		t.Errorf("with a lead the anchor is %+v", a)
	}
	b.Grid.Onsets = []Onset{{Time: 1, Strength: 1}, {Time: 2, Strength: 1}}
	wantStarts(t, do(t, b, Snap(SnapOptions{To: ToOnset, Panels: []int{4}, Lead: 3})), 0, 10, 25, 27, 45, 80)
	b.Markers = []Marker{{Free(3), "later"}, {Start{Anchor: Anchor{Beat: 1, Of: 2, Part: 1}}, "half a beat on"}}
	wantStarts(t, do(t, b, Snap(SnapOptions{To: ToMarker, Panels: []int{1, 4}})), 0, 18, 25, 27, 72, 80)
}
