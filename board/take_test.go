package board

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

// cuesAt returns a list of pictures at the given frames of a rate, the last
// its end.
func cuesAt(r FrameRate, starts ...Frame) Timing {
	t := Timing{Rate: r}
	for _, f := range starts[:len(starts)-1] {
		t.Cues = append(t.Cues, Cue{Moment: Moment{At: r.Seconds(f)}})
	}
	t.End.At = r.Seconds(starts[len(starts)-1])
	return t
}

// named gives the pictures of a list what they are known by: "#3" is an id,
// "-" a gap, anything else a number.
func (t Timing) named(names ...string) Timing {
	for k, n := range names {
		switch id, byID := strings.CutPrefix(n, "#"); {
		case byID:
			fmt.Sscan(id, &t.Cues[k].ID)
		case n == "-":
			t.Cues[k].Gap = true
		default:
			t.Cues[k].Number = n
		}
	}
	return t
}

// titled returns the titles of the panels in order.
func titled(b Board) string {
	var out []string
	for _, p := range b.Panels {
		out = append(out, p.Title)
	}
	return strings.Join(out, " ")
}

func TestTake(t *testing.T) {
	film := atFrames(0, 24, 48, 72)
	for i, title := range []string{"cup", "spoon", "lamp"} {
		film.Panels[i].Title, film.Panels[i].Picture = title, MediaID(title)
	}
	tests := []struct {
		name   string
		list   Timing
		titles string // "" of a blank panel
		starts []Frame
		notes  []string
	}{
		{"known by their ids, in another order", cuesAt(frameRate24, 0, 10, 30, 60).named("#3", "#1", "#2"), "lamp cup spoon", []Frame{0, 10, 30, 60}, nil},
		{"ids come before numbers", cuesAt(frameRate24, 0, 10, 30, 60).named("#3", "2", "#1"), "lamp spoon cup", []Frame{0, 10, 30, 60}, nil},
		{"in order where nothing is known", cuesAt(frameRate24, 0, 10, 30, 60).named("wide", "close", ""), "cup spoon lamp", []Frame{0, 10, 30, 60}, nil},
		{"gaps are no panels in order", cuesAt(frameRate24, 0, 10, 30, 60, 61).named("-", "", "-", ""), " cup  spoon lamp", []Frame{0, 10, 30, 60, 61, 85},
			[]string{"panel 3 is not in the list: it comes after the end of it"}},
		{"a new picture", cuesAt(frameRate24, 0, 10, 30, 60, 70).named("1", "kettle", "2", "3"), "cup  spoon lamp", []Frame{0, 10, 30, 60, 70},
			[]string{`the film has no panel for "kettle": a blank one stands for it`}},
		{"new pictures without names", cuesAt(frameRate24, 0, 10, 30, 60, 70, 80).named("1", "", "2", "3", ""), "cup  spoon lamp ", []Frame{0, 10, 30, 60, 70, 80},
			[]string{"the film has no panels for 2 pictures of the list: blank ones stand for them (the picture at 00:00:00:10, the picture at 00:00:02:22)"}},
		{"a picture cut in two", cuesAt(frameRate24, 0, 10, 30, 60, 70).named("#1", "#2", "#1", "#3"), "cup spoon cup lamp", []Frame{0, 10, 30, 60, 70},
			[]string{"panel 1 comes again in the list: its picture is there twice"}},
		{"panels that are gone", cuesAt(frameRate24, 0, 10).named("#2"), "spoon cup lamp", []Frame{0, 10, 34, 58},
			[]string{"2 panels are not in the list: they come after the end of it (1, 3)"}},
		{"another rate", cuesAt(FrameRate{30, 1}, 0, 15, 31, 60).named("#1", "#2", "#3"), "cup spoon lamp", []Frame{0, 12, 25, 48}, nil},
		{"a finer rate leaves each a frame", cuesAt(FrameRate{120, 1}, 0, 1, 2, 3).named("#1", "#2", "#3"), "cup spoon lamp", []Frame{0, 1, 2, 3}, nil},
		{"the first picture is up from the start", cuesAt(frameRate24, 5, 10, 30, 60).named("#1", "#2", "#3"), "cup spoon lamp", []Frame{0, 10, 30, 60}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := do(t, film, TakeTiming(tt.list))
			if titled(got) != tt.titles {
				t.Errorf("the panels are %q, want %q", titled(got), tt.titles)
			}
			for _, p := range got.Panels {
				if p.Title != string(p.Picture) {
					t.Errorf("the panel %q has the picture %q", p.Title, p.Picture)
				}
			}
			wantStarts(t, got, tt.starts...)
			if _, notes, _ := film.Take(tt.list); !reflect.DeepEqual(notes, tt.notes) {
				t.Errorf("notes %q, want %q", notes, tt.notes)
			}
		})
	}
	refused(t, film, TakeTiming(Timing{}), "no pictures in the list")
	refused(t, film, TakeTiming(cuesAt(frameRate24, 0, 24*4*3600)), "is outside the film")
	if some([]string{"1", "2", "3", "4", "5", "6"}) != "1, 2, 3, 4, 5 ..." {
		t.Error("long lists of names are not cut")
	}
}

