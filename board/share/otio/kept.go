package otio

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"

	"stillbeat/board"
)

// film takes in what is kept of the whole film.
func (r *reader) film(kept json.RawMessage) error {
	if kept == nil {
		return nil
	}
	var own ownFilm
	if err := json.Unmarshal(kept, &own); err != nil || own.Rate.Check() != nil {
		r.left("what this program had kept of the film, which is damaged")
		return nil
	}
	t := &r.timing
	t.Rate, t.Step, t.End.Was = own.Rate, own.Step, &own.End
	if own.Song != nil {
		t.Song = own.Song.Name
	}
	if own.Grid == nil {
		return nil
	}
	t.Grid = board.Grid{Tempo: own.Grid.Tempo, Confidence: own.Grid.Confidence, Metre: own.Grid.Metre}
	j := json.NewDecoder(bytes.NewReader(own.Grid.Beats))
	if start, err := j.Token(); err != nil || start != json.Delim('[') {
		return errors.New("the beats in it are no list")
	}
	for j.More() {
		var b board.Beat
		if err := j.Decode(&b); err != nil {
			return fmt.Errorf("beat %d: %w", len(t.Grid.Beats)+1, plain(err))
		}
		if len(t.Grid.Beats) == board.MaxBeats {
			return fmt.Errorf("there are more than %d beats", board.MaxBeats)
		}
		if own.Song != nil {
			b.Time += own.Song.Offset // without the song the beats are in the film's time
		}
		t.Grid.Beats = append(t.Grid.Beats, b)
	}
	return nil
}

// panel takes in what is kept of a panel.
func (r *reader) panel(c *board.Cue, s shot) {
	if s.of.kept == nil {
		if !c.Gap {
			c.Number, c.Name = s.of.name, s.of.name
		}
		return
	}
	var own ownPanel
	if err := json.Unmarshal(s.of.kept, &own); err != nil {
		r.left("what this program had kept of a panel, which is damaged")
		return
	}
	c.ID, c.Number, c.Was = own.ID, own.Number, &own.Start
	c.Opens, c.Heading, c.Fixed, c.Step = own.Opens, own.Heading, own.Fixed, own.Step
	c.Words = map[string]string{}
	for _, name := range board.Texts {
		c.Words[name] = *own.Words.Text(name)
	}
	c.Marks = &own.Words.Marks
	if own.Into != nil && s.into == nil {
		c.Into = own.Into
	}
}

// passage returns what a transition says: what was kept of it if it is as long
// as it was written, else what it has come to be.
func (r *reader) passage(n *node) *board.Transition {
	rate := r.timing.Rate
	if rate == (board.FrameRate{}) {
		rate = board.FrameRate{Num: 24, Den: 1}
	}
	in, out := rate.Nearest(n.in.seconds()), rate.Nearest(n.out.seconds())
	now := board.Transition{Kind: board.Dissolve, Frames: max(in, 0) + max(out, 0)}
	var own ownTransition
	if n.kept != nil && json.Unmarshal(n.kept, &own) == nil {
		if own.In == in && own.Out == out {
			return &own.Transition
		}
		now.Kind = own.Kind
	} else if n.kind != dissolve {
		r.left("the kind %.40q of a transition: it is a dissolve now", n.kind)
	}
	if now.Frames == 0 || now.Kind == board.Cut {
		return &board.Transition{}
	}
	if now.Frames > board.MaxTransition {
		r.left("part of a transition of %d frames: the longest has %d", now.Frames, board.MaxTransition)
		now.Frames = board.MaxTransition
	}
	return &now
}
