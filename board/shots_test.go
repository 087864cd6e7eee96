package board

import (
	"slices"
	"strings"
	"testing"
)

// inShots returns a board of free panels of 10 frames, one for each letter: s
// opens a shot, S a scene, - goes on.
func inShots(pattern string) Board {
	starts := make([]Frame, len(pattern)+1)
	for i := range starts {
		starts[i] = Frame(10 * i)
	}
	b := atFrames(starts...)
	for i, c := range pattern {
		b.Panels[i].Opens = map[rune]Opening{'s': OpensShot, 'S': OpensScene, '-': GoesOn}[c]
	}
	return b
}

// pattern is the reverse of inShots, with the ids.
func pattern(b Board) string {
	var out strings.Builder
	for i, p := range b.Panels {
		out.WriteString(map[Opening]string{OpensShot: "s", OpensScene: "S", GoesOn: "-"}[b.Opening(i)])
		out.WriteByte(byte('0' + p.ID))
	}
	return out.String()
}

func TestShotsStayWholeInEdits(t *testing.T) {
	for _, c := range []struct {
		name, before string
		edit         Edit
		want         string
	}{
		{"the first of a shot deleted", "S-s--", Delete([]int{2}), "S1-2s4-5"},
		{"a whole shot deleted", "S-s-s", Delete([]int{2, 3}), "S1-2s5"},
		{"the first shot of a scene deleted", "S-S-s-", Delete([]int{2, 3}), "S1-2S5-6"},
		{"a whole scene deleted", "S-S-S-", Delete([]int{2, 3}), "S1-2S5-6"},
		{"the first of the film deleted", "S-s-", CloseUp([]int{0}), "S2s3-4"},
		{"the first shot of the film cut out", "S-s-", CloseUp([]int{0, 1}), "S3-4"},
		{"a shot moved to the front", "S-s-s", Move([]int{2, 3}, 0), "S3-4s1-2s5"},
		{"a shot moved into another", "S-s-s", Move([]int{4}, 1), "S1s5s2s3-4"},
		{"a panel moved into another shot", "S-s--", Move([]int{3}, 1), "S1-4-2s3-5"},
		{"the first of a shot moved away", "S-s--", Move([]int{2}, 1), "S1-3-2s4-5"},
		{"a panel moved to the front", "S-s--", Move([]int{3}, 0), "S4-1-2s3-5"},
		{"the first shot of a scene moved away", "S-S-s-", Move([]int{2, 3}, 0), "S3-4s1-2S5-6"},
		{"a panel moved to the end", "S-s-", Move([]int{0}, 4), "S2s3-4-1"},
		{"a copy is in the same shot", "S-s", Duplicate([]int{2}), "S1-2s3-4"},
		{"copies of two shots", "Sss", Duplicate([]int{1, 2}), "S1s2s3s4s5"},
		{"split goes on", "Ss", Split(1, 15), "S1s2-3"},
		{"new panels go on", "Ss", Insert(2, make([]Panel, 1), 1), "S1s2-3"},
		{"new panels at the front", "Ss", Insert(0, make([]Panel, 1), 1), "S3-1s2"},
		{"pasted shots stay apart", "S-", Paste(1, []Panel{{Opens: OpensShot}}, []Frame{5}), "S1s3s2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := inShots(c.before)
			if got := pattern(do(t, b, c.edit)); got != c.want {
				t.Errorf("%s became %s, want %s", pattern(b), got, c.want)
			}
			undoes(t, b, c.edit)
		})
	}
}

func TestHeadingsStayWithTheirShot(t *testing.T) {
	b := inShots("S-S-s-")
	b = do(t, do(t, b, SetHeading(2, "Kitchen")), SetHeading(4, "The sink"))
	b = do(t, b, FixNumbers([]int{2, 4}))
	first := do(t, b, Delete([]int{2}))
	if p := first.Panels[2]; p.Heading != "Kitchen" || p.Fixed.Scene != "2" || p.Fixed.Shot != "2" || p.Opens != OpensScene {
		t.Errorf("the next panel is %+v", p)
	}
	shot := do(t, b, CloseUp([]int{2, 3}))
	if p := shot.Panels[2]; p.Heading != "Kitchen" || p.Fixed.Scene != "2" || p.Fixed.Shot != "3" {
		t.Errorf("the next shot is %+v", p)
	}
	on := do(t, b, Open([]int{4}, GoesOn))
	if p := on.Panels[4]; p.Heading != "" || p.Fixed.Shot != "" || !slices.Equal(on.Shots(), []int{0, 2, 6}) {
		t.Errorf("going on it is %+v, the shots %v", p, on.Shots())
	}
	if got := b.Scenes(); !slices.Equal(got, []int{0, 2, 6}) {
		t.Errorf("scenes %v", got)
	}
	if New().Shots() != nil {
		t.Error("a film without panels has shots")
	}
	refused(t, b, Open([]int{1}, "reel"), "neither a shot nor a scene")
}

