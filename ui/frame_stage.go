package ui

import (
	"image"
	"image/draw"
	"math"
	"time"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// stage is the panel that is worked on, painted under the marks of a tool: what
// of its picture lies beside the frame, dimmed, and while that moves what lies
// in it too.
type stage struct {
	w      *window
	key    stageKey
	beside *image.RGBA // for key, the frame left out
	warmed warmKey     // asked for last
	asked  time.Time
	warm   func() // it is there now
}

// stageKey is what was painted.
type stageKey struct {
	shot   picture.Shot
	placed board.Placement
	at     picture.Bench
	size   image.Point
}

type warmKey struct {
	picture board.MediaID
	placed  board.Placement
	high    float64
}

// paint draws the chosen panel as it is placed now. The frame itself is painted
// where the viewer does not show it so: while it is held, and until the viewer
// has it drawn.
func (s *stage) paint(m marks, placed board.Placement, held bool) {
	w := s.w
	at := picture.Bench{X: m.mid[0] * m.scale, Y: m.mid[1] * m.scale, High: m.high * m.scale}
	if at.High < 1 {
		return
	}
	frame := frameOf(at, w.board.Aspect.Ratio())
	whole := w.film.Whole(w.chosen)
	pw, ph := w.viewer.pixels()
	if !held && w.desk.Pictures.Drawn(whole, pw, ph) != nil {
		key := stageKey{whole, placed, at, m.img.Rect.Size()}
		if key != s.key || s.beside == nil {
			img := image.NewRGBA(m.img.Rect)
			if !w.film.Stage(img, w.chosen, placed, at) {
				s.ask(placed, at)
				return
			}
			draw.Draw(img, frame, image.Transparent, image.Point{}, draw.Src)
			dim(img, frame)
			s.key, s.beside = key, img
		}
		copy(m.img.Pix, s.beside.Pix)
		return
	}
	if w.film.Stage(m.img, w.chosen, placed, at) {
		dim(m.img, frame)
		return
	}
	s.ask(placed, at)
}

// ask has what the stage needs made, once in a while for what it was asked for.
func (s *stage) ask(placed board.Placement, at picture.Bench) {
	w, i := s.w, s.w.chosen
	key := warmKey{w.board.Panels[i].Picture, board.Placement{Fit: placed.Fit, Scale: placed.Scale}, at.High}
	if key == s.warmed && time.Since(s.asked) < 2*time.Second {
		return
	}
	s.warmed, s.asked = key, time.Now()
	film, post := w.film, w.post
	go func() {
		if film.Warm(i, placed, at) == nil { // the viewer tells what cannot be read
			post(s.warm)
		}
	}()
}

// bench is where the frame lies on the viewer.
func (w *window) bench() picture.Bench {
	_, h := w.viewer.pixels()
	return picture.Bench{High: float64(max(h, 1))}
}

// frameOf returns the pixels of the frame.
func frameOf(at picture.Bench, ratio float64) image.Rectangle {
	wide := at.High * ratio
	round := func(v float64) int { return int(math.Round(v)) }
	return image.Rect(round(at.X-wide/2), round(at.Y-at.High/2), round(at.X+wide/2), round(at.Y+at.High/2))
}

// dimmed is how much of a picture is seen beside the frame, of 256.
const dimmed = 88

// dim leaves little of what lies outside a rectangle.
func dim(img *image.RGBA, but image.Rectangle) {
	but = but.Intersect(img.Rect)
	weaken := func(pix []uint8) {
		for i, v := range pix {
			if v != 0 {
				pix[i] = uint8(uint32(v) * dimmed >> 8)
			}
		}
	}
	for y := range img.Rect.Dy() {
		row := img.Pix[y*img.Stride:][:4*img.Rect.Dx()]
		if y < but.Min.Y || y >= but.Max.Y {
			weaken(row)
			continue
		}
		weaken(row[:4*but.Min.X])
		weaken(row[4*but.Max.X:])
	}
}
