package ui

import (
	"math"
	"sync/atomic"

	"stillbeat/board"
)

// loudness is a level in dB that can be set while it is heard.
type loudness struct{ db atomic.Int32 }

// Set sets the level, in dB.
func (l *loudness) Set(db int) { l.db.Store(int32(db)) }

// factor is what samples are multiplied by.
func (l *loudness) factor() float32 { return float32(math.Pow(10, float64(l.db.Load())/20)) }

// clicker is the clicks at a level that can be set while they are heard.
type clicker struct {
	board.Clicks
	level *loudness
}

func newClicker(rate int, level *loudness) clicker { return clicker{board.NewClicks(rate), level} }

func (c *clicker) mix(dst [][]float32, at int, beats []board.Beat) {
	c.Mix(dst, at, beats, c.level.factor())
}

// clicked is a sound with a click on each beat, mixed in as it is read.
type clicked struct {
	board.Sound
	clicker
	beats []board.Beat
}

func newClicked(under board.Sound, beats []board.Beat, level *loudness) *clicked {
	return &clicked{under, newClicker(under.Rate(), level), beats}
}

func (c *clicked) Read(dst [][]float32, at int) {
	c.Sound.Read(dst, at)
	c.mix(dst, at, c.beats)
}