func TestNumbers(t *testing.T) {
	fix := func(b Board, at map[int]Numbers) Board {
		for i, n := range at {
			b.Panels[i].Fixed = n
		}
		return b
	}
	for _, c := range []struct {
		name string
		b    Board
		want string
	}{
		{"no shots: plain", inShots("S---"), "1 2 3 4"},
		{"shots of one", inShots("Sss"), "1 2 3"},
		{"panels by letter", inShots("S-s-s"), "1A 1B 2A 2B 3"},
		{"scenes before the shot", inShots("S-sS-s"), "1-1A 1-1B 1-2 2-3A 2-3B 2-4"},
		// A shot added between 12 and 13 is 12A; after Z comes AA (trade notes 5).
		{"between two written ones", fix(inShots("Ssss"), map[int]Numbers{0: {Shot: "12"}, 3: {Shot: "13"}}), "12 12A 12B 13"},
		{"room between", fix(inShots("Ssss"), map[int]Numbers{0: {Shot: "12"}, 3: {Shot: "20"}}), "12 13 14 20"},
		{"after the last written", fix(inShots("Ssss"), map[int]Numbers{1: {Shot: "7"}}), "1 7 8 9"},
		{"before the first", fix(inShots("Sss"), map[int]Numbers{1: {Shot: "1"}}), "0A 1 2"},
		{"written with a letter", fix(inShots("Sssss"), map[int]Numbers{0: {Shot: "12"}, 1: {Shot: "12A"}, 4: {Shot: "13"}}), "12 12A 12B 12C 13"},
		{"a written number is not given twice", fix(inShots("Sss"), map[int]Numbers{2: {Shot: "2"}}), "1 1A 2"},
		{"out of order", fix(inShots("Ssss"), map[int]Numbers{0: {Shot: "3"}, 1: {Shot: "1"}}), "3 1 4 5"},
		{"panels between written letters", fix(inShots("S---"), map[int]Numbers{0: {Panel: "A"}, 2: {Panel: "B"}}), "1A 1A1 1B 1C"},
		{"a scene of letters", fix(inShots("SS"), map[int]Numbers{1: {Scene: "Z9"}}), "1-1 Z9-2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := strings.Join(c.b.Numbers(), " "); got != c.want {
				t.Errorf("numbers %s, want %s", got, c.want)
			}
			fixed := do(t, c.b, FixNumbers(upTo(0, len(c.b.Panels))))
			if c.name != "no shots: plain" {
				for i, n := range fixed.Numbers() {
					if was := c.b.Numbers()[i]; !strings.HasPrefix(n, was) {
						t.Errorf("fixed, panel %d went from %s to %s", i+1, was, n)
					}
				}
			}
			if twice := fixed.TwiceNumbered(); len(twice) > 0 {
				t.Errorf("panels %v have a number of others", twice)
			}
		})
	}
	for n, want := range map[int]string{1: "A", 26: "Z", 27: "AA", 52: "AZ", 53: "BA", 702: "ZZ", 703: "AAA"} {
		if got := letters(n); got != want || leadingLetters(want) != n {
			t.Errorf("letter %d is %s, want %s; back it is %d", n, got, want, leadingLetters(want))
		}
	}
}

