package board

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// anyEdit returns an edit at random, most of them possible on b.
func anyEdit(rnd *rand.Rand, b Board) Edit {
	n := len(b.Panels)
	i := rnd.IntN(n + 1)
	start := Free(rnd.Float64() * 60)
	if s := b.Starts()[i]; rnd.IntN(3) > 0 {
		start = Free(b.Rate.Seconds(s + Frame(rnd.IntN(9)-4)))
	}
	if b.OnGrid() && rnd.IntN(2) == 0 {
		start = Start{Anchor: b.Grid.Near(start.Time-b.SongOffset(), 1+rnd.IntN(4))}
		start.Anchor.Offset = Frame(rnd.IntN(5) - 2)
	}
	rates := append([]FrameRate{{60000, 1001}, {1, 1}, {25, 2}}, Rates...)
	beats := metronome(60+120*rnd.Float64(), 2+rnd.IntN(80), rnd.Float64())
	beat, at := rnd.IntN(1+len(b.Grid.Beats)), rnd.Float64()*40-2
	some := rnd.Perm(n + 1)[:rnd.IntN(n+1)]
	switch rnd.IntN(35) {
	case 0:
		return SetTitle([]string{"Tea", "Salt", "Spoon"}[rnd.IntN(3)])
	case 1:
		return SetRate(rates[rnd.IntN(len(rates))])
	case 2:
		return SetStep(rnd.IntN(6))
	case 3:
		return setWords(i, Words{Title: "wide", Note: "glue"})
	case 4:
		return SetPicture(one(i), []MediaID{"", "aa", "bb"}[rnd.IntN(3)])
	case 5:
		return SetPanelStep(one(i), rnd.IntN(5))
	case 6, 7:
		return SetStart(i, start)
	case 8, 9:
		return SetHold(one(i), Frame(rnd.IntN(40)))
	case 10, 11, 12:
		return Insert(i, make([]Panel, 1+rnd.IntN(5)), 1+rnd.IntN(4))
	case 13:
		return Delete(upTo(i, i+1+rnd.IntN(3)))
	case 14:
		return moveTo(i, rnd.IntN(n+1))
	case 15:
		if rnd.IntN(2) == 0 {
			return Duplicate(one(i))
		}
		return Split(i, b.Starts()[i]+Frame(rnd.IntN(12)))
	case 16:
		if rnd.IntN(3) == 0 {
			return SetSong(nil, Grid{})
		}
		return SetSong(&Song{Name: "tune.wav", Seconds: 60, Offset: rnd.Float64()*4 - 2}, NewGrid(beats, beats[:1]))
	case 17:
		return []Edit{SetTempo(40+rnd.Float64()*200, at), SetClick(Click{6 + rnd.IntN(20), rnd.IntN(8)}, at)}[rnd.IntN(2)]
	case 18:
		r := ratios[1+rnd.IntN(4)]
		return ScaleTempo(r[0], r[1])
	case 19:
		return []Edit{SlideGrid(rnd.Float64() - 0.5), SetBars(beat, rnd.IntN(13)), RemoveBeat(beat)}[rnd.IntN(3)]
	case 20:
		if room, err := b.Grid.BeatRoom(beat); err == nil {
			at = room.From + rnd.Float64()*(room.To-room.From)
		}
		return []Edit{MoveBeat(beat, at), AddBeat(at)}[rnd.IntN(2)]
	case 21:
		return []Edit{LockBeats(at, at+rnd.Float64()*5), UnlockBeats(at, at+rnd.Float64()*5)}[rnd.IntN(2)]
	case 22:
		return []Edit{MergeGrid(NewGrid(beats, beats[1:2])), LayTaps(TapFit{Beats: beats, Tempo: 100, Follow: true})}[rnd.IntN(2)]
	case 27:
		openings := []Opening{GoesOn, OpensShot, OpensScene}
		return []Edit{Open(some, openings[rnd.IntN(3)]), SetHeading(i, "At the sink"), FixNumbers(some), CountNumbers(some),
			SetNumbers(i, Numbers{Shot: letters(1 + rnd.IntN(9)), Panel: letters(1 + rnd.IntN(5))})}[rnd.IntN(5)]
	case 28:
		return []Edit{SetFrameNote(Frame(rnd.IntN(int(b.Frames())+1)), []string{"", "blink"}[rnd.IntN(2)]), AddMarker(Marker{start, "hit"}), SetMarker(i, Marker{Start: start}), RemoveMarker(rnd.IntN(len(b.Markers) + 1)),
			SetTransition(some, Transition{Passages[rnd.IntN(4)], Frame(rnd.IntN(30))})}[rnd.IntN(5)]
	case 24:
		return []Edit{CloseUp(some), Delete(some), Move(some, i), Duplicate(some), Join(some), SetFree(some)}[rnd.IntN(6)]
	case 25:
		return []Edit{SetHold(some, Frame(rnd.IntN(40))), HoldBeats(some, 1+rnd.IntN(4), Targets[rnd.IntN(len(Targets))]), Spread(some),
			ScaleHolds(some, Frame(rnd.IntN(200))), Paste(i, b.Panels, b.Holds())}[rnd.IntN(5)]
	case 26:
		return []Edit{Nudge(some, Frame(rnd.IntN(7)-3)), NudgeBeats(some, rnd.IntN(5)-2), Push(i, start),
			Snap(SnapOptions{To: Targets[rnd.IntN(len(Targets))], Panels: some, Lead: Frame(rnd.IntN(5) - 2), Shortest: Frame(rnd.IntN(3))})}[rnd.IntN(4)]
	case 33, 34:
		return anyObjectMove(rnd, b, i, start)
	case 31, 32:
		return anyPictureEdit(rnd, b, some, i)
	case 23:
		return []Edit{TrimSong(rnd.Float64()*9, rnd.Float64()*9), FadeSong(rnd.Float64()*9, rnd.Float64()*9), SetGain(rnd.Float64()*20 - 10)}[rnd.IntN(3)]
	}
	if rnd.IntN(2) == 0 {
		return SlideSong(rnd.Float64()*10 - 5)
	}
	return Snap(SnapOptions{To: Targets[rnd.IntN(len(Targets))], Shortest: Frame(rnd.IntN(5))})
}