// Starts that stay keep their beat; those that move take the beat they land on.
func TestTakeOnBeats(t *testing.T) {
	b := withSong(t, frameRate24, 120, 16) // a beat each 12 frames
	b = do(t, b, Insert(0, make([]Panel, 4), 2))
	b = do(t, b, SetStart(1, Start{Anchor: Anchor{Beat: 2, Of: 1, Offset: -2}}))
	list := cuesAt(frameRate24, 0, 22, 60, 71, 90).named("#1", "#2", "#3", "#4")
	got := do(t, b, TakeTiming(list))
	wantStarts(t, got, 0, 22, 60, 71, 90)
	if got.Panels[1].Start != b.Panels[1].Start {
		t.Errorf("a start that stayed was %+v and is %+v", b.Panels[1].Start, got.Panels[1].Start)
	}
	if a := anchors(got); a != "aa--" {
		t.Errorf("anchors %s, want aa--: 60 is a beat, 71 and 90 are none", a)
	}
	list.Cues[3].Was = &Start{Anchor: Anchor{Beat: 6, Of: 1, Offset: -1}} // 71 as the list has it
	if got := do(t, b, TakeTiming(list)); anchors(got) != "aaa-" || got.Panels[3].Start.Anchor.Offset != -1 {
		t.Errorf("the anchor of the list was not taken: %+v", got.Panels[3].Start)
	}
	list.Cues[3].Was = &Start{Anchor: Anchor{Beat: 7, Of: 1}} // leads to 84, where the panel is no more
	if got := do(t, b, TakeTiming(list)); anchors(got) != "aa--" {
		t.Errorf("an anchor that leads elsewhere was taken: %+v", got.Panels[3].Start)
	}
}

// What a list says is written on the panels, what it does not say stays.
func TestTakeWords(t *testing.T) {
	b := atFrames(0, 24, 48)
	b.Panels[0].Words = Words{Title: "cup", Sound: "clink", Marks: Marks{Rig: true}}
	b.Panels[1].Words, b.Panels[1].Into = Words{Note: "slowly"}, Transition{Fade, 8}
	list := cuesAt(frameRate24, 0, 24, 48).named("#1", "#2")
	list.Cues[0].Words = map[string]string{"title": "mug", "note": "", "mood": "glad"}
	list.Cues[1].Marks, list.Cues[1].Into = &Marks{Plate: true}, &Transition{}
	got := do(t, b, TakeTiming(list))
	if want := (Words{Title: "mug", Sound: "clink", Marks: Marks{Rig: true}}); got.Panels[0].Words != want {
		t.Errorf("words %+v, want %+v", got.Panels[0].Words, want)
	}
	if p := got.Panels[1]; p.Words != (Words{Note: "slowly", Marks: Marks{Plate: true}}) || p.Into != (Transition{}) {
		t.Errorf("the second panel is %+v", p)
	}
	list.Cues[0].Words["title"] = strings.Repeat("x", MaxText+1)
	refused(t, b, TakeTiming(list), "panel 1 has a text that is too long")
}

// A shot that leaves the beginning of the film still opens its scene; a copy
// opens nothing, and panels change places within their shot.
func TestTakeOpenings(t *testing.T) {
	b := atFrames(0, 10, 20, 30)
	b = do(t, b, Open([]int{1}, OpensShot))
	b = do(t, b, SetHeading(0, "Kitchen"))
	got := do(t, b, TakeTiming(cuesAt(frameRate24, 0, 5, 10, 15, 20).named("#2", "#1", "#3", "#1")))
	if o := []Opening{got.Opening(0), got.Opening(1), got.Opening(2), got.Opening(3)}; !reflect.DeepEqual(o, []Opening{OpensScene, OpensScene, GoesOn, GoesOn}) {
		t.Errorf("what opens: %q", o)
	}
	plain := atFrames(0, 10, 20, 30)
	if n := do(t, plain, TakeTiming(cuesAt(frameRate24, 0, 5, 10, 15, 20).named("x", "#3", "#1", "#2"))).Numbers(); strings.Join(n, " ") != "1 2 3 4" {
		t.Errorf("a film of one shot has come to have the numbers %s", n)
	}
	if got.Panels[1].Heading != "Kitchen" || got.Panels[3].Heading != "" {
		t.Errorf("headings %q and %q", got.Panels[1].Heading, got.Panels[3].Heading)
	}
}

