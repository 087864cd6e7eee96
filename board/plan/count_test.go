package plan

import (
	"fmt"
	"testing"

	"stillbeat/board"
)

func TestPhotographsOfPanels(t *testing.T) {
	cup := func(p board.Panel) board.Panel { p.Picture, p.Action = "aa", "The cup turns"; return p }
	zoom := &board.Drawn{Travel: board.CameraMove{To: board.Framing{Width: 0.5}}}
	dissolve := board.Transition{Kind: board.Dissolve, Frames: 48}
	other := board.Panel{Picture: "bb"}
	for _, c := range []struct {
		name   string
		step   int
		panels []board.Panel
		holds  []board.Frame
		want   string // new of those on the sheet, for each panel
	}{
		{"90 seconds on twos (trade 6)", 2, make([]board.Panel, 1), []board.Frame{2160}, "1080/1080"},
		{"an odd hold on twos", 2, make([]board.Panel, 1), []board.Frame{25}, "13/13"},
		{"a still panel takes one", 2, []board.Panel{{Still: true}}, []board.Frame{240}, "1/120"},
		{"a still panel in which the camera moves takes all", 2, []board.Panel{{Still: true, Drawn: zoom}}, []board.Frame{24}, "12/12"},
		{"a step of its own", 2, []board.Panel{{Step: 1}, {}}, []board.Frame{24, 24}, "24/24 12/12"},
		{"a repeat takes none", 1, []board.Panel{cup(board.Panel{}), other, cup(board.Panel{})}, []board.Frame{24, 12, 24}, "24/24 12/12 0/24"},
		{"a longer repeat takes what is missing", 1, []board.Panel{cup(board.Panel{}), other, cup(board.Panel{})}, []board.Frame{24, 12, 30}, "24/24 12/12 6/30"},
		{"a third time takes none", 1, []board.Panel{cup(board.Panel{}), other, cup(board.Panel{}), other, cup(board.Panel{})},
			[]board.Frame{24, 12, 30, 12, 30}, "24/24 12/12 6/30 0/12 0/30"},
		{"with other words it is no repeat", 1, []board.Panel{cup(board.Panel{}), other, {Picture: "aa", Words: board.Words{Action: "It hops"}}},
			[]board.Frame{24, 12, 24}, "24/24 12/12 24/24"},
		{"with a camera move it is no repeat", 1, []board.Panel{cup(board.Panel{}), other, cup(board.Panel{Drawn: zoom})},
			[]board.Frame{24, 12, 24}, "24/24 12/12 24/24"},
		{"a panel split in two goes on", 1, []board.Panel{cup(board.Panel{}), cup(board.Panel{})}, []board.Frame{24, 24}, "24/24 24/24"},
		{"a still one split in two is one", 1, []board.Panel{cup(board.Panel{Still: true}), cup(board.Panel{Still: true})}, []board.Frame{24, 24}, "1/24 0/24"},
		{"panels without pictures repeat nothing", 1, []board.Panel{{}, other, {}}, []board.Frame{24, 12, 24}, "24/24 12/12 24/24"},
		// 48 needs 24 and 24 more frames (trade 5, F:cut).
		{"a dissolve takes half of it more on each side", 1, []board.Panel{{}, {Into: dissolve}}, []board.Frame{72, 72}, "96/72 96/72"},
		{"on twos half as many", 2, []board.Panel{{}, {Into: dissolve}}, []board.Frame{72, 72}, "48/36 48/36"},
		{"a fade takes none more", 1, []board.Panel{{}, {Into: board.Transition{Kind: board.Fade, Frames: 24}}}, []board.Frame{72, 72}, "72/72 72/72"},
		{"nothing dissolves into a still panel at a cost", 1, []board.Panel{{}, {Still: true, Into: dissolve}}, []board.Frame{72, 72}, "96/72 1/72"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := film(t, c.step, c.panels, c.holds...)
			got := ""
			for _, s := range planOf(t, b).Shots {
				for i, p := range s.Panels {
					if i > 0 {
						got += " "
					}
					got += fmt.Sprintf("%d/%d", p.Take, p.OnSheet)
				}
			}
			if got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
}

func TestAnObjectThatMovesIsNotStill(t *testing.T) {
	b := film(t, 1, []board.Panel{{Still: true}, {Still: true}}, 24, 24)
	b = do(t, b, board.AddObjectMove(board.ObjectMove{Object: "cup", First: 1, Last: 1, Keys: []board.Spot{{}, {X: 9}}}))
	if p := planOf(t, b); p.Take != 25 || p.OnSheet != 48 {
		t.Errorf("%d of %d exposures, want 25 of 48", p.Take, p.OnSheet)
	}
	if f := Findings(b); len(f) != 1 || f[0].Kind != NotStill || f[0].Panel != 0 {
		t.Errorf("findings %+v", f)
	}
}

func TestEveryExposureIsTakenIfAskedFor(t *testing.T) {
	b := teaTable(t)
	f := b.Planning()
	f.Every = true
	p := planOf(t, do(t, b, board.SetPlan(f)))
	// 12 frames of dissolve: 6 on either side, 3 exposures on twos each.
	if want := b.Exposures() + 6; p.OnSheet != b.Exposures() || p.Take != want {
		t.Errorf("%d of %d, want %d of %d", p.Take, p.OnSheet, want, b.Exposures())
	}
	if len(p.Again) != 0 {
		t.Errorf("shots %v have nothing to take", p.Again)
	}
}

func TestCountsOfShotsAndScenes(t *testing.T) {
	p := planOf(t, teaTable(t))
	got := ""
	for _, s := range p.Shots {
		got += fmt.Sprintf("%s scene %d: %d of %d, rigged %d, plate %v, %q %v\n", s.Name, s.Scene, s.Take, s.OnSheet, s.Rigged, s.Plate, s.Objects, s.Risks)
	}
	want := `1-1 scene 0: 25 of 42, rigged 0, plate false, [] []
1-2 scene 0: 33 of 30, rigged 33, plate true, ["cup"] [rig many exposures]
1-3 scene 0: 27 of 24, rigged 0, plate true, [] [effect]
2-4 scene 1: 0 of 12, rigged 0, plate false, [] []
2-5 scene 1: 150 of 150, rigged 0, plate false, ["teapot"] [many exposures long]
2-6 scene 1: 12 of 12, rigged 0, plate false, [] []
`
	if got != want {
		t.Errorf("it is\n%s, want\n%s", got, want)
	}
	if len(p.Again) != 1 || p.Again[0] != 3 || p.Take != 247 || p.OnSheet != 270 || p.Plates != 2 {
		t.Errorf("again %v, %d of %d, %d plates", p.Again, p.Take, p.OnSheet, p.Plates)
	}
}
