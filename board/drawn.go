package board

import (
	"fmt"
	"slices"
)

// Drawn is what is made of a panel's picture. Panels point to it, since most
// have none of it; what they point to is never changed.
type Drawn struct {
	Placed    Placement  `json:"placed,omitzero"`     // how the picture sits in the frame
	Travel    CameraMove `json:"travel,omitzero"`     // what the camera does while the panel is up
	Sketch    MediaID    `json:"sketch,omitempty"`    // drawn under and over the picture: see Sketch
	Lettering []Letter   `json:"lettering,omitempty"` // from the bottom up
}

// Drawing returns what is made of the panel's picture. Its lettering is
// shared: do not change it.
func (p Panel) Drawing() Drawn {
	if p.Drawn == nil {
		return Drawn{}
	}
	return *p.Drawn
}

// draw changes what is made of the panel's picture.
func (p *Panel) draw(change func(*Drawn)) {
	d := p.Drawing()
	d.Lettering = slices.Clone(d.Lettering)
	change(&d)
	p.Drawn = nil
	if d.Placed != (Placement{}) || d.Travel != (CameraMove{}) || d.Sketch != "" || len(d.Lettering) > 0 {
		p.Drawn = &d
	}
}

// join gives the panel the picture and sketch of another if it has neither,
// and its lettering too.
func (p *Panel) join(q Panel) {
	p.Still = p.Still && q.Still
	from, bare := q.Drawing(), p.Picture == "" && p.Drawing().Sketch == ""
	if bare {
		p.Picture = q.Picture
	}
	p.draw(func(d *Drawn) {
		if bare {
			d.Placed, d.Travel, d.Sketch = from.Placed, from.Travel, from.Sketch
		}
		d.Lettering = append(d.Lettering, from.Lettering...)
	})
}

func (d Drawn) check() error {
	if len(d.Lettering) > MaxLettering {
		return fmt.Errorf("%d pieces of lettering: a panel has at most %d", len(d.Lettering), MaxLettering)
	}
	for _, l := range d.Lettering {
		if err := l.check(); err != nil {
			return err
		}
	}
	if err := d.Placed.check(); err != nil {
		return err
	}
	return d.Travel.check()
}

// onDrawings changes what is made of the pictures of the chosen panels.
func onDrawings(what string, set []int, change func(*Drawn)) Edit {
	return onPanels(what, set, func(p *Panel) { p.draw(change) })
}
