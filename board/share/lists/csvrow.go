package lists

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"stillbeat/board"
)

// cell returns what a row has in a column, and whether there is such a column.
func (r *panelTable) cell(row []string, name string) (string, bool) {
	i, found := r.at[name]
	if !found {
		return "", false
	}
	return unguarded(row[i]), true
}

// row takes one panel in.
func (r *panelTable) row(row []string) error {
	var c board.Cue
	var err error
	c.Number, _ = r.cell(row, "number")
	if fps, found := r.cell(row, "fps"); found && fps != "" {
		rate, err := board.ParseRate(fps)
		if err != nil {
			return err
		}
		if len(r.timing.Cues) > 0 && rate != r.timing.Rate {
			return fmt.Errorf("it has %s frames a second, the rows before %s", rate, r.timing.Rate)
		}
		r.timing.Rate = rate
	}
	if id, _ := r.cell(row, "id"); id != "" {
		n, err := strconv.ParseInt(id, 10, 64)
		if err != nil || n < 1 {
			return fmt.Errorf("%.40q is no id of a panel", id)
		}
		c.ID = board.PanelID(n)
	}
	for _, name := range board.Texts {
		if text, found := r.cell(row, name); found {
			if c.Words == nil {
				c.Words = map[string]string{}
			}
			c.Words[name] = text
		}
	}
	if c.Marks, err = r.marks(row); err != nil {
		return err
	}
	if c.Into, err = r.passage(row); err != nil {
		return err
	}
	if c.At, err = r.time(row); err != nil {
		return err
	}
	if text, found := r.cell(row, "anchor"); found {
		if c.Was, err = parseAnchor(text, c.At); err != nil {
			return err
		}
	}
	r.timing.Cues = append(r.timing.Cues, c)
	r.last = row
	return nil
}

// marks reads what the shoot needs.
func (r *panelTable) marks(row []string) (*board.Marks, error) {
	var m board.Marks
	any := false
	for name, to := range map[string]*bool{"rig": &m.Rig, "effect": &m.Effect, "plate": &m.Plate} {
		text, found := r.cell(row, name)
		any = any || found
		switch strings.ToLower(strings.TrimSpace(text)) {
		case "", "no", "0", "false":
		case "yes", "1", "true", "x":
			*to = true
		default:
			return nil, fmt.Errorf("%s: %.40q is neither yes nor no", name, text)
		}
	}
	if !any {
		return nil, nil
	}
	return &m, nil
}

// passage reads how the panel is come to.
func (r *panelTable) passage(row []string) (*board.Transition, error) {
	kind, found := r.cell(row, "transition")
	if !found {
		return nil, nil
	}
	t := board.Transition{Kind: board.Passage(strings.ToLower(strings.TrimSpace(kind)))}
	if t.Kind == "cut" {
		t.Kind = board.Cut
	}
	if !slices.Contains(board.Passages, t.Kind) {
		return nil, fmt.Errorf("%.40q is no transition: use dissolve, fade, wipe or nothing", kind)
	}
	frames, _ := r.cell(row, "transition_frames")
	switch {
	case t.Kind == board.Cut:
	case frames == "":
		t.Frames = t.Kind.UsualFrames()
	default:
		v, err := number(frames)
		if err != nil || v != math.Trunc(v) || v < 1 {
			return nil, fmt.Errorf("%.40q is no length of a transition in frames", frames)
		}
		t.Frames = board.Frame(v)
	}
	return &t, nil
}
