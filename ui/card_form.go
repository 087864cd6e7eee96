package ui

import (
	"strings"

	"stillbeat/board"
)

// textField is a field whose words are taken as they are typed.
type textField struct {
	field *cardField
	of    func(*board.Words) *string
}

// typedField is a field that is taken when it is left.
type typedField struct {
	field *cardField
	take  func(text string) error
}

// makeFields makes what can be typed, picked and ticked.
func (c *card) makeFields() {
	c.title = c.text("title", "what the panel is called", 1, "What the panel is called, on the board and on the timeline.",
		func(w *board.Words) *string { return &w.Title })
	c.action = c.text("action", "what happens", 2, "What happens in the picture.",
		func(w *board.Words) *string { return &w.Action })
	c.sound = c.text("sound", "sound or dialogue", 2, "What is heard: dialogue, effects, a cue in the music.",
		func(w *board.Words) *string { return &w.Sound })
	c.note = c.text("note", "note to yourself", 2, "For yourself and the crew: on the board, not in the film.",
		func(w *board.Words) *string { return &w.Note })
	c.size = c.text("shot size", "size", 1, "", func(w *board.Words) *string { return &w.Size })
	c.size.hint = func() string { return sizeHint(c.size.Text) }
	c.size.suggesting(sizeSuggestions)
	c.camera = c.text("camera", "holds still", 1, "What the camera does. Down lists the moves, or write your own.",
		func(w *board.Words) *string { return &w.Camera })
	c.camera.suggesting(moveSuggestions)

	c.heading = newCardField(c, "what it is called", 1, "What the shot or scene is called that begins with this panel.")
	c.heading.OnChanged = func(s string) { c.write(board.SetHeading(c.first(), s)) }
	c.heading.OnDone = c.done

	c.frames = c.length("12 (frames), 1.5 s, 2 beats or 1 bar. What comes after moves along.", c.takeHold)
	c.passing = c.length("Its whole length in frames or as 0.5 s, half of it before the cut.", c.takePassing)
	c.scene = c.length("Scene that begins here. Left empty it is counted, written it stays.", c.takeNumbers)
	c.shot = c.length("Shot that begins here. Left empty it is counted, written it stays.", c.takeNumbers)
	c.panel = c.length("Panel within its shot. Left empty it is counted, written it stays.", c.takeNumbers)

	var ways []string
	for _, p := range board.Passages {
		ways = append(ways, passageName(p))
	}
	c.into = newChooser(c, "How the picture before gives way to this one. Space lists the ways.", ways, c.pickInto)
	c.step = newChooser(c, "Frames for each exposure: on twos, a photograph stands for two.",
		append([]string{"as the film"}, stepNames...), func(i int) { c.pick(board.SetPanelStep(c.set, i)) })
	c.marks = []*tick{
		c.mark("Rig in frame", "A rig stands in the frame, to be painted out afterwards.", func(m *board.Marks) *bool { return &m.Rig }),
		c.mark("In-camera effect", "An effect is made in the camera, not afterwards.", func(m *board.Marks) *bool { return &m.Effect }),
		c.mark("Clean plate", "A picture of the set alone is needed, to paint the rig out with.", func(m *board.Marks) *bool { return &m.Plate }),
		newTick(c, "Still", stillHint, func(on bool) { c.pick(board.SetStill(c.set, on)) }),
	}
}

// text makes a field of words; what names them for undo.
func (c *card) text(what, usual string, lines int, hint string, of func(*board.Words) *string) *cardField {
	f := newCardField(c, usual, lines, hint)
	f.OnChanged = func(s string) { c.write(board.Write(c.set, what, func(w *board.Words) { *of(w) = s })) }
	f.OnDone = c.done
	c.texts = append(c.texts, textField{f, of})
	return f
}

// length makes a field that is taken when it is left. With an error, Return
// stays in it; leaving it in another way brings back what the film says.
func (c *card) length(hint string, take func(string) error) *cardField {
	f := newCardField(c, "", 1, hint)
	f.whole = true
	t := typedField{f, take}
	f.OnDone = func() {
		if !c.take(t) {
			f.put(f.shown)
		}
	}
	f.OnReturn = func() {
		if c.take(t) {
			c.leave()
		}
	}
	c.typed = append(c.typed, t)
	return f
}

func (c *card) mark(name, hint string, of func(*board.Marks) *bool) *tick {
	what := strings.ToLower(name)
	return newTick(c, name, hint, func(on bool) {
		c.pick(board.Write(c.set, what, func(w *board.Words) { *of(&w.Marks) = on }))
	})
}
