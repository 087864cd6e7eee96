package printed

import (
	"image"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// TestPreview: what is seen before lies where it is printed.
func TestPreview(t *testing.T) {
	b, pics := many(t, 9), picture.NewCache(rings{}, 0)
	for i := range b.Panels {
		b.Panels[i].Picture = ring(i + 1)
	}
	b.Panels[8].Picture = "" // the last is blank
	for name, o := range map[string]Options{"upright": {PerPage: 4}, "lying": {PerPage: 6, Landscape: true, Paper: "letter"}} {
		p, err := newPrinter(b, pics, o)
		if err != nil {
			t.Fatal(err)
		}
		n := o.Pages(b) - 1
		seen, err := Preview(b, pics, o, n, 600)
		if err != nil {
			t.Fatal(err)
		}
		scale := 600 / p.Size.High
		if got, want := float64(seen.Rect.Dx()), p.Size.Wide*scale; seen.Rect.Dy() != 600 || got-want > 1 || want-got > 1 {
			t.Errorf("%s: it measures %v", name, seen.Rect)
		}
		coloured := func(mm [2]float64) bool {
			c := seen.RGBAAt(int(mm[0]*scale), int(mm[1]*scale))
			return c.R != c.G || c.G != c.B
		}
		for i := range b.Panels {
			if i/o.PerPage != n {
				continue
			}
			at := p.grid.at(i % o.PerPage)
			if got, want := coloured(middle(at.picture)), i < 8; got != want {
				t.Errorf("%s: a picture is seen of panel %d: %v", name, i+1, got)
			}
			if dark(seen, at.words.Y*scale, (at.words.Y+at.words.High)*scale, at.words.X*scale, (at.words.X+at.words.Wide)*scale) == 0 {
				t.Errorf("%s: no words are seen of panel %d", name, i+1)
			}
		}
		if empty := p.grid.at(len(b.Panels) - n*o.PerPage); dark(seen, empty.card.Y*scale+1, (empty.card.Y+empty.card.High)*scale, empty.card.X*scale, (empty.card.X+empty.card.Wide)*scale) != 0 {
			t.Errorf("%s: something is seen where no panel is", name)
		}
	}
	for _, n := range []int{-1, 2} {
		if _, err := Preview(b, pics, Options{}, n, 600); err == nil {
			t.Errorf("page %d, which is not there, is drawn", n)
		}
	}
	if _, err := Preview(board.New(), pics, Options{}, 0, 600); err != ErrEmpty {
		t.Errorf("a film without panels: %v", err)
	}
}

// dark counts the pixels of a part of a picture that are not white.
func dark(m *image.RGBA, top, bottom, left, right float64) (n int) {
	for y := int(top); y < int(bottom); y++ {
		for x := int(left); x < int(right); x++ {
			if m.RGBAAt(x, y).R < 255 {
				n++
			}
		}
	}
	return n
}
