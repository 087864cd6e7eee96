package ui

import (
	"fmt"
	"image"
	"math"

	"stillbeat/audio"
	"stillbeat/board"
)

// paint draws the timeline, all but the playhead, at scale pixels a unit.
func (v *timelineView) paint(img *image.RGBA, scale float64) {
	p := pen{img, scale}
	v.thumbs.begin()
	w := v.width
	p.fill(0, 0, w, v.height, paper)
	p.fill(0, 0, w, timeRulerH, paperDark)
	p.fill(0, timeRulerH, w, v.waveTop(), paperLight)
	p.fill(0, v.waveTop(), w, v.waveBottom(), paperLight)
	v.paintTimeRuler(p)
	v.paintMarks(p)
	v.paintWave(p)
	v.paintBeats(p)
	v.paintBeyond(p)
	p.fill(0, v.waveTop()-1, w, v.waveTop(), paperEdge)
	p.fill(0, v.waveBottom(), w, v.waveBottom()+1, paperEdge)
	v.paintMarkers(p)
	v.paintRemarks(p)
	v.paintPanels(p)
	v.paintBrackets(p)
	v.paintFit(p)
	v.paintLine(p)
	v.paintOverview(p)
	v.paintCaret(p)
	v.paintDrag(p)
}

func (v *timelineView) paintTimeRuler(p pen) {
	rate := v.board.Rate
	step := v.tick(64, rate.Float())
	for k := math.Max(0, math.Floor(v.from/step)); ; k++ {
		t := k * step
		x := v.x(t)
		if x > v.width {
			break
		}
		p.fill(x, timeRulerH-7, x+1, timeRulerH, inkSoft)
		p.text(x+3, 13.5, 10.5, false, inkSoft, timeLabel(rate, t, step))
		for m := 1.0; m < 4; m++ {
			if minor := v.x(t + step*m/4); step*v.perSec > 80 {
				p.fill(minor, timeRulerH-3, minor+1, timeRulerH, inkFaint)
			}
		}
	}
	// Single frames, where they are far enough apart to be told.
	if frame := v.perSec / rate.Float(); frame >= 7 {
		for f := max(0, rate.At(v.from)); v.frameX(f) < v.width; f++ {
			p.fill(v.frameX(f), timeRulerH-3, v.frameX(f)+1, timeRulerH, inkFaint)
		}
	}
}

// timeLabel writes a moment on the ruler: minutes and seconds, and the frame
// within the second where ticks are closer than a second.
func timeLabel(rate board.FrameRate, t, step float64) string {
	f := rate.Nearest(t)
	if step >= 1 {
		s := int64(math.Round(t))
		return fmt.Sprintf("%d:%02d", s/60, s%60)
	}
	n := board.Frame(rate.Nominal())
	if f%n == 0 {
		return fmt.Sprintf("%d:%02d", f/n/60, f/n%60)
	}
	return fmt.Sprintf("+%d f", f%n)
}

func (v *timelineView) paintWave(p pen) {
	top, bottom := v.waveTop()+3, v.waveBottom()-2
	mid, half := (top+bottom)/2, (bottom-top)/2
	s := v.board.Song
	if s == nil {
		return
	}
	a, b := math.Max(v.from, s.Offset), math.Min(v.to(), s.Offset+s.Seconds)
	if b <= a {
		return
	}
	x0, x1 := p.px(v.x(a)), p.px(v.x(b))
	p.fill(v.x(a), mid, v.x(b), mid+1, paperEdge)
	if v.wave == nil || x1 <= x0 {
		return
	}
	cols := v.wave.Columns(make([]audio.Column, x1-x0), a-s.Offset, b-s.Offset)
	for i, c := range cols {
		x := float64(x0+i) / p.scale
		level := float32(s.Level(v.sec(x) - s.Offset))
		c.Max, c.Min, c.RMS = c.Max*level, c.Min*level, c.RMS*level
		peak := func(hi, lo float32, col tint) {
			y0, y1 := mid-half*float64(min(hi*v.gain, 1)), mid-half*float64(max(lo*v.gain, -1))
			p.fill(x, y0, x+1/p.scale, math.Max(y1, y0+1/p.scale), col)
		}
		peak(c.Max, c.Min, wavePeak)
		peak(c.RMS, -c.RMS, waveBody)
		if c.Max > 1 || c.Min < -1 { // beyond full scale: it would be cut off
			p.fill(x, top, x+1/p.scale, top+3, red)
			p.fill(x, bottom-3, x+1/p.scale, bottom, red)
		}
	}
	if v.perSec < 30 {
		return
	}
	for _, o := range v.board.Grid.Onsets {
		if x := v.x(s.Offset + o.Time); o.Strength >= v.onsets && x >= 0 && x <= v.width {
			h := 3 + 6*o.Strength
			p.fill(x, bottom+2-h, x+1, bottom+2, inkSoft)
		}
	}
}

