package motion

import (
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
)

// Two seconds on ones of each ready move, as an animator would look it through.
// None asks for what cannot be set but for the last wavering of a slow in.
func TestReadyMoves(t *testing.T) {
	var out strings.Builder
	for _, r := range ReadyMoves() {
		tab := Space(r.Move, on(48, 1), nil, Limits{})
		out.WriteString(r.Name + "\n" + written(tab) + "\n")
		for _, f := range tab.Findings {
			if f.Kind != Small {
				t.Errorf("%s: %s: %s", r.Name, f.Kind, f.Reason)
			}
		}
		if strings.Contains(kinds(Space(r.Move, on(48, 2), nil, Limits{})), string(NoRoom)) {
			t.Errorf("%s does not fit into two seconds on twos", r.Name)
		}
	}
	golden(t, "ready.txt", out.String())
}

func TestSuggestHasEveryManner(t *testing.T) {
	b := board.New()
	b.Panels = []board.Panel{{ID: 1}}
	b.NextID, b.End = 2, board.Free(2)
	for _, m := range board.Manners {
		got := Suggest(m, 1, 1)
		if got.Manner != m {
			t.Errorf("%q becomes %q", m, got.Manner)
		}
		after, err := board.AddObjectMove(got).Apply(b)
		if err != nil {
			t.Errorf("%q: %v", m, err)
			continue
		}
		tab := Tables(after, Limits{})[0]
		if len(tab.Rows) != 48 || !slices.ContainsFunc(tab.Rows, func(r Row) bool { return r.Step > 1 }) {
			t.Errorf("%q does not move", m)
		}
	}
}
