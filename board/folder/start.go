package folder

import (
	"bytes"
	"encoding/json"
	"errors"

	"stillbeat/board"
)

// start is a board.Start as it is written: seconds of film where it is free,
// an object where it is anchored to a beat.
type start struct {
	board.Start
	untimed bool // an anchored start read without its last known time
}

// anchored is the object. A field left out is that of a plain beat.
type anchored struct {
	Beat   *int        `json:"beat"`
	Part   int         `json:"part"`
	Of     *int        `json:"of"`
	Offset board.Frame `json:"offset"`
	Time   *float64    `json:"time"`
}

func (s start) MarshalJSON() ([]byte, error) {
	if a := s.Anchor; a != (board.Anchor{}) {
		return json.Marshal(anchored{&a.Beat, a.Part, &a.Of, a.Offset, &s.Time})
	}
	return json.Marshal(s.Time)
}

// UnmarshalJSON reads either form. It is strict whatever the version: a start
// that is only half understood would be another start.
func (s *start) UnmarshalJSON(data []byte) error {
	*s = start{}
	if !bytes.HasPrefix(data, []byte("{")) {
		return plainJSON(json.Unmarshal(data, &s.Time), data)
	}
	var a anchored
	if err := (decoder{strict: true}).into(data, &a); err != nil {
		return err
	}
	if a.Beat == nil {
		return errors.New(`an anchor needs a "beat"`)
	}
	s.Anchor = board.Anchor{Beat: *a.Beat, Part: a.Part, Of: 1, Offset: a.Offset}
	if a.Of != nil {
		s.Anchor.Of = *a.Of
	}
	if s.untimed = a.Time == nil; !s.untimed {
		s.Time = *a.Time
	}
	return nil
}

// of returns the start on a board that has its grid and its song.
func (s *start) of(b board.Board) (board.Start, error) {
	switch {
	case s == nil:
		return board.Start{}, errors.New("its start is missing")
	case !s.untimed:
		return s.Start, nil
	case !b.OnGrid() || !s.Anchored():
		return board.Start{}, errors.New(`its anchor needs a "time", as there are no beats to find it from`)
	case s.Anchor.Part < 0 || s.Anchor.Part >= s.Anchor.Of:
		return board.Start{}, errors.New(`its anchor has a "part" outside 0 to "of"`)
	}
	timed := s.Start
	timed.Time = b.Seconds(timed)
	return timed, nil
}
