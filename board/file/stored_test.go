package file

import (
	"strings"
	"testing"

	"stillbeat/board"
)

func TestStoredPlans(t *testing.T) {
	short := board.UsualPlanning
	short.Session = 90
	for _, c := range []struct {
		name, json string
		want       *board.Planning
		wrong      string
	}{
		{"none", ``, nil, ""},
		{"null", `null`, nil, ""},
		{"what is left out is the usual", `{"session": 90}`, &short, ""},
		{"an unknown figure", `{"crew": 3}`, nil, `"crew"`},
		{"an unknown field of the log", `{"log": [{"by": "x"}]}`, nil, `"by"`},
		{"a log too long", `{"log": [` + strings.Repeat("{},", board.MaxLogged) + `{}]}`, nil, "more than 5000"},
	} {
		got, err := decodePlan([]byte(c.json))
		switch {
		case c.wrong != "":
			if err == nil || !strings.Contains(err.Error(), c.wrong) {
				t.Errorf("%s: %v, want %s", c.name, err, c.wrong)
			}
		case err != nil:
			t.Errorf("%s: %v", c.name, err)
		default:
			checkBoard(t, board.Board{Plan: got}, board.Board{Plan: c.want})
		}
	}
}
