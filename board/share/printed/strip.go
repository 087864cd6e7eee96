package printed

import (
	"fmt"
	"math"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
)

// A strip shows a stretch of the film: scenes, panels, the waveform with the
// cuts on it, bars and beats, and the time. Heights of its parts in mm.
const (
	scenesHigh = 4.0
	panelsHigh = 5.0
	waveHigh   = 16.0
	bareHigh   = 5.0 // in place of the waveform where there is none
	beatsHigh  = 4.0
	timeHigh   = 4.0
	stripGap   = 3.0
)

// easySeconds is the length of film that is easily read on one strip.
const easySeconds = 15

// stripCount returns the number of strips for so many seconds of film, at most
// so many.
func stripCount(film float64, most int) int {
	return min(most, int(math.Ceil(film/easySeconds-1e-9)))
}

// strip is a stretch of the film on the page.
type strip struct {
	paper.Box
	wave     float64 // height of the part for the waveform
	from, to float64 // seconds of film
	scale    float64 // mm to a second
}

func (s strip) x(t float64) float64 { return s.X + (t-s.from)*s.scale }

// strips prints the whole film within a box.
func (p *printer) strips(room paper.Box) {
	wave := bareHigh
	if p.o.Wave != nil && p.b.Song != nil {
		wave = waveHigh
	}
	high := scenesHigh + panelsHigh + wave + beatsHigh + timeHigh
	most := int((room.High + stripGap) / (high + stripGap))
	if most < 1 {
		return
	}
	film := p.b.Rate.Seconds(p.b.Frames())
	n := stripCount(film, most)
	long := film / float64(n)
	for k := range n {
		s := strip{wave: wave, from: float64(k) * long, to: float64(k+1) * long, scale: room.Wide / long}
		s.Box = paper.Box{X: room.X, Y: room.Y + float64(k)*(high+stripGap), Wide: room.Wide, High: high}
		p.wave(s)
		p.cuts(s)
		p.beats(s)
		p.times(s)
	}
}

// waveStep is the width of a column of the waveform in mm.
const waveStep = 0.2

// wave draws what is heard of the song.
func (p *printer) wave(s strip) {
	top := s.Y + scenesHigh + panelsHigh
	axis := top + s.wave/2
	p.Frame(paper.Box{X: s.X, Y: top, Wide: s.Wide, High: s.wave}, 0.1, paper.Grey(150))
	if p.o.Wave == nil || p.b.Song == nil {
		return
	}
	begin, end := p.b.Song.Sounding()
	from, to := max(s.from, begin+p.b.Song.Offset), min(s.to, end+p.b.Song.Offset)
	n := int((to - from) * s.scale / waveStep)
	if n < 1 {
		return
	}
	peaks := p.o.Wave(from-p.b.Song.Offset, to-p.b.Song.Offset, n)
	high := func(v float32) float64 { return axis - float64(min(1, max(-1, v)))*(s.wave/2-0.3) }
	var upper, lower [][2]float64
	for i, peak := range peaks {
		x := s.x(from) + (float64(i)+0.5)*(to-from)*s.scale/float64(len(peaks))
		upper = append(upper, [2]float64{x, high(peak.Max) - 0.05})
		lower = append(lower, [2]float64{x, high(peak.Min) + 0.05})
	}
	for i := len(lower) - 1; i >= 0; i-- {
		upper = append(upper, lower[i])
	}
	p.Polygon(upper, paper.Grey(185))
}

// leastApart is the least distance of lines on a strip in mm: those that come
// closer to the one before are left out.
const leastApart = 0.3