func TestTakeMarkers(t *testing.T) {
	b := atFrames(0, 24, 48)
	for _, m := range []Marker{{Free(0.5), "steam"}, {Free(1), "steam"}, {Free(1.5), ""}, {Free(1.75), "boil"}} {
		b = do(t, b, AddMarker(m))
	}
	at := func(f Frame, name string) Mark { return Mark{Moment{At: frameRate24.Seconds(f)}, name} }
	list := cuesAt(frameRate24, 0, 24, 48)
	list.Markers = []Mark{at(24, "steam"), at(6, "steam"), at(36, ""), at(40, ""), at(3, "whistle")}
	got := do(t, b, TakeTiming(list))
	var lines []string
	for _, m := range got.Markers {
		lines = append(lines, fmt.Sprintf("%s %d", m.Name, got.Frame(m.Start)))
	}
	if all := strings.Join(lines, ", "); all != "steam 6, steam 24,  36, boil 42,  40, whistle 3" {
		t.Errorf("markers %s", all)
	}
}

func TestNewFromTiming(t *testing.T) {
	list := cuesAt(FrameRate{12, 1}, 0, 6, 12).named("12A", "-")
	list.Title, list.Step = "Tea", 2
	list.Cues[0].Name, list.Cues[0].Opens, list.Cues[0].Step = "cup", OpensShot, 3
	list.Grid = NewGrid([]float64{0, 0.5, 1}, nil)
	list.Cues[1].Was = &Start{Time: 0.5, Anchor: Anchor{Beat: 1, Of: 1}}
	b, err := NewFromTiming(list)
	if err != nil {
		t.Fatal(err)
	}
	keepsRules(t, "new from a list", b)
	wantStarts(t, b, 0, 6, 12)
	if b.Title != "Tea" || b.Rate != (FrameRate{12, 1}) || b.Step != 2 || b.Panels[0].Title != "cup" || b.Panels[0].Step != 3 || !b.Panels[1].Start.Anchored() {
		t.Errorf("the board is %+v", b)
	}
	for name, spoil := range map[string]func(*Timing){
		"no rate":       func(t *Timing) { t.Rate = FrameRate{1000, 1} },
		"no beats":      func(t *Timing) { t.Grid = NewGrid([]float64{1, 1}, nil) },
		"no pictures":   func(t *Timing) { t.Cues = nil },
		"no title":      func(t *Timing) { t.Title = "\xff" },
		"no transition": func(t *Timing) { t.Cues[1].Into = &Transition{Kind: "jump"} },
		"no time":       func(t *Timing) { t.End.At = math.NaN() },
		"no anchor":     func(t *Timing) { t.Cues[1].Was = &Start{Anchor: Anchor{Beat: 1, Of: 1, Part: 4}} },
	} {
		bad := cuesAt(FrameRate{12, 1}, 0, 6, 12)
		spoil(&bad)
		if b, err := NewFromTiming(bad); err == nil && b.Check() != nil || err != nil && !reflect.DeepEqual(b, New()) {
			t.Errorf("%s: %v and %+v", name, err, b)
		} else if err == nil && name != "no time" && name != "no anchor" {
			t.Errorf("%s: it was taken", name)
		}
	}
}

// Random lists give boards that keep the rules and start each picture on the
// nearest frame there is room for.
func TestTakeKeepsRules(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 8))
	for range 500 {
		b := withSong(t, Rates[rnd.IntN(len(Rates))], 60+100*rnd.Float64(), 40)
		b = do(t, b, Insert(0, make([]Panel, 1+rnd.IntN(8)), 1+rnd.IntN(3)))
		list := Timing{}
		at := 0.0
		for range 1 + rnd.IntN(10) {
			list.Cues = append(list.Cues, Cue{Moment: Moment{At: at}, ID: PanelID(rnd.IntN(12)), Gap: rnd.IntN(4) == 0})
			at += 0.001 + rnd.Float64()
		}
		list.End.At = at
		got := do(t, b, TakeTiming(list))
		starts, next := got.Starts(), Frame(0)
		for k, c := range list.Cues {
			if want := max(next, b.Rate.Nearest(c.At)); starts[k] != want {
				t.Fatalf("picture %d at %.4f starts on frame %d, want %d", k+1, c.At, starts[k], want)
			}
			next = starts[k] + 1
		}
		again := do(t, got, TakeTiming(timingOf(got)))
		if !reflect.DeepEqual(again, got) {
			t.Fatal("a film's own timing changes it")
		}
	}
}

// timingOf returns a board's own timing.
func timingOf(b Board) Timing {
	t := cuesAt(b.Rate, b.Starts()...)
	for i, p := range b.Panels {
		t.Cues[i].ID = p.ID
	}
	return t
}
