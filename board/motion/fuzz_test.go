package motion

import (
	"encoding/json"
	"testing"

	"stillbeat/board"
)

// FuzzMove feeds the JSON of moves. What a film takes makes a table in numbers,
// in order, with each moment on an exposure or told why not, and comes back
// from JSON the same.
func FuzzMove(f *testing.F) {
	for _, r := range ReadyMoves() {
		data, err := json.Marshal(r.Move)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data, 2, 1)
	}
	f.Add([]byte(`{"keys":[{"height":1e5},{"x":-1e5}],"manner":"bounce","scale":0.001,"rebound":0.99,"hits":[{"moment":99,"start":{"time":3}}]}`), 1, 2)
	f.Add([]byte(`{"keys":[{},{}],"manner":"swing","damping":0.01,"scale":1000,"anticipate":1,"overshoot":1,"ready":60,"period":0.02}`), 3, 3)
	f.Add([]byte(`{"keys":[{},{"x":1e-300},{"x":5}],"manner":"accelerate","anticipate":1,"hits":[{"moment":1,"start":{"time":0,"anchor":{"beat":-1000000,"of":48,"part":1}}}]}`), 12, 1)
	f.Fuzz(func(t *testing.T, data []byte, step, first int) {
		var m board.ObjectMove
		if len(data) > 1<<12 || json.Unmarshal(data, &m) != nil {
			return
		}
		b := board.New()
		b.Panels = []board.Panel{{ID: 1}, {ID: 2, Start: board.Free(1), Step: 3}, {ID: 3, Start: board.Free(1.7)}}
		b.NextID, b.End, b.Step = 4, board.Free(3), min(max(step, 1), board.MaxStep)
		b.Grid = board.NewGrid([]float64{0, 0.5, 1.1, 2}, []float64{0})
		m.First, m.Last = board.PanelID(first), 3
		b, err := board.AddObjectMove(m).Apply(b)
		if err != nil {
			return
		}
		tab := Tables(b, Limits{})[0]
		sane(t, tab)
		tab.Trail(tab.Sight())
		for _, r := range tab.Rows {
			tab.Words(r, true)
		}
		for _, fd := range tab.Findings {
			if fd.Reason == "" || fd.Move != b.Moves[0].ID {
				t.Fatalf("finding %+v", fd)
			}
		}
		again, err := json.Marshal(b)
		if err != nil {
			t.Fatal(err)
		}
		var back board.Board
		if err := json.Unmarshal(again, &back); err != nil || back.Check() != nil {
			t.Fatalf("%s does not come back: %v, %v", again, err, back.Check())
		}
	})
}
