package motion

import (
	"strings"
	"testing"

	"stillbeat/board"
)

// slide is a move over 100 mm with a key in the middle.
func slide(m board.Manner) board.ObjectMove {
	return board.ObjectMove{Object: "cup", Manner: m, Keys: []board.Spot{{}, {X: 50}, {X: 100}}}
}

// drop falls 20 cm at 1:6, which takes 11.87 frames.
var drop = board.ObjectMove{Object: "cup", Manner: board.Falling, Scale: 6, Keys: []board.Spot{{Height: 200}, {}}}

// hop is a jump that crouches for 8 frames and pushes off for 2; 5 cm at 1:6
// take 11.87 frames.
var hop = board.ObjectMove{Object: "lid", Manner: board.Jumping, Scale: 6, Rise: 50, Anticipate: 0.1, Keys: []board.Spot{{}, {}}}

// Where moments come to lie, as "frame what"; what is found, as its kind.
func TestMomentsOnExposures(t *testing.T) {
	hit := func(moment int, f board.Frame) Hit { return Hit{moment, f, "beat 5"} }
	mixed := Exposures{film24, []board.Frame{0, 2, 4, 6, 8, 9, 10, 11, 12, 14, 16}, 18} // ones within twos
	for _, c := range []struct {
		name  string
		move  board.ObjectMove
		on    Exposures
		hits  []Hit
		want  string
		found string
	}{
		{"a spacing fills its panels", slide(""), on(24, 2), nil, "0 sets off, 22 arrives", ""},
		{"its middle key is passed if nothing times it", slide(board.SlowingIn), on(24, 1), nil, "0 sets off, 23 arrives", ""},
		{"a hit times it", slide(""), on(24, 2), []Hit{hit(1, 6)}, "0 sets off, 6 key 2, 22 arrives", ""},
		{"the first key may wait for its hit", slide(""), on(24, 2), []Hit{hit(0, 12)}, "12 sets off, 22 arrives", ""},
		{"the last key may be early", slide(""), on(24, 2), []Hit{hit(2, 12)}, "0 sets off, 12 arrives", ""},
		{"a hit between two exposures goes to the earlier: the picture leads", slide(""), on(24, 2), []Hit{hit(1, 7)}, "0 sets off, 6 key 2, 22 arrives", ""},
		{"nearer to the later it comes late, which is told", slide(""), on(24, 3), []Hit{hit(1, 8)}, "0 sets off, 9 key 2, 21 arrives", "off its beat"},
		{"too early is told as well", slide(""), on(48, 12), []Hit{hit(1, 17)}, "0 sets off, 12 key 2, 36 arrives", "off its beat"},
		{"ones within twos meet it", slide(""), mixed, []Hit{hit(1, 9)}, "0 sets off, 9 key 2, 16 arrives", ""},
		{"a hit after the panels is told", slide(""), on(24, 2), []Hit{hit(2, 24)}, "0 sets off", "off its beat, no room"},
		{"a hit before them too", slide(""), on(24, 2), []Hit{hit(0, -4)}, "22 arrives", "off its beat, no room"},
		{"hits in the wrong order are passed over", slide(""), on(24, 1), []Hit{hit(1, 10), hit(2, 8)}, "0 sets off, 10 key 2, 23 arrives", "off its beat"},
		{"a fall lands on an exposure", drop, on(24, 1), nil, "0 lets go, 12 lands", ""},
		{"on twos as well", drop, on(24, 2), nil, "0 lets go, 12 lands", "step too large"},
		{"on its beat it begins as much earlier", drop, on(24, 1), []Hit{hit(1, 20)}, "8 lets go, 20 lands", ""},
		{"let go on a beat it lands when it must", drop, on(24, 1), []Hit{hit(0, 4)}, "4 lets go, 16 lands", ""},
		{"it says when there is no room before", drop, on(24, 1), []Hit{hit(1, 5)}, "5 lands", "no room"},
		{"it says when there is none after", drop, on(8, 1), nil, "0 lets go", "no room"},
		{"two hits that do not fit its weight stretch it", drop, on(24, 1), []Hit{hit(0, 0), hit(1, 20)}, "0 lets go, 20 lands", "off its weight"},
		{"a frame more or less is nothing", drop, on(24, 1), []Hit{hit(0, 0), hit(1, 13)}, "0 lets go, 13 lands", ""},
		{"a moment that is over is told", drop, on(24, 1), []Hit{hit(3, 20)}, "0 lets go, 12 lands", "off its beat"},
		{"a jump gets ready first", hop, on(36, 1), nil, "0 anticipates, 8 pushes off, 10 takes off, 22 lands", ""},
		{"and lands on its beat", hop, on(36, 1), []Hit{hit(1, 30)}, "8 anticipates, 16 pushes off, 18 takes off, 30 lands", ""},
		{"or takes off on it", hop, on(36, 1), []Hit{hit(0, 16)}, "6 anticipates, 14 pushes off, 16 takes off, 28 lands", ""},
		{"a path that does not fit stays put", board.ObjectMove{Manner: board.Falling, Keys: make([]board.Spot, 2)}, on(24, 1), []Hit{hit(1, 9)}, "", "path does not fit"},
		{"one exposure holds", slide(""), on(2, 2), nil, "0 sets off, arrives", "no room"},
	} {
		t.Run(c.name, func(t *testing.T) {
			move := c.move
			for _, h := range c.hits {
				move.Hits = append(move.Hits, board.Hit{Moment: h.Moment})
			}
			tab := Space(move, c.on, c.hits, Limits{Smallest: 0.01})
			var got []string
			for _, r := range tab.Rows {
				if r.Moment != "" {
					got = append(got, Tenths(float64(r.Frame))+" "+r.Moment)
				}
			}
			if text := strings.ReplaceAll(strings.Join(got, ", "), ".0 ", " "); text != c.want || kinds(tab) != c.found {
				t.Errorf("%q and %q, want %q and %q\n%s", text, kinds(tab), c.want, c.found, written(tab))
			}
		})
	}
}