func TestRenumberingKeepsWhatIsInUse(t *testing.T) {
	b := do(t, inShots("Ssss"), FixNumbers([]int{0, 1, 2, 3}))
	b = do(t, b, Paste(2, []Panel{{Opens: OpensShot}}, []Frame{5}))
	b = do(t, b, Insert(5, []Panel{{}}, 1))
	b = do(t, b, Open([]int{5}, OpensShot))
	if got := strings.Join(b.Numbers(), " "); got != "1A 2A 2A 3A 4A 5" && got != "1A 2A 2AA 3A 4A 5" {
		t.Errorf("numbers %s", got)
	}
	if got := b.AllNumbers()[2].Shot; got != "2A" {
		t.Errorf("the shot put between 2 and 3 is %s, want 2A", got)
	}
	again := do(t, b, CountNumbers(upTo(0, 6)))
	if got := strings.Join(again.Numbers(), " "); got != "1 2 3 4 5 6" {
		t.Errorf("counted again they are %s", got)
	}
	refused(t, b, SetNumbers(0, Numbers{Shot: "3", Panel: "A"}), "already")
	refused(t, b, SetNumbers(0, Numbers{Shot: "3-4"}), "letters and digits")
	refused(t, inShots("S-"), SetNumbers(1, Numbers{Shot: "9"}), "no shot or scene begins")
	if got := do(t, b, SetNumbers(0, Numbers{Shot: "9", Panel: "A"})).Numbers()[0]; got != "9A" {
		t.Errorf("written, the number is %s", got)
	}
	b.Panels[0].Fixed = Numbers{Shot: "3", Panel: "A"}
	if got := b.TwiceNumbered(); !slices.Equal(got, []int{0, 3}) {
		t.Errorf("panels %v are said to share a number, want 0 and 3", got)
	}
}

func TestMarkers(t *testing.T) {
	b := withSong(t, frameRate24, 120, 20)
	b = do(t, b, AddMarker(Marker{Start{Anchor: Anchor{Beat: 4, Of: 1}}, "the hit"}))
	b = do(t, b, AddMarker(Marker{Free(1), "breath"}))
	if got := b.Markers[0].Start.Time; got != 2 {
		t.Errorf("beat 4 is at %g s, want 2", got)
	}
	late := do(t, b, SlideSong(1))
	if hit, breath := late.Frame(late.Markers[0].Start), late.Frame(late.Markers[1].Start); hit != 72 || breath != 24 {
		t.Errorf("with the song a second later the markers are on %d and %d, want 72 and 24", hit, breath)
	}
	twice := do(t, b, ScaleTempo(2, 1))
	if a := twice.Markers[0].Start.Anchor; a.Beat != 8 {
		t.Errorf("with twice as many beats the marker is on beat %d, want 8", a.Beat)
	}
	gone := do(t, b, SetSong(nil, Grid{}))
	if s := gone.Markers[0].Start; s.Anchored() || gone.Frame(s) != 48 {
		t.Errorf("without the song the marker is %+v", s)
	}
	undoes(t, b, RemoveMarker(0))
	if got := do(t, b, RemoveMarker(0)).Markers; len(got) != 1 || got[0].Name != "breath" {
		t.Errorf("one taken out, the markers are %v", got)
	}
	named := do(t, b, SetMarker(1, Marker{Free(2), "gasp"}))
	if m := named.Markers[1]; m.Name != "gasp" || m.Start.Time != 2 {
		t.Errorf("the marker is %+v", m)
	}
	refused(t, b, RemoveMarker(2), "no such marker")
	refused(t, b, AddMarker(Marker{Start: Free(MaxSeconds + 1)}), "marker 3")
	refused(t, b, AddMarker(Marker{Name: "\xff"}), "not readable")
	full := b
	full.Markers = make([]Marker, MaxMarkers)
	refused(t, full, AddMarker(Marker{}), "at most 2000")
}

func TestTransitions(t *testing.T) {
	b := inShots("Sss")
	out := do(t, b, SetTransition([]int{1, 2}, Transition{Dissolve, Dissolve.UsualFrames()}))
	if out.Panels[2].Into != (Transition{Dissolve, 24}) {
		t.Errorf("the transition is %+v", out.Panels[2].Into)
	}
	undoes(t, b, SetTransition([]int{1}, Transition{Fade, 8}))
	for _, c := range []struct {
		t    Transition
		want string
	}{
		{Transition{"melt", 4}, "no way"}, {Transition{Cut, 4}, "has no length"},
		{Transition{Wipe, 0}, "takes 1 to 255"}, {Transition{Fade, 256}, "takes 1 to 255"},
	} {
		refused(t, b, SetTransition([]int{1}, c.t), c.want)
	}
}