// cuts draws where panels begin, with their numbers and the scenes' names.
// Shots have a thicker line, scenes the thickest.
func (p *printer) cuts(s strip) {
	top, bottom := s.Y+scenesHigh, s.Y+scenesHigh+panelsHigh+s.wave
	small := paper.Style{Points: 6.5}
	lastLine, lastName := math.Inf(-1), math.Inf(-1)
	shot := 0
	for i := range p.b.Panels {
		opening := p.b.Opening(i)
		if opening != board.GoesOn {
			shot++
		}
		from, to := p.b.Rate.Seconds(p.starts[i]), p.b.Rate.Seconds(p.starts[i+1])
		if to <= s.from || from >= s.to {
			continue
		}
		left, right := s.x(max(from, s.from)), s.x(min(to, s.to))
		box := paper.Box{X: left, Y: top, Wide: right - left, High: panelsHigh}
		if shot%2 == 0 {
			p.Fill(box, paper.Grey(226))
		}
		if n := p.numbers[i]; p.Width(n, small)+0.8 <= box.Wide {
			p.Text(left+box.Wide/2, small.Centred(top, panelsHigh), n, paper.Style{Points: 6.5, Align: paper.Middle})
		}
		if from < s.from || left < lastLine+leastApart && opening == board.GoesOn {
			continue
		}
		lastLine = left
		thick := map[board.Opening]float64{board.GoesOn: 0.12, board.OpensShot: 0.3, board.OpensScene: 0.5}[opening]
		p.Rule(left, top, left, bottom, thick, paper.Black)
		if name := p.openings[i]; opening == board.OpensScene && name != "" && left > lastName {
			room := p.sceneRoom(i, s) - left
			if name = p.Cut(name, room, small); name != "" && name != "…" {
				p.Text(left, top-1, name, paper.Style{Points: 6.5, Bold: true})
				lastName = left + p.Width(name, small)
			}
		}
	}
	p.Frame(paper.Box{X: s.X, Y: top, Wide: s.Wide, High: panelsHigh}, 0.15, paper.Black)
}

// sceneRoom returns how far on a strip the name of the scene of panel i reaches.
func (p *printer) sceneRoom(i int, s strip) float64 {
	for k := i + 1; k < len(p.b.Panels); k++ {
		if t := p.b.Rate.Seconds(p.starts[k]); p.b.Opening(k) == board.OpensScene && t < s.to {
			return s.x(t) - 1
		}
	}
	return s.X + s.Wide
}

// beats draws beats as short lines and bars as long ones with their numbers.
func (p *printer) beats(s strip) {
	top := s.Y + scenesHigh + panelsHigh + s.wave
	small := paper.Style{Points: 6, Ink: paper.Grey(60)}
	bar, lastBeat, lastBar, lastNumber := 0, math.Inf(-1), math.Inf(-1), math.Inf(-1)
	for _, beat := range p.b.Grid.Beats {
		if beat.Bar {
			bar++
		}
		t := p.b.SongOffset() + beat.Time
		if t < s.from || t >= s.to {
			continue
		}
		x := s.x(t)
		if !beat.Bar {
			if x-lastBeat > 3*leastApart {
				p.Rule(x, top, x, top+1.1, 0.1, paper.Grey(90))
				lastBeat = x
			}
			continue
		}
		if x-lastBar > 3*leastApart {
			p.Rule(x, top, x, top+2.4, 0.2, paper.Black)
			lastBar, lastBeat = x, x
		}
		number := fmt.Sprint(bar)
		if wide := p.Width(number, small); x > lastNumber && x+0.5+wide <= s.X+s.Wide {
			p.Text(x+0.5, top+3, number, small)
			lastNumber = x + wide + 2
		}
	}
}

// timeSteps are the distances of labels of the time in seconds.
var timeSteps = []float64{1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1800, 3600}

// times prints minutes and seconds below a strip.
func (p *printer) times(s strip) {
	y := s.Y + s.High - timeHigh
	small := paper.Style{Points: 6, Ink: paper.Grey(60)}
	step := timeSteps[len(timeSteps)-1]
	for k := len(timeSteps) - 1; k >= 0 && timeSteps[k]*s.scale >= 12; k-- {
		step = timeSteps[k]
	}
	for t := math.Ceil(s.from/step-1e-9) * step; t <= s.to+1e-9; t += step {
		x, label := s.x(t), fmt.Sprintf("%d:%02d", int(t)/60, int(t)%60)
		p.Rule(x, y, x, y+1, 0.1, paper.Grey(90))
		if wide := p.Width(label, small); x+0.5+wide <= s.X+s.Wide {
			p.Text(x+0.5, y+2.6, label, small)
		}
	}
}
