package plan

import "stillbeat/board/internal/paper"

// foot prints what stands below the shots of a session, from y to the end of the
// page: lists to go through, reminders and lines for notes.
func (d *printer) foot(y float64) {
	d.y = max(y, d.y)
	d.heading("Before the first exposure")
	wide := (d.right - d.left) / 2
	top, half := d.y, (len(lockDown)+1)/2
	lowest := top
	for i, l := range lockDown {
		x := d.left
		if i >= half {
			x += wide
		}
		if i == half {
			d.y = top
		}
		d.y += 1
		box := d.y + plain.Leading()
		d.Tick(paper.Box{X: x, Y: box - 2.4, Wide: 2.6, High: 2.6}, false)
		d.paragraph(x+4.5, wide-7, l, plain)
		lowest = max(lowest, d.y)
	}
	d.y = lowest + 1
	d.paragraph(d.left, d.right-d.left, shutterAdvice(), plain)
	d.heading("Take care")
	for _, l := range cautions {
		d.paragraph(d.left, d.right-d.left, l, plain)
	}
	if d.bottom-d.y < 16 { // no room for a line to write on
		return
	}
	d.heading("Exposures made, time taken, notes")
	for d.y+8 <= d.bottom {
		d.y += 8
		d.Rule(d.left, d.y, d.right, d.y, 0.1, paper.Grey(150))
	}
}
