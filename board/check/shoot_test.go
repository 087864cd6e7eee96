package check

import (
	"testing"

	"stillbeat/board"
)

// moving puts a move of an object on a film: so many millimetres along the set,
// over panels from the first to the last.
func moving(t *testing.T, b board.Board, mm float64, last int) board.Board {
	t.Helper()
	return do(t, b, board.AddObjectMove(board.ObjectMove{Object: "cup", First: b.Panels[0].ID, Last: b.Panels[last].ID,
		Keys: []board.Spot{{}, {X: mm}}}))
}

func TestFindingsAboutTheShoot(t *testing.T) {
	tests := []struct {
		name string
		film func(t *testing.T) board.Board
		o    Options
		kind Kind
		want int
	}{
		{"a cup that goes 3 mm an exposure is fine", func(t *testing.T) board.Board { return moving(t, film(t, 12, 12), 33, 0) }, Options{Session: 100}, Step, 0},
		{"one that goes 90 is lost", func(t *testing.T) board.Board { return moving(t, film(t, 12, 12), 990, 0) }, Options{Session: 100}, Step, 1},
		{"one that goes a twentieth cannot be set", func(t *testing.T) board.Board { return moving(t, film(t, 12, 12), 0.55, 0) }, Options{Session: 100}, Step, 1},
		{"a shot within a session", func(t *testing.T) board.Board { return film(t, 12, 12) }, Options{}, Session, 0},
		{"a shot of 200 exposures at 24 an hour is longer than one", func(t *testing.T) board.Board { return film(t, 100, 100) }, Options{}, Session, 1},
		{"unless a limit of one's own is given", func(t *testing.T) board.Board { return film(t, 100, 100) }, Options{Session: 200}, Session, 0},
		{"a panel marked still in which a cup moves", func(t *testing.T) board.Board {
			return do(t, moving(t, film(t, 12, 12), 33, 0), board.SetStill([]int{0}, true))
		}, Options{}, Planning, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := tt.film(t)
			found := of(tt.kind, checked(t, b, tt.o))
			if len(found) != tt.want {
				t.Fatalf("found %+v, want %d", found, tt.want)
			}
			for _, f := range found {
				if f.Panel != b.Panels[0].ID || f.Source == "" || f.Why == "" || f.Span.Len() < 1 {
					t.Errorf("the finding lacks something: %+v", f)
				}
			}
		})
	}
}
