package ui

import (
	"fmt"
	"image"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

func BenchmarkWallThousandPanels(b *testing.B) {
	beats := make([]float64, 1500)
	for i := range beats {
		beats[i] = float64(i) * 0.4
	}
	panels := make([]board.Panel, 1000)
	for i := range panels {
		panels[i].Picture = board.MediaID(fmt.Sprintf("%0*d", 1+i%5, 0))
		panels[i].Title = fmt.Sprintf("The kettle thinks of %d", i)
		panels[i].Action = "It lifts its lid, looks left, then right"
		if i%6 == 0 {
			panels[i].Opens = board.OpensShot
		}
		if i%60 == 0 {
			panels[i].Opens, panels[i].Heading = board.OpensScene, "The kitchen, later"
		}
		panels[i].Rig = i%3 == 0
	}
	film := apply(b, board.New(), board.SetSong(&board.Song{Name: "s", Media: "s", Seconds: 600}, board.NewGrid(beats, nil)),
		board.Insert(0, panels, 1))
	img := image.NewRGBA(image.Rect(0, 0, 2560, 1300))
	scroll := func(b *testing.B, v *wallView) {
		v.paint(img, 1)
		b.ReportAllocs()
		for b.Loop() {
			v.scrollTo(float64(int(v.scroll+97) % int(v.end-v.height)))
			v.paint(img, 1)
		}
	}
	for _, perRow := range []float64{3, 6, 12, 20, 40} {
		b.Run(fmt.Sprintf("scroll %g in a row", perRow), func(b *testing.B) { scroll(b, wallOf(film, 2560, 1300, perRow)) })
	}
	b.Run("scroll found 20 in a row", func(b *testing.B) {
		v := wallOf(film, 2560, 1300, 20)
		v.fits = findPanels(film, film.Numbers(), "kettle 7")
		scroll(b, v)
	})
	for name, ready := range map[string]bool{"zoom": true, "zoom while pictures come": false} {
		b.Run(name, func(b *testing.B) {
			v := wallOf(film, 2560, 1300, 3)
			get := v.thumbs.get
			if !ready { // only those of one size
				v.thumbs.get = func(s picture.Shot, w, h int) *image.RGBA {
					if w != 400 {
						return nil
					}
					return get(s, w, h)
				}
			}
			by := 1 / 1.22
			b.ReportAllocs()
			for b.Loop() {
				v.zoomed(by, 700, 400, true)
				v.paint(img, 1)
				if v.zoom <= leastPerRow || v.zoom >= mostPerRow {
					by = 1 / by
				}
			}
		})
	}
}
