package ui

import (
	"fmt"
	"math"
	"strconv"

	"stillbeat/board"
)

// songDialog sets where the song begins and what of it is heard.
func (w *window) songDialog() {
	s := w.board.Song
	if s == nil {
		return
	}
	number := func(v float64) *field {
		f := newField("", 1)
		f.SetText(strconv.FormatFloat(v, 'f', -1, 64))
		return f
	}
	offset, in, out := number(s.Offset), number(s.TrimIn), number(s.TrimOut)
	rise, fall, gain := number(s.FadeIn), number(s.FadeOut), number(s.Gain)
	peak, meter := small(""), newPeakMeter()
	show := func(s board.Song) {
		db, known := peakLevel(w.timeline.view.wave, s)
		setText(peak, peakWords(db, known))
		meter.Set(db)
	}
	show(*s)
	gain.OnChanged = func(text string) {
		if db, err := typedNumber(text); err == nil {
			louder := *s
			louder.Gain = db
			show(louder)
		}
	}
	w.ask("The song", "Set", []askRow{
		{"Begins at, s of film", offset}, {"Cut from its beginning, s", in}, {"Cut from its end, s", out},
		{"Fade in, s", rise}, {"Fade out, s", fall}, {"Gain, dB", gain}, {"Peak", meter.root}, {"", peak},
	}, func() error {
		var v [6]float64
		for i, f := range []*field{offset, in, out, rise, fall, gain} {
			var err error
			if v[i], err = typedNumber(f.Text); err != nil {
				return err
			}
		}
		return w.desk.Do(board.SetSongSound(v[0], v[1], v[2], v[3], v[4], v[5]))
	})
}

// peakWords puts the peak into words.
func peakWords(db float64, known bool) string {
	switch {
	case !known:
		return "not known yet"
	case math.IsInf(db, -1):
		return "silence"
	case db > 0:
		return fmt.Sprintf("%+.1f dB: too loud by as much, it would be cut off", db)
	}
	return fmt.Sprintf("%.1f dB below full scale", -db)
}
