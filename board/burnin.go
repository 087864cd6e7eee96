package board

import (
	"fmt"
	"strings"
)

// BurnIn says which words stand over the picture.
type BurnIn struct {
	Number   bool `json:"number,omitempty"` // of the panel
	Title    bool `json:"title,omitempty"`
	Timecode bool `json:"timecode,omitempty"`
	Frame    bool `json:"frame,omitempty"`
	Exposure bool `json:"exposure,omitempty"` // which of the panel's
	Beat     bool `json:"beat,omitempty"`     // with its bar
}

// BurnIn returns the words over the picture of frame f, in up to two lines:
// what the panel is called, and where in the film one is. A line without words
// is empty. starts and numbers are the board's. At the end of the film the
// last picture stays, and so do its words.
func (b Board) BurnIn(words BurnIn, starts []Frame, numbers []string, f Frame) (panel, place string) {
	var called, where []string
	if words.Timecode {
		where = append(where, b.Rate.Timecode(f))
	}
	if words.Frame {
		where = append(where, fmt.Sprintf("frame %d", f))
	}
	if i := PanelAt(starts, min(f, starts[len(starts)-1]-1)); i >= 0 {
		if words.Number {
			called = append(called, "panel "+numbers[i])
		}
		if title := strings.Join(strings.Fields(b.Panels[i].Title), " "); words.Title && title != "" {
			called = append(called, title)
		}
		if words.Exposure {
			step := Frame(b.StepOf(i))
			at, all := min(f, starts[i+1]-1)-starts[i], starts[i+1]-starts[i]
			where = append(where, fmt.Sprintf("exposure %d of %d", at/step+1, (all+step-1)/step))
		}
	}
	if beat := b.BeatWords(f); words.Beat && beat != "" {
		where = append(where, beat)
	}
	return strings.Join(called, " · "), strings.Join(where, " · ")
}
