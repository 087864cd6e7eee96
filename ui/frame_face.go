package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// signFrame is the icon of the face: the corners of a frame.
const signFrame = `<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24"><path d="M3 3h7v2H5v5H3zM14 3h7v7h-2V5h-5zM3 14h2v5h5v2H3zM19 14h2v7h-7v-2h5z"/></svg>`

// frameFace is the side of the card on which the picture is placed in the frame
// and the camera is moved: one half of it at a time.
type frameFace struct {
	*face
	w      *window
	place  *placeTool
	camera *cameraTool
	lay    *placeHalf
	travel *cameraHalf

	name              *canvas.Text
	toPlace, toCamera *hintedButton
	empty, body       fyne.CanvasObject
	placeUp, cameraUp fyne.CanvasObject
}

// newFrameFace makes the face.
func (w *window) newFrameFace() *face {
	f := &frameFace{w: w, name: heading("")}
	st := &stage{w: w, warm: func() {
		if w.chosen >= 0 && w.faces.up == f.face {
			f.present()
			w.surface.Refresh()
		}
	}}
	f.place = &placeTool{w: w, stage: st, lines: noLines, shown: f.present}
	f.camera = &cameraTool{w: w, stage: st, lines: noLines, shown: f.present}
	f.lay, f.travel = w.newPlaceHalf(f.place), w.newCameraHalf(f.camera)
	f.toPlace = w.hinted("Picture", nil, widget.MediumImportance, "How the picture sits in the frame: drag it on the picture, its corners and its handle",
		func() { f.turn(f.place) }).by(framePlaceName)
	f.toCamera = w.hinted("Camera", nil, widget.LowImportance, "What the camera sees at the start and at the end of the panel",
		func() { f.turn(f.camera) }).by(frameCameraName)
	f.placeUp, f.cameraUp = f.lay.root, f.travel.root
	f.cameraUp.Hide()
	head := container.NewHBox(f.name, layout.NewSpacer(), f.toPlace, f.toCamera)
	f.body = container.NewBorder(head, nil, nil, nil, container.NewStack(f.placeUp, f.cameraUp))
	f.empty = container.NewCenter(small("Choose a panel to frame its picture."))
	f.face = &face{name: "Frame the picture", hint: "How the picture sits in the frame, and what the camera does",
		sign: signFrame, key: fyne.KeyF6, tool: f.place, present: f.present, typed: f.typed,
		root: band(paper, padded(12, 8, container.NewStack(f.body, f.empty)))}
	w.framing = f
	return f.face
}

// turn shows one half of the face, and takes its tool in hand.
func (f *frameFace) turn(t tool) {
	f.tool = t
	camera := t == tool(f.camera)
	setVisible(f.placeUp, !camera)
	setVisible(f.cameraUp, camera)
	f.toPlace.Importance, f.toCamera.Importance = widget.MediumImportance, widget.LowImportance
	if camera {
		f.toPlace.Importance, f.toCamera.Importance = widget.LowImportance, widget.MediumImportance
	}
	f.toPlace.Refresh()
	f.toCamera.Refresh()
	if f.w.faces.up == f.face {
		f.w.faces.Present()
	}
}

// show turns the card to one half of the face.
func (f *frameFace) show(t tool) {
	f.turn(t)
	f.w.pages.Show(f.w.timelinePage)
	f.w.faces.Show(f.face)
}

// present brings the face in line with the film.
func (f *frameFace) present() {
	w := f.w
	setVisible(f.body, w.chosen >= 0)
	setVisible(f.empty, w.chosen < 0)
	if w.chosen < 0 {
		return
	}
	if n := len(w.selection()); n > 1 {
		setText(f.name, countedPanels(n))
	} else {
		setText(f.name, "Panel "+w.board.Number(w.chosen))
	}
	changeable := w.desk.ReadOnly() == nil
	f.lay.present(changeable)
	f.travel.present(changeable)
}

// typed moves by the arrows what is at work, ten times as far with Shift, and
// with Escape leaves what is held where it was.
func (f *frameFace) typed(key fyne.KeyName, held fyne.KeyModifier) bool {
	w := f.w
	if w.surface.tool == nil || held&^shift != 0 {
		return false
	}
	by := 1.
	if held&shift != 0 {
		by = 10
	}
	var dx, dy float64
	switch key {
	case fyne.KeyLeft:
		dx = -by
	case fyne.KeyRight:
		dx = by
	case fyne.KeyUp:
		dy = -by
	case fyne.KeyDown:
		dy = by
	case fyne.KeyEscape:
		if !f.place.Cancel() && !f.camera.Cancel() {
			return false
		}
		f.present()
		w.surface.Refresh()
		return true
	default:
		return false
	}
	if f.tool == tool(f.place) {
		if !w.hasPicture() {
			return false
		}
		f.place.nudge(dx, dy)
	} else {
		f.camera.nudge(dx, dy)
	}
	return true
}

// scrolling lays rows in a part of the card that scrolls where it has no room.
func scrolling(rows *cardRows) fyne.CanvasObject {
	var all []fyne.CanvasObject
	for _, r := range rows.all() {
		all = append(all, r.label, r.field)
	}
	scroll := container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, barRoom), container.New(rows, all...)))
	return container.New(&cardPage{rows}, scroll, newWheel(scroll.Scrolled))
}

// placementName names a way to fit a picture.
func placementName(f board.Fitting) string {
	return map[board.Fitting]string{board.Fitted: "Fitted", board.Filled: "Filled", board.ByHand: "By hand"}[f]
}
