package board

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Click is a film click: frames and eighths of a frame per beat, at 24 frames
// a second whatever the rate of the film.
type Click struct{ Frames, Eighths int }

// clickEighths is how many eighths of a frame pass in a minute.
const clickEighths = 60 * 24 * 8

// ParseClick reads a click as it is written: "12-4", or "12" for "12-0".
func ParseClick(s string) (Click, error) {
	whole, part, divided := strings.Cut(strings.TrimSpace(s), "-")
	f, err := strconv.ParseUint(whole, 10, 16)
	e := uint64(0)
	if err == nil && divided {
		e, err = strconv.ParseUint(part, 10, 16)
	}
	if err != nil || e > 7 {
		return Click{}, fmt.Errorf("%.40q is not a film click: type frames and eighths per beat, such as 12-4", s)
	}
	c := Click{int(f), int(e)}
	if c.eighths() == 0 || c.BPM() < MinTempo || c.BPM() > MaxTempo {
		return Click{}, fmt.Errorf("the film click %s is outside %d to %d beats a minute", c, MinTempo, MaxTempo)
	}
	return c, nil
}

// NearestClick returns the click whose beat is nearest in length to that of a
// tempo in beats per minute.
func NearestClick(bpm float64) Click {
	n := int(math.Round(clickEighths / bpm))
	return Click{n / 8, n % 8}
}

// BPM returns the tempo of the click in beats per minute.
func (c Click) BPM() float64 { return clickEighths / float64(c.eighths()) }

func (c Click) eighths() int { return 8*c.Frames + c.Eighths }

// String returns the click as it is written: "12-4".
func (c Click) String() string { return fmt.Sprintf("%d-%d", c.Frames, c.Eighths) }