// anyObjectMove returns an edit at random of what moves on the set.
func anyObjectMove(rnd *rand.Rand, b Board, i int, start Start) Edit {
	id := func() PanelID {
		if i < len(b.Panels) {
			return b.Panels[min(len(b.Panels)-1, i+rnd.IntN(3))].ID
		}
		return PanelID(rnd.IntN(5))
	}
	m := ObjectMove{ID: MoveID(1 + rnd.IntN(4)), Object: "cup", First: id(), Last: id(), Keys: []Spot{{}, {X: 10}, {X: 30}},
		Manner: Manners[rnd.IntN(len(Manners))], Hits: []Hit{{1 + rnd.IntN(3), start}}}
	return []Edit{AddObjectMove(m), SetObjectMove(m), RemoveObjectMove(m.ID),
		Paste(i, b.Panels, b.Holds(), b.MovesOf(indices(0, len(b.Panels)))...)}[rnd.IntN(4)]
}

// anyPictureEdit returns an edit at random of what makes up a picture.
func anyPictureEdit(rnd *rand.Rand, b Board, some []int, i int) Edit {
	far := func() float64 { return rnd.Float64()*2 - 1 }
	point := Point{far(), far()}
	framing := func() Framing { return Framing{Point{far(), far()}, rnd.Float64() * 2} }
	letter := NewLetter(LetterKinds[rnd.IntN(len(LetterKinds))], "Where is the salt?", b.Aspect)
	letter.Bend, letter.Bold, letter.Back = far(), rnd.IntN(2) == 0, Backs[rnd.IntN(len(Backs))]
	letters := 1
	if i < len(b.Panels) {
		letters = len(b.Panels[i].Drawing().Lettering) + 1
	}
	return []Edit{
		SetAspect(Aspects[rnd.IntN(len(Aspects))]), SetSketch(some, []MediaID{"", "dd", "ee"}[rnd.IntN(3)]),
		Place(some, Placement{Fit: Fittings[rnd.IntN(2)], Flip: rnd.IntN(2) == 0}),
		Place(some, Placement{Fit: ByHand, At: point, Scale: rnd.Float64() * 3, Turn: far() * 360}),
		SetMove(some, CameraMove{framing(), framing(), Spacings[rnd.IntN(len(Spacings))]}),
		AddLetter(some, letter), SetLetter(i, rnd.IntN(letters), letter), RemoveLetter(i, rnd.IntN(letters)), RaiseLetter(i, rnd.IntN(letters)),
	}[rnd.IntN(8)]
}

