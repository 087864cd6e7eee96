package ui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board/check"
)

// shareCaution looks for flashing, and shows a sign with words where the film
// flashes.
type shareCaution struct {
	root    *fyne.Container
	sign    *fyne.Container // what is shown of a film that flashes
	head    *canvas.Text
	words   *widget.Label
	looking *canvas.Text
	stop    context.CancelFunc
	caution []string // that go with the film
	places  []string
	checked bool
}

// signCaution is a triangle with an exclamation mark.
const signCaution = `<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24"><path d="M12 2 1 21h22zM11 9h2v6h-2zM11 17h2v2h-2z" fill-rule="evenodd"/></svg>`

func newShareCaution() *shareCaution {
	c := &shareCaution{head: written("Caution: it flashes", red, 13, true), words: widget.NewLabel(""), looking: small(""), stop: func() {}}
	c.words.Wrapping, c.words.SizeName = fyne.TextWrapWord, theme.SizeNameCaptionText
	sign := widget.NewIcon(theme.NewErrorThemedResource(fyne.NewStaticResource("caution.svg", []byte(signCaution))))
	// The words scroll: the preview keeps its room in a small window.
	words := container.NewVScroll(c.words)
	words.SetMinSize(fyne.NewSize(0, textUnits(92)))
	c.sign = container.NewStack(canvas.NewRectangle(straw), padded(6, 6,
		container.NewVBox(container.NewBorder(nil, nil, sign, nil, centred(c.head)), words)))
	c.sign.Hide()
	c.root = container.NewVBox(c.looking, c.sign)
	return c
}

// Look begins to look for flashing in the dialog's film.
func (c *shareCaution) Look(d *shareDialog) {
	ctx, cancel := context.WithCancel(context.Background())
	c.stop = cancel
	w, b, pics := d.w, d.w.board, d.w.desk.Pictures
	go func() {
		report, err := check.Run(ctx, b, check.Options{Pictures: pics})
		w.post(func() {
			if err != nil || ctx.Err() != nil {
				return
			}
			c.caution, c.checked = check.Cautions(report.Findings), true
			for _, f := range report.Findings {
				if f.Caution != "" {
					c.places = append(c.places, flashPlace(f))
				}
			}
			c.Present(d)
		})
	}()
}

// flashPlace says where a film flashes.
func flashPlace(f check.Finding) string {
	frames := fmt.Sprintf("frames %d to %d", f.Span.Start, max(f.Span.Start, f.Span.End-1))
	if f.Number == "" {
		return frames
	}
	return "panel " + f.Number + ", " + frames
}

// mostPlaces is how many places are named.
const mostPlaces = 4

// Present shows what was found, for formats that move.
func (c *shareCaution) Present(d *shareDialog) {
	flashes := d.format.has(moves) && len(c.caution) > 0
	words := ""
	if d.format.has(moves) && !c.checked {
		words = "Looking for flashing…"
	}
	setText(c.looking, words)
	c.looking.Hidden = words == ""
	if flashes {
		places := c.places[:min(len(c.places), mostPlaces)]
		text := "At " + strings.Join(places, "; ")
		if more := len(c.places) - len(places); more > 0 {
			text += fmt.Sprintf("; and %d more", more)
		}
		c.words.SetText(text + ". " + strings.Join(c.caution, " "))
	}
	c.sign.Hidden = !flashes
	c.root.Refresh()
}

// Found returns what goes with the film, and whether that is known.
func (c *shareCaution) Found() ([]string, bool) { return c.caution, c.checked }

// Stop gives up looking.
func (c *shareCaution) Stop() { c.stop() }
