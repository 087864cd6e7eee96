package ui

import (
	"image"
	"image/color"
	"strings"
	"testing"

	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// dressFor wears a look and a size of text for one test.
func dressFor(t *testing.T, l *look, percent int) {
	t.Helper()
	was, size := worn, textPercent
	t.Cleanup(func() { worn, textPercent = was, size })
	worn, textPercent = l, percent
}

func TestALookIsWornAtOnce(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.choose(1)
	row := small("in a dialog")
	box := dialog.NewCustom("Dialog", "Close", row, w.win)
	box.Show()
	paint := func() color.RGBA {
		img := image.NewRGBA(image.Rect(0, 0, int(w.timeline.view.width), int(w.timeline.view.height)))
		w.timeline.view.paint(img, 1)
		return img.RGBAAt(img.Rect.Dx()/2, 1) // the ruler, above its words
	}
	for _, l := range []*look{looks[1], looks[2], looks[0]} {
		w.wear(l, 100)
		for what, got := range map[string]color.Color{
			"the clock": w.deck.clock.Color, "the place": w.deck.place.Color, "a line in a dialog": row.Color,
			"the theme's text": theme.Color(theme.ColorNameForeground), "the back of the viewer": w.viewer.about[0].FillColor,
			"the playhead": w.timeline.renderer.line.FillColor, "the timeline": paint(),
		} {
			want := map[string]tint{"the clock": ink, "the place": inkSoft, "a line in a dialog": inkSoft, "the theme's text": ink,
				"the back of the viewer": paperDark, "the playhead": red, "the timeline": paperDark}[what]
			if rgbaOf(got) != l.palette[want] {
				t.Errorf("%s: %s is %v, want %v", l.name, what, rgbaOf(got), l.palette[want])
			}
		}
		for _, c := range w.commands {
			if strings.HasPrefix(c.name, "Look: ") && c.ticked() != (c.name == "Look: "+l.name) {
				t.Errorf("with the look %s on, %q is ticked: %v", l.name, c.name, c.ticked())
			}
		}
	}
	box.Hide()
}

// golden names a golden of a look; one that is missing or no longer right is
// written into testdata/failed.
func golden(what string, l *look) string { return what + "-" + strings.ReplaceAll(l.name, " ", "-") }

func TestTimelineInEachLook(t *testing.T) {
	b := filmOf(t, 2, 2, 3)
	for _, e := range []board.Edit{
		board.SetStart(1, board.Free(1.1)),
		board.SetStart(2, board.Start{Anchor: board.Anchor{Beat: 4, Part: 1, Of: 2}}),
		board.AddMarker(board.Marker{Start: board.Free(2.4), Name: "Lid"}),
		board.Open([]int{2}, board.OpensShot),
	} {
		var err error
		if b, err = e.Apply(b); err != nil {
			t.Fatal(err)
		}
	}
	for _, l := range looks {
		t.Run(l.name, func(t *testing.T) {
			dressFor(t, l, 100)
			v := viewOf(b)
			v.width, v.height, v.perSec, v.from = 400, 240, 96, -0.1
			v.chosen, v.selected = 1, []int{1}
			img := image.NewRGBA(image.Rect(0, 0, 400, 240))
			v.paint(img, 1)
			comparePicture(t, "testdata/"+golden("timeline", l)+".png", img)
		})
	}
}

func TestButtonInEachLook(t *testing.T) {
	w := openWindow(t)
	for _, l := range looks {
		t.Run(l.name, func(t *testing.T) {
			w.wear(l, 100)
			b := w.hinted("Duplicate", nil, widget.MediumImportance, "", func() {})
			box := test.NewTempWindow(t, b)
			test.AssertRendersToMarkup(t, golden("button", l)+".xml", box.Canvas())
			if l.name == "paper" {
				box.Canvas().Focus(b)
				test.AssertRendersToMarkup(t, "button-with-the-keys.xml", box.Canvas())
			}
		})
	}
}