func TestRandomEditsKeepTheRulesAndUndo(t *testing.T) {
	for seed := range uint64(2) {
		rnd := rand.New(rand.NewPCG(seed, 3))
		h := NewHistory(New())
		boards := []Board{New()} // one for each step
		refusals := map[string]int{}
		for range 500 {
			b := h.Board()
			before := deepCopy(b)
			e := anyEdit(rnd, b)
			err := h.Do(e)
			if !reflect.DeepEqual(b, before) {
				t.Fatalf("seed %d: %s changed the board it was given", seed, e.Name)
			}
			if err != nil {
				refusals[err.Error()]++
				if !reflect.DeepEqual(h.Board(), before) {
					t.Fatalf("seed %d: %s was refused but changed the film", seed, e.Name)
				}
				continue
			}
			h.Close() // each edit a step
			keepsRules(t, e.Name, h.Board())
			boards = append(boards, deepCopy(h.Board()))
		}
		if len(boards) < 300 {
			t.Errorf("seed %d: only %d of 500 edits were possible: %v", seed, len(boards)-1, refusals)
		}
		first := max(0, len(boards)-1-MaxHistory)
		for i := len(boards) - 1; i >= first; i-- {
			if !reflect.DeepEqual(h.Board(), boards[i]) {
				t.Fatalf("seed %d: undone to step %d the board differs", seed, i)
			}
			if h.Undo() != (i > first) {
				t.Fatalf("seed %d: undo at step %d of %d", seed, i, len(boards)-1)
			}
		}
		for h.Redo() {
		}
		if !reflect.DeepEqual(h.Board(), boards[len(boards)-1]) {
			t.Errorf("seed %d: redone to the end the board differs", seed)
		}
	}
}

// A session short enough for the history: undo reaches the empty board.
func TestUndoingEverythingReachesTheFirstBoard(t *testing.T) {
	rnd := rand.New(rand.NewPCG(9, 9))
	h := NewHistory(New())
	for range MaxHistory {
		// Refused edits leave no step, which the walk above checks.
		_ = h.Do(anyEdit(rnd, h.Board()))
	}
	last := deepCopy(h.Board())
	for h.Undo() {
	}
	if !reflect.DeepEqual(h.Board(), New()) {
		t.Errorf("undone to %+v", h.Board())
	}
	for h.Redo() {
	}
	if !reflect.DeepEqual(h.Board(), last) {
		t.Errorf("redone to another board")
	}
}

// Layouts at one rate change only where the edit says so, but for the frame by
// which an anchored start finds its beat.
func TestRandomArrangingKeepsHolds(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 5))
	b := do(t, withSong(t, FrameRate{30000, 1001}, 133, 200), Insert(0, make([]Panel, 20), 1))
	for range 400 {
		n, holds := len(b.Panels), b.Holds()
		i, k := rnd.IntN(n), rnd.IntN(n)
		var want []Frame
		var e Edit
		typed := -1
		switch rnd.IntN(3) {
		case 0:
			h := holds[i]
			e, want = moveTo(i, k), slices.Insert(slices.Delete(slices.Clone(holds), i, i+1), k, h)
		case 1:
			h := Frame(1 + rnd.IntN(30))
			e, want = SetHold(one(i), h), slices.Clone(holds)
			want[i], typed = h, i
		case 2:
			if holds[i] < 2 {
				continue
			}
			cut := 1 + Frame(rnd.Int64N(int64(holds[i]-1)))
			e, want = Split(i, b.Starts()[i]+cut), slices.Insert(slices.Clone(holds), i, cut)
			want[i+1] = holds[i] - cut
		}
		if n > 60 {
			b = do(t, b, Delete(upTo(40, n)))
			continue
		}
		b = do(t, b, e)
		got := b.Holds()
		for p := range got {
			next := b.End
			if p+1 < len(got) {
				next = b.Panels[p+1].Start
			}
			off := max(got[p]-want[p], want[p]-got[p])
			if off > 1 || off == 1 && (p == typed || !next.Anchored()) {
				t.Fatalf("%s: holds %v, want %v", e.Name, got, want)
			}
		}
	}
}
