package ui

import (
	"slices"

	"stillbeat/audio"
	"stillbeat/board"
	"stillbeat/board/picture"
)

// timelineView is all the timeline shows, as plain data: it is painted
// without a window and tested so.
type timelineView struct {
	timescale
	height float64

	board   board.Board
	starts  []board.Frame
	numbers []string // of the panels
	shots   []int    // first panels of shots, and the end
	scenes  []int
	named   []board.Numbers // of the panels, in full
	wave    *audio.Pyramid  // of the song, nil while it is not loaded
	gain    float32         // of the waveform's height
	onsets  float64         // least strength of the onsets shown
	chosen  int             // panel the card shows, -1 none
	// selected are all panels chosen, in order.
	selected []int
	hover    int     // start the pointer is on, -1 none
	in, out  float64 // the marks, seconds; 0 for none
	caret    int     // panel before which a dragged one would land, -1 none
	// beatHover is the beat the pointer is on or drags, from 1; 0 none.
	beatHover int
	drag      *startDrag
	film      *picture.Film // of board
	thumbs    *thumbs
	remarks   []board.PlacedRemark // notes of others, loose ones last
	flagRoom  []remarkFlag         // kept from one painting to the next for its room
}

// setBoard shows another state of the film.
func (v *timelineView) setBoard(b board.Board, starts []board.Frame, film *picture.Film) {
	v.board, v.starts, v.film = b, starts, film
	v.numbers, v.shots, v.scenes, v.named = b.Numbers(), b.Shots(), b.Scenes(), b.AllNumbers()
	v.remarks = b.PlacedRemarks()
}

func (v *timelineView) isSelected(i int) bool {
	_, found := slices.BinarySearch(v.selected, i)
	return found
}

// startDrag is a start being moved.
type startDrag struct {
	index   int
	landing bool // it stands on the music
	words   string
}

// Heights of the timeline's bands, top to bottom. What the window gives
// beyond the least, or below it, is shared by the waveform and the panels.
const (
	timeRulerH = 19.0
	beatRulerH = 21.0
	lineH      = 22.0 // the line the panels hang from, with their clips
	overviewH  = 18.0
	leastWave  = 52.0
	leastPanel = 76.0

	timelineMinHeight = timeRulerH + beatRulerH + fitH + lineH + bracketH + overviewH + leastWave + leastPanel
)

func (v *timelineView) waveTop() float64    { return timeRulerH + beatRulerH }
func (v *timelineView) spare() float64      { return v.height - timelineMinHeight }
func (v *timelineView) waveBottom() float64 { return v.waveTop() + max(16, leastWave+0.35*v.spare()) }
func (v *timelineView) lineY() float64      { return v.waveBottom() + fitH + lineH/2 + 1 }
func (v *timelineView) panelTop() float64 {
	return v.waveBottom() + fitH + lineH + v.bracketBand()
}
func (v *timelineView) panelBottom() float64 {
	return v.overviewTop() - 5
}
func (v *timelineView) overviewTop() float64 { return v.height - overviewH }

// length returns the seconds there is something to see: film or song.
func (v *timelineView) length() float64 {
	end := v.filmSeconds()
	if s := v.board.Song; s != nil {
		end = max(end, s.Offset+s.Seconds)
	}
	if end == 0 {
		return 20 // an empty film: room to look at
	}
	return end
}

func (v *timelineView) filmSeconds() float64 {
	return v.board.Rate.Seconds(v.starts[len(v.starts)-1])
}

// frameX returns where frame f starts.
func (v *timelineView) frameX(f board.Frame) float64 { return v.x(v.board.Rate.Seconds(f)) }

// panelAt returns the panel under (x, y), -1 for none.
func (v *timelineView) panelAt(x, y float64) int {
	if y < v.panelTop() || y > v.panelBottom() {
		return -1
	}
	return board.PanelAt(v.starts, v.board.Rate.At(v.sec(x)))
}

// startAt returns the start that can be grabbed at (x, y): a panel from 1 on,
// or len(Panels) for the end of the film; -1 for none.
func (v *timelineView) startAt(x, y float64) int {
	if y < v.waveBottom() || y > v.panelBottom() {
		return -1
	}
	const reach = 7.0
	best, dist := -1, reach
	for i := 1; i < len(v.starts); i++ {
		d := v.frameX(v.starts[i]) - x
		if d > reach {
			break
		}
		if d < 0 {
			d = -d
		}
		// The clip on the line is easier to grab than the panel's edge.
		if y > v.panelTop() && d > reach-3 {
			continue
		}
		if d < dist {
			best, dist = i, d
		}
	}
	return best
}

// gapAt returns the panel before which something dropped at x would land:
// len(Panels) for the end.
func (v *timelineView) gapAt(x float64) int {
	i := board.PanelAt(v.starts, v.board.Rate.At(v.sec(x)))
	switch {
	case i < 0 && x < v.frameX(0):
		return 0
	case i < 0:
		return len(v.board.Panels)
	case x > (v.frameX(v.starts[i])+v.frameX(v.starts[i+1]))/2:
		return i + 1
	}
	return i
}

// firstInSight returns the panel at the left edge, -1 before the film and
// after it.
func firstInSight(v *timelineView) int {
	return board.PanelAt(v.starts, v.board.Rate.At(v.from))
}
