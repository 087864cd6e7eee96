package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"stillbeat/audio"
	"stillbeat/board"
)

// The range of the peak meter, in dB of full scale.
const (
	meterLeast = -40.0
	meterMost  = 6.0
)

// peakMeter is a bar as long as the loudest sample of what is heard is loud,
// with a mark at full scale; what goes beyond it is in another colour and
// thicker.
type peakMeter struct {
	db               float64 // -Inf for silence
	back, fill, over *canvas.Rectangle
	mark             *canvas.Rectangle
	root             *fyne.Container
}

func newPeakMeter() *peakMeter {
	m := &peakMeter{db: math.Inf(-1), back: canvas.NewRectangle(paperEdge), fill: canvas.NewRectangle(green),
		over: canvas.NewRectangle(red), mark: canvas.NewRectangle(ink)}
	m.root = container.New(m, m.back, m.fill, m.over, m.mark)
	return m
}

// Set shows a level.
func (m *peakMeter) Set(db float64) {
	m.db = db
	m.root.Refresh()
	m.Layout(nil, m.root.Size())
}

// part returns how far along the meter a level is, 0 to 1.
func part(db float64) float32 {
	return float32((math.Max(meterLeast, math.Min(db, meterMost)) - meterLeast) / (meterMost - meterLeast))
}

// MinSize is that of the bar.
func (m *peakMeter) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(180, textUnits(12)) }

// Layout draws the bar as long as the level is.
func (m *peakMeter) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	lay := func(r *canvas.Rectangle, from, to, thick float32) {
		r.Move(fyne.NewPos(from*s.Width, (s.Height-thick)/2))
		r.Resize(fyne.NewSize(max(0, to-from)*s.Width, thick))
		r.Hidden = to <= from
	}
	full, at := part(0), part(m.db)
	lay(m.back, 0, 1, s.Height/3)
	lay(m.fill, 0, min(at, full), s.Height/2)
	lay(m.over, full, at, s.Height)
	m.mark.Move(fyne.NewPos(full*s.Width-1, 0))
	m.mark.Resize(fyne.NewSize(2, s.Height))
}

// peakLevel returns the loudest sample of what is heard of a song, in dB of
// full scale; -Inf for silence. ok is false while the sound is not known.
func peakLevel(wave *audio.Pyramid, s board.Song) (db float64, ok bool) {
	if wave == nil {
		return math.Inf(-1), false
	}
	from, to := s.Sounding()
	var all [1]audio.Column
	wave.Columns(all[:], from, to)
	return 20*math.Log10(float64(max(all[0].Max, -all[0].Min))) + s.Gain, true
}
