package folder

import (
	"cmp"
	"encoding/json"

	"stillbeat/board"
)

// objectMove is a board.ObjectMove with its hits as they are written.
type objectMove struct {
	board.ObjectMove
	Hits []hit `json:"hits,omitempty"`
}

type hit struct {
	Moment int    `json:"moment"`
	Start  *start `json:"start"`
}

func newObjectMove(m board.ObjectMove) objectMove {
	out := objectMove{ObjectMove: m}
	for _, h := range m.Hits {
		out.Hits = append(out.Hits, hit{h.Moment, &start{Start: h.Start}})
	}
	return out
}

// of returns the move on a board that has its grid and its song.
func (m objectMove) of(b board.Board) (board.ObjectMove, error) {
	out := m.ObjectMove
	for _, h := range m.Hits {
		at, err := h.Start.of(b)
		if err != nil {
			return out, err
		}
		out.Hits = append(out.Hits, board.Hit{Moment: h.Moment, Start: at})
	}
	return out, nil
}

// moves is list for the moves of objects, whose keys and hits are lists too.
func (d decoder) moves(data []byte, to *[]objectMove) error {
	type rawMove struct {
		objectMove
		Keys json.RawMessage `json:"keys"`
		Hits json.RawMessage `json:"hits"`
	}
	var raw, none rawMove
	return each(d, data, "move", board.MaxObjectMoves, func(j *json.Decoder) error {
		raw = none
		if err := j.Decode(&raw); err != nil {
			return err
		}
		*to = append(*to, raw.objectMove)
		at := &(*to)[len(*to)-1]
		return cmp.Or(
			list(d, raw.Keys, &at.Keys, "key", board.MaxPathKeys),
			list(d, raw.Hits, &at.Hits, "hit", board.MaxPathKeys),
		)
	})
}