func (v *timelineView) paintBeats(p pen) {
	if !v.board.OnGrid() {
		p.text(max(8, v.frameX(0)+6), timeRulerH+15, 11, false, inkSoft, "no beats yet")
		return
	}
	g, offset := v.board.Grid, v.board.SongOffset()
	beatW, barW := v.spacing()
	everyBar := 1
	for float64(everyBar)*barW < 30 {
		everyBar *= 2
	}
	v.paintStretches(p)
	bar := 0
	for i, b := range g.Beats {
		if b.Bar {
			bar++
		}
		x := v.x(offset + b.Time)
		if x < -60 {
			continue
		}
		if x > v.width {
			break
		}
		bottom := v.waveTop()
		switch {
		case v.beatHover == i+1:
			p.fill(x-1.2, timeRulerH+2, x+1.2, v.waveBottom(), green)
		case b.Bar && barW >= 5:
			p.fill(x, bottom, x+1, v.waveBottom(), barLine)
			if (bar-1)%everyBar != 0 { // short, below the figures
				p.fill(x, bottom-4, x+1.4, bottom, ink)
			} else {
				p.fill(x, timeRulerH+2, x+1.4, bottom, ink)
				p.text(x+4, timeRulerH+14.5, 11.5, true, ink, fmt.Sprint(bar))
			}
		case beatW >= 5:
			p.fill(x, bottom-7, x+1, bottom, inkSoft)
			if beatW >= 9 {
				p.fill(x, bottom, x+1, v.waveBottom(), beatLine)
			}
		}
		if (b.Hand || b.Metre > 0) && beatW >= 5 {
			p.disc(x+0.5, timeRulerH+4, 2.2, green)
		}
	}
}

// paintStretches marks where the beat is unsure, with a broken line, and where
// it is locked, with a whole one, under the ruler of beats.
func (v *timelineView) paintStretches(p pen) {
	offset, y := v.board.SongOffset(), timeRulerH+beatRulerH
	for _, s := range v.board.Grid.Unsure {
		for x, end := max(0, v.x(offset+s.From)), min(v.width, v.x(offset+s.To)); x < end; x += 7 {
			p.fill(x, y-2.5, min(x+4, end), y-0.5, inkFaint)
		}
	}
	for _, s := range v.board.Grid.Locks {
		if x, end := max(0, v.x(offset+s.From)), min(v.width, v.x(offset+s.To)); x < end {
			p.fill(x, y-3, end, y-0.5, green)
		}
	}
}

// spacing returns the mean widths of a beat and of a bar.
func (v *timelineView) spacing() (beat, bar float64) {
	b := v.board.Grid.Beats
	length := b[len(b)-1].Time - b[0].Time
	bars := 0
	for _, x := range b {
		if x.Bar {
			bars++
		}
	}
	beat = length / float64(len(b)-1) * v.perSec
	if bars < 2 {
		return beat, 4 * beat
	}
	return beat, beat * float64(len(b)) / float64(bars)
}

// paintBeyond greys the music after the end of the film.
func (v *timelineView) paintBeyond(p pen) {
	if len(v.board.Panels) == 0 {
		return
	}
	if x := v.x(v.filmSeconds()); x < v.width {
		p.fill(max(0, x), timeRulerH, v.width, v.waveBottom(), beyondVeil)
	}
	if x := v.x(0); x > 0 {
		p.fill(0, 0, x, v.waveBottom(), beyondVeil)
	}
}

func (v *timelineView) paintOverview(p pen) {
	top, bottom := v.overviewTop()+3, v.height-3
	length := v.length()
	x := func(t float64) float64 { return 8 + t/length*(v.width-16) }
	p.fill(8, top, v.width-8, bottom, paperDark)
	if n := len(v.starts); n > 1 {
		p.fill(8, top+3, x(v.filmSeconds()), bottom-3, filmStrip)
		last := -1.0
		for _, f := range v.starts {
			if at := x(v.board.Rate.Seconds(f)); at-last >= 2 {
				p.fill(at, top+3, at+1, bottom-3, inkFaint)
				last = at
			}
		}
	}
	v.paintMarksBelow(p, x)
	a, b := max(8, x(v.from)), min(v.width-8, x(v.to()))
	p.frame(a, top, max(b, a+4), bottom, stroke(1.5), inkSoft)
}

// overviewSec returns the second of film under x on the overview strip.
func (v *timelineView) overviewSec(x float64) float64 {
	return (x - 8) / (v.width - 16) * v.length()
}
