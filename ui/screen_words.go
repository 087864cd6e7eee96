package ui

import (
	"time"

	"fyne.io/fyne/v2"
)

// sayFor is how long words stand over a picture that fills the screen.
const sayFor = 4 * time.Second

// saying shows over a picture what is said in the foot of the window behind it.
type saying struct {
	plate *plate
	size  fyne.Size
	after func(time.Duration, func()) (stop func())
	stop  func() // of what takes the words away
}

func newSaying(after func(time.Duration, func()) func()) *saying {
	return &saying{plate: newPlate(), after: after, stop: func() {}}
}

// Say shows words for a while.
func (s *saying) Say(words string) {
	s.stop()
	s.write(words)
	over := false // said anew while it was on its way here
	stop := s.after(sayFor, func() {
		if !over {
			s.write("")
		}
	})
	s.stop = func() { over = true; stop() }
}

func (s *saying) write(words string) {
	text := max(13, min(s.size.Height/40, 24))
	s.plate.Set(words, text, s.size.Width-4*text)
	s.place()
}

// place puts the words in the middle, below those at the top of the picture.
func (s *saying) place() {
	s.plate.Move(fyne.NewPos((s.size.Width-s.plate.back.Size().Width)/2, s.size.Height*0.12))
}

// MinSize lets the screen be as small as the picture can be.
func (s *saying) MinSize(objects []fyne.CanvasObject) fyne.Size { return objects[0].MinSize() }

// Layout gives the picture, which is the first object, all there is.
func (s *saying) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	s.size = size
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(size)
	s.place()
}
