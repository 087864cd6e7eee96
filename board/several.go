package board

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// several returns the panels of a choice in order, each once. An empty choice
// and one with a panel that is not there are refused.
func (b Board) several(set []int) ([]int, error) {
	out := slices.Clone(set)
	slices.Sort(out)
	out = slices.Compact(out)
	if len(out) == 0 || out[0] < 0 || out[len(out)-1] >= len(b.Panels) {
		return nil, ErrNoPanel
	}
	return out, nil
}

// onSeveral is an edit of chosen panels, which apply gets in order, each once.
func onSeveral(name string, set []int, apply func(Board, []int) (Board, error)) Edit {
	return Edit{Name: name, Apply: func(b Board) (Board, error) {
		chosen, err := b.several(set)
		if err != nil {
			return b, err
		}
		out, err := apply(b, chosen)
		if err != nil {
			return b, err
		}
		return out, nil
	}}
}

// Delete takes the chosen panels out. The panel before them holds on over
// their time, so that everything after stays on its beat; with the first
// panels gone, the next one starts the film.
func Delete(set []int) Edit {
	return onSeveral(named("delete", set), set, func(b Board, chosen []int) (Board, error) {
		n := len(b.Panels)
		for i := n - 1; i >= 0 && slices.Contains(chosen, i); i-- {
			b.End = b.Panels[i].Start
		}
		b.Moves = b.movesWithout(chosen)
		_, b.Panels, _, _ = b.parted(chosen)
		if len(b.Panels) == 0 {
			b.End = Start{}
		} else {
			b.Panels[0].Start = Start{}
		}
		return b, nil
	})
}

// CloseUp takes the chosen panels out and their time with them: what comes
// after moves up.
func CloseUp(set []int) Edit {
	return onSeveral(named("cut out", set), set, func(b Board, chosen []int) (Board, error) {
		_, rest, _, holds := b.parted(chosen)
		b.Moves = b.movesWithout(chosen)
		return b.laid(rest, holds)
	})
}

// Move takes the chosen panels out and puts them, in their order, before the
// panel that is at the given index now, len(Panels) for the end; each panel
// keeps its hold.
func Move(set []int, before int) Edit {
	return onSeveral(named("move", set), set, func(b Board, chosen []int) (Board, error) {
		if before < 0 || before > len(b.Panels) {
			return b, ErrNoPanel
		}
		at := before
		for _, i := range chosen {
			if i < before {
				at--
			}
		}
		moved, rest, movedHolds, restHolds := b.parted(chosen)
		meet(moved, rest, at)
		panels := slices.Insert(rest, at, moved...)
		b.Moves = b.movesMoved(chosen, before, panels)
		return b.laid(panels, slices.Insert(restHolds, at, movedHolds...))
	})
}

// Duplicate puts copies of the chosen panels after the last of them, with the
// same holds. The copy of a single panel is in the same shot.
func Duplicate(set []int) Edit {
	return onSeveral(named("duplicate", set), set, func(b Board, chosen []int) (Board, error) {
		copies, _, holds, _ := b.parted(chosen)
		if len(copies) == 1 {
			copies[0].takeOpening()
		}
		return b.inserted(chosen[len(chosen)-1]+1, copies, holds, b.MovesOf(chosen)...)
	})
}

// Paste puts panels with their holds before panel at (len(Panels) appends),
// and the moves of objects that MovesOf gave for them. What comes after moves
// along. Ids are given out here; starts in the panels are ignored.
func Paste(at int, panels []Panel, holds []Frame, moves ...ObjectMove) Edit {
	return Edit{Name: counted("paste", len(panels)), Apply: func(b Board) (Board, error) {
		if at < 0 || at > len(b.Panels) || len(panels) != len(holds) {
			return b, ErrNoPanel
		}
		for _, h := range holds {
			if h < 1 {
				return b, errShortHold
			}
		}
		return b.inserted(at, panels, holds, moves...)
	}}
}

// inserted returns the board with new panels before panel at, and their moves.
func (b Board) inserted(at int, panels []Panel, holds []Frame, moves ...ObjectMove) (Board, error) {
	fresh, rest := slices.Clone(panels), slices.Clone(b.Panels)
	out := b
	ids := make(map[PanelID]PanelID, len(panels))
	for i := range fresh {
		ids[fresh[i].ID] = out.NextID
		fresh[i].ID, fresh[i].Start, fresh[i].Fixed = out.NextID, Start{}, Numbers{}
		out.NextID++
	}
	meet(fresh, rest, at)
	out, err := out.laid(slices.Insert(rest, at, fresh...), slices.Insert(b.Holds(), at, holds...))
	if err != nil {
		return b, err
	}
	if len(moves) == 0 {
		return out, nil
	}
	if out.Moves, err = out.movesPasted(moves, ids); err != nil {
		return b, err
	}
	return out.checked(b)
}

// Join makes one panel of the run from the first chosen panel to the last,
// holding as long as they did: with the first picture, title and step there
// are, and everything that is written on them.
func Join(set []int) Edit {
	return onSeveral("join panels", set, func(b Board, chosen []int) (Board, error) {
		from, to := chosen[0], chosen[len(chosen)-1]+1
		if to-from < 2 {
			return b, errors.New("it takes two panels or more to join")
		}
		p := b.Panels[from]
		for _, next := range b.Panels[from+1 : to] {
			p.join(next)
			if p.Title == "" {
				p.Title = next.Title
			}
			p.Action, p.Sound, p.Note = joinedText(p.Action, next.Action), joinedText(p.Sound, next.Sound), joinedText(p.Note, next.Note)
		}
		b.Moves = b.movesJoined(from, to)
		p.FrameNotes = b.joinedNotes(from, to, b.Starts())
		b.Remarks = b.remarksJoined(from, to, b.Starts())
		b.Panels = slices.Replace(slices.Clone(b.Panels), from, to, p)
		return b.checked(b)
	})
}

// joinedText returns two texts one below the other, a repeated one once.
func joinedText(a, b string) string {
	switch {
	case a == "":
		return b
	case b == "" || strings.HasSuffix("\n"+a, "\n"+b):
		return a
	}
	return a + "\n" + b
}

// named says what is done to the chosen panels: "move panel 4", "move 3 panels".
func named(verb string, set []int) string {
	if len(set) == 1 {
		return fmt.Sprintf("%s panel %d", verb, set[0]+1)
	}
	return counted(verb, len(set))
}

func counted(verb string, n int) string {
	if n == 1 {
		return verb + " panel"
	}
	return fmt.Sprintf("%s %d panels", verb, n)
}