// A spacing without room for its anticipation shares what there is.
func TestTooShortForItsAnticipation(t *testing.T) {
	m := slide("")
	m.Anticipate = 0.2
	golden(t, "short.txt", written(Space(m, on(8, 1), nil, Limits{})))
}

func TestStepsBeyondLimits(t *testing.T) {
	m := board.ObjectMove{Keys: []board.Spot{{}, {X: 60}, {X: 60.8}, {X: 60.8, Y: 40}}, Hits: []board.Hit{{Moment: 1}, {Moment: 2}}}
	tab := Space(m, on(12, 1), []Hit{{1, 1, "beat 1"}, {2, 9, "beat 2"}}, Limits{})
	golden(t, "steps.txt", written(tab))
	if got := kinds(Space(m, on(12, 1), []Hit{{1, 1, "beat 1"}, {2, 9, "beat 2"}}, Limits{Largest: 60, Smallest: 0.1})); got != "" {
		t.Errorf("with other limits it finds %q", got)
	}
}

// The first exposures and the last tell how they go on outside.
func TestNearestExposure(t *testing.T) {
	x := Exposures{film24, []board.Frame{10, 12, 14, 15, 16}, 17}
	for _, c := range []struct{ t, want float64 }{
		{10, 10}, {10.9, 10}, {11, 12}, {14.4, 14}, {14.6, 15}, {16, 16}, {16.4, 16}, {16.6, 17}, {19.5, 20}, {9.1, 10}, {8.9, 8}, {5, 6}, {4.9, 4},
	} {
		near(t, "nearest", x.nearest(c.t), c.want, 0)
	}
	// 25 frames on twos are 13 exposures, the last held for one.
	if x := on(25, 2); len(x.Frames) != 13 || x.Frames[12] != 24 {
		t.Errorf("exposures %v", x.Frames)
	}
}
