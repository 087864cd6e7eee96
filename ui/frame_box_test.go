package ui

import (
	"math"
	"testing"

	"stillbeat/board"
)

func TestSnapping(t *testing.T) {
	const wide, reach = 16. / 9, 0.02
	for _, c := range []struct {
		name string
		at   boxPart
		b    box
		want box
		x, y float64 // lines, NaN for none
	}{
		{"near the middle", inside, box{board.Point{X: 0.015, Y: 0.2}, 0.4, 0.3, 0}, box{board.Point{X: 0, Y: 0.2}, 0.4, 0.3, 0}, 0, math.NaN()},
		{"its left side near the left edge", inside, box{board.Point{X: -0.7, Y: 0.2}, 0.4, 0.3, 0}, box{board.Point{X: -wide/2 + 0.2, Y: 0.2}, 0.4, 0.3, 0}, -wide / 2, math.NaN()},
		{"its lower side near the lower edge", inside, box{board.Point{X: 0.2, Y: 0.36}, 0.4, 0.3, 0}, box{board.Point{X: 0.2, Y: 0.35}, 0.4, 0.3, 0}, math.NaN(), 0.5},
		{"on its side, near the right edge", inside, box{board.Point{X: 0.73, Y: 0.1}, 0.4, 0.3, 90}, box{board.Point{X: wide/2 - 0.15, Y: 0.1}, 0.4, 0.3, 90}, wide / 2, math.NaN()},
		{"aslant: the middle alone", inside, box{board.Point{X: -0.7, Y: 0.01}, 0.4, 0.3, 20}, box{board.Point{X: -0.7, Y: 0}, 0.4, 0.3, 20}, math.NaN(), 0},
		{"far from everything", inside, box{board.Point{X: 0.3, Y: 0.2}, 0.4, 0.3, 0}, box{board.Point{X: 0.3, Y: 0.2}, 0.4, 0.3, 0}, math.NaN(), math.NaN()},
		{"turned nearly upright", turnHandle, box{board.Point{}, 0.4, 0.3, 1.8}, box{board.Point{}, 0.4, 0.3, 0}, math.NaN(), math.NaN()},
		{"turned by seven degrees", turnHandle, box{board.Point{}, 0.4, 0.3, 7}, box{board.Point{}, 0.4, 0.3, 7}, math.NaN(), math.NaN()},
		{"a corner near the lower edge", corner + 2, box{board.Point{X: 0, Y: 0.2}, 0.8, 0.59, 0}, box{board.Point{X: 0.00339, Y: 0.2025}, 0.80678, 0.595, 0}, math.NaN(), 0.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, lines := c.b.snapped(c.at, wide, reach, 0.01, 10)
			if apart(got.mid, c.want.mid) > 1e-4 || math.Abs(got.w-c.want.w) > 1e-4 || math.Abs(got.h-c.want.h) > 1e-4 || got.turn != c.want.turn {
				t.Errorf("%+v, want %+v", got, c.want)
			}
			same := func(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }
			if !same(lines.x, c.x) || !same(lines.y, c.y) {
				t.Errorf("lines %+v, want %g and %g", lines, c.x, c.y)
			}
		})
	}
}

func TestCornerAcrossStays(t *testing.T) {
	b := box{board.Point{X: 0.1, Y: -0.2}, 0.8, 0.5, 30}
	for k := range 4 {
		from := b.corners()[k]
		to := board.Point{X: from.X + 0.07, Y: from.Y - 0.12}
		got := b.moved(corner+boxPart(k), from, to, 0.01, 10)
		if across := (k + 2) % 4; apart(got.corners()[across], b.corners()[across]) > 1e-9 {
			t.Errorf("with corner %d the one across went from %v to %v", k, b.corners()[across], got.corners()[across])
		}
		if math.Abs(got.w/got.h-b.w/b.h) > 1e-9 || got.turn != b.turn {
			t.Errorf("with corner %d the shape became %+v", k, got)
		}
	}
	if got := b.moved(corner, b.corners()[0], b.corners()[2], 0.01, 10); math.Abs(got.h-0.01) > 1e-9 {
		t.Errorf("drawn together it is %g high, want the least", got.h)
	}
}

func TestHandlesAreInSight(t *testing.T) {
	v := view{-1, -0.6, 1, 0.6}
	for _, b := range []box{{w: 16. / 9, h: 1}, {w: 5, h: 4}, {w: 5, h: 4, turn: 45}, {mid: board.Point{X: 3}, w: 1, h: 1}} {
		for _, p := range append([]board.Point{b.handle(v, 0.02)}, func() []board.Point { c := b.grips(v, 0.02); return c[:] }()...) {
			if p.X < v.x0 || p.X > v.x1 || p.Y < v.y0 || p.Y > v.y1 {
				t.Errorf("%+v has a handle at %v", b, p)
			}
		}
	}
}

func TestReadyMoves(t *testing.T) {
	const wide = 16. / 9
	frame := box{board.Point{}, wide, 1, 0}
	for _, r := range readyMoves {
		for name, pic := range map[string]box{"as large as the frame": frame, "larger": {board.Point{X: 0.1, Y: -0.1}, 2 * wide, 2.4, 0}} {
			m := r.of(board.CameraMove{}, pic, wide)
			if words := beyondWords(m, pic, wide); words != "" {
				t.Errorf("%s over a picture %s: %s", r.name, name, words)
			}
			if m.Holds() != (r.name == "Hold") {
				t.Errorf("%s over a picture %s: %+v", r.name, name, m)
			}
			dx, dy := m.To.At.X-m.From.At.X, m.To.At.Y-m.From.At.Y
			if dx*r.dx < 0 || dy*r.dy < 0 || r.dx == 0 && dx != 0 || r.dy == 0 && dy != 0 {
				t.Errorf("%s goes by %g, %g", r.name, dx, dy)
			}
			if big := name == "larger"; (r.dx != 0 || r.dy != 0) && big != (m.From.Part() == 1) {
				t.Errorf("%s over a picture %s sees %g of the frame", r.name, name, m.From.Part())
			}
		}
	}
}

// The marks are those of the spacing charts in twelve steps (trade notes 4.2).
func TestMarksOfTheChart(t *testing.T) {
	for s, want := range map[board.Spacing][]float64{
		board.SlowOut:   {.0069, .0278, .0625, .1111, .1736, .25, .3403, .4444, .5625, .6944, .8403},
		board.SlowIn:    {.1597, .3056, .4375, .5556, .6597, .75, .8264, .8889, .9375, .9722, .9931},
		board.SlowInOut: {.0197, .0741, .1563, .2593, .3762, .5, .6238, .7407, .8438, .9259, .9803},
	} {
		got := chartMarks(s, 13)
		if len(got) != 13 || got[0] != 0 || got[12] != 1 {
			t.Fatalf("%s: %v", s, got)
		}
		for i, v := range want {
			if math.Abs(got[i+1]-v) > 6e-5 {
				t.Errorf("%s: mark %d at %.4f, want %.4f", s, i+1, got[i+1], v)
			}
		}
	}
	if n := len(chartMarks(board.Even, 500)); n > mostMarks+2 {
		t.Errorf("%d marks", n)
	}
}
