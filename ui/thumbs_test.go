package ui

import (
	"image"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// sameIn reports whether img shows, with its corner at a place, the part of a
// picture.
func sameIn(img *image.RGBA, at image.Point, pic *image.RGBA, part image.Rectangle) bool {
	for y := part.Min.Y; y < part.Max.Y; y++ {
		for x := part.Min.X; x < part.Max.X; x++ {
			if img.RGBAAt(at.X+x-part.Min.X, at.Y+y-part.Min.Y) != pic.RGBAAt(x, y) {
				return false
			}
		}
	}
	return true
}

// Timeline and wall show each panel as it comes up in the viewer: framed, with
// its words, in the film's shape.
func TestThumbnailsShowWhatTheViewerShows(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.do(board.SetHold([]int{0, 1, 2}, 48))
	w.do(board.SetMove([]int{0}, board.CameraMove{From: board.Framing{Width: 2}}))
	w.do(board.SetPicture([]int{2}, ""))
	w.do(board.AddLetter([]int{2}, board.NewLetter(board.TitleCard, "TEA", w.board.Aspect)))
	plain := picture.NewFilm(w.desk.Pictures, func() board.Board {
		b := w.board
		b.Panels = append([]board.Panel(nil), b.Panels...)
		for i := range b.Panels {
			b.Panels[i].Drawn = nil
		}
		return b
	}())
	img := image.NewRGBA(image.Rect(0, 0, 1400, 900))
	for _, shape := range []board.Aspect{{}, {W: 1, H: 1}, {W: 9, H: 16}, {W: 239, H: 100}} {
		w.do(board.SetAspect(shape))
		w.wall.Present()
		for _, at := range []string{"timeline", "wall"} {
			for i := range w.board.Panels {
				var pw, ph int
				var corner image.Point
				var paint func()
				if v := &w.timeline.view; at == "timeline" {
					v.width, v.height, v.timescale.perSec, v.timescale.from = 1400, 300, 200, 0
					paint = func() { v.paint(img, 1) }
					ph = pen{img, 1}.px(v.panelBottom() - captionH - v.panelTop())
					pw = pen{img, 1}.px((v.panelBottom() - captionH - v.panelTop()) * w.board.Aspect.Ratio())
					corner = image.Pt(pen{img, 1}.px(v.frameX(v.starts[i])+1), pen{img, 1}.px(v.panelTop()))
				} else {
					v := &w.wall.wall.view
					v.zoom = 4
					v.resize(1000, 900)
					v.lay()
					paint = func() { v.paint(img, 1) }
					s := v.size()
					x, y := v.card(i)
					pw, ph, corner = int(s.w), int(s.pic), image.Pt(pen{img, 1}.px(x), pen{img, 1}.px(y))
				}
				paint()
				settle(t, w)
				paint()
				want, err := w.film.Panel(i, 0, pw, ph)
				if err != nil {
					t.Fatal(err)
				}
				// Not the edges, which have frame and sign over them.
				part := image.Rect(pw/3, ph/3, pw-4, ph-4)
				if !sameIn(img, corner.Add(part.Min), want, part) {
					t.Errorf("%s, %s: panel %d is not shown as in the viewer", w.board.Aspect, at, i+1)
				}
				if bare, err := plain.Panel(i, 0, pw, ph); i != 1 && (err != nil || sameIn(bare, part.Min, want, part)) {
					t.Errorf("%s: panel %d with framing and words looks as without, %v", w.board.Aspect, i+1, err)
				}
			}
		}
	}
}

func TestWhatStandsInForAThumbnail(t *testing.T) {
	cup, spoon := picture.PictureShot("cup", 16, 9), picture.PictureShot("spoon", 16, 9)
	ready := map[picture.Shot]*image.RGBA{cup: image.NewRGBA(image.Rect(0, 0, 160, 90))}
	x := newThumbs(func(s picture.Shot, w, h int) *image.RGBA {
		if img := ready[s]; img != nil && img.Rect.Dx() == w && img.Rect.Dy() == h {
			return img
		}
		return nil
	})
	for _, tt := range []struct {
		name   string
		before func()
		panel  board.PanelID
		shot   picture.Shot
		w, h   int
		want   *image.RGBA
	}{
		{"what is ready", nil, 1, cup, 160, 90, ready[cup]},
		{"the panel with another stroke: as it was", nil, 1, spoon, 160, 90, ready[cup]},
		{"again: it is kept from one painting to the next", nil, 1, spoon, 160, 90, ready[cup]},
		{"larger: as it was, to be stretched", nil, 1, cup, 213, 120, ready[cup]},
		{"another panel has nothing", nil, 2, spoon, 160, 90, nil},
		{"not painted in between: nothing", nil, 1, spoon, 160, 90, nil},
		{"ready again", nil, 1, cup, 160, 90, ready[cup]},
		{"another shape: nothing", nil, 1, cup, 90, 90, nil},
		{"ready once more", nil, 1, cup, 160, 90, ready[cup]},
		{"another film: nothing", x.forget, 1, spoon, 160, 90, nil},
	} {
		if tt.before != nil {
			tt.before()
		}
		x.begin()
		if got := x.of(tt.panel, tt.shot, tt.w, tt.h); got != tt.want {
			t.Errorf("%s: %p, want %p", tt.name, got, tt.want)
		}
	}
}

// Panels that look the same are one thumbnail, however they are held.
func TestEqualPanelsAreOneThumbnail(t *testing.T) {
	panels := make([]board.Panel, 60)
	for i := range panels {
		panels[i].Picture = board.MediaID([]string{"cup", "spoon", "lamp"}[i%3])
		panels[i].Title = string(rune('a' + i%26))
	}
	b := apply(t, board.New(), board.Insert(0, panels, 12), board.SetStart(1, board.Free(0.25)))
	asked := map[picture.Shot]bool{}
	v := wallOf(b, 1000, 2000, 10)
	v.thumbs.get = func(s picture.Shot, _, _ int) *image.RGBA { asked[s] = true; return nil }
	v.paint(image.NewRGBA(image.Rect(0, 0, 1000, 2000)), 1)
	tl := viewOf(b)
	tl.thumbs.get = v.thumbs.get
	tl.paint(image.NewRGBA(image.Rect(0, 0, 1000, 240)), 1)
	if len(asked) != 3 {
		t.Errorf("%d pictures are asked for, want 3", len(asked))
	}
}
