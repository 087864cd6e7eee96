package picture

import (
	"encoding/json"

	"stillbeat/board"
)

// Shot is what is on the screen at a frame of a film, all of it but the size.
// Shots that are equal look the same: a held panel has one shot for all its
// frames. Films make them; the zero value is a blank card.
type Shot struct {
	aspect   board.Aspect
	up, next view
	passage  board.Passage
	done     float32 // of the passage, 0 to 1: how much of next is seen
}

// Blank reports whether there is nothing on the screen: a panel without a
// picture, a sketch or words, that does not give way to another.
func (s Shot) Blank() bool {
	return s.passage == board.Cut && s.up == view{framing: s.up.framing, placed: s.up.placed, travels: s.up.travels}
}

// Bare returns the shot without its sketch.
func (s Shot) Bare() Shot {
	s.up.sketch, s.next.sketch = "", ""
	return s
}

// view is one panel as the camera sees it.
type view struct {
	picture board.MediaID
	sketch  board.MediaID
	placed  board.Placement
	framing board.Framing
	travels bool   // the camera moves while the panel is seen
	words   string // the lettering in JSON, "" for none
	black   bool   // nothing but black, before the film
}

// wordsOf returns a panel's lettering as a view has it.
func wordsOf(list []board.Letter) string {
	if len(list) == 0 {
		return ""
	}
	data, err := json.Marshal(list)
	if err != nil {
		panic(err) // a checked board has numbers and text alone
	}
	return string(data)
}

func (v view) lettering() []board.Letter {
	var list []board.Letter
	if v.words != "" {
		if err := json.Unmarshal([]byte(v.words), &list); err != nil {
			panic(err) // wordsOf wrote it
		}
	}
	return list
}
