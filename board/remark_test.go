package board

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
)

func remark(id string, panel PanelID, after float64, written int64) Remark {
	return Remark{ID: id, Author: "Aunt", Written: written, Panel: panel, After: after, Was: after, Text: "note " + id}
}

// placed tells where the remarks stand: "a@26 b@loose".
func placed(b Board) string {
	var out []string
	for _, p := range b.PlacedRemarks() {
		at := "loose"
		if p.At >= 0 {
			at = fmt.Sprint(p.Frame)
		}
		out = append(out, p.ID+"@"+at)
	}
	return strings.Join(out, " ")
}

func TestRemarksGoWithTheirPanel(t *testing.T) {
	b := do(t, atFrames(0, 24, 48, 72), TakeRemarks([]Remark{remark("b", 2, 0.25, 2), remark("a", 2, 2.0/24, 1), remark("lost", 3, 1, 9)}))
	b = do(t, b, Delete([]int{2}))
	split := do(t, b, Split(1, 28))
	for _, c := range []struct {
		when, want string
		b          Board
	}{
		{"taken, one on a panel that is gone", "a@26 b@30 lost@loose", b},
		{"the panel before holds longer", "a@32 b@36 lost@loose", do(t, b, SetHold([]int{0}, 30))},
		{"moved to the front", "a@2 b@6 lost@loose", do(t, b, Move([]int{1}, 0))},
		{"duplicated: the first keeps them", "a@26 b@30 lost@loose", do(t, b, Duplicate([]int{1}))},
		{"at 12 fps", "a@13 b@15 lost@loose", do(t, b, SetRate(FrameRate{12, 1}))},
		{"held too short", "a@26 b@27 lost@loose", do(t, b, SetHold([]int{1}, 4))},
		{"cut out", "a@loose b@loose lost@loose", do(t, b, CloseUp([]int{1}))},
		{"split behind the first", "a@26 b@30 lost@loose", split},
		{"the second part moved to the front", "b@2 a@46 lost@loose", do(t, split, Move([]int{2}, 0))},
		{"its parts joined again", "a@26 b@30 lost@loose", do(t, split, Join([]int{1, 2}))},
		{"joined with the panel before", "a@26 b@30 lost@loose", do(t, b, Join([]int{0, 1}))},
	} {
		if got := placed(c.b); got != c.want {
			t.Errorf("%s: %s, want %s", c.when, got, c.want)
		}
	}
	if split.Panels[2].ID != split.Remarks[0].Panel || b.Rate.Nearest(split.Remarks[0].After) != 2 {
		t.Errorf("split: the second part has %+v", split.Remarks[0])
	}
}

func TestTakingRemarks(t *testing.T) {
	first := []Remark{remark("a", 1, 0, 10), remark("b", 2, 0, 10)}
	b := do(t, atFrames(0, 24, 48), TakeRemarks(first))
	b = do(t, do(t, b, AcceptRemark("a")), AnswerRemark("a", " as you like \n"))
	with := func(id string, change func(*Remark)) []Remark {
		r := first[map[string]int{"a": 0, "b": 1}[id]]
		change(&r)
		return []Remark{r}
	}
	later := func(r *Remark) { r.Written, r.Text = 20, "other words" }
	for _, c := range []struct {
		name string
		list []Remark
		n    TakenRemarks
		want Remark // a as it is after
	}{
		{"the same again", first, TakenRemarks{Known: 2}, b.Remarks[0]},
		{"an older one", with("a", func(r *Remark) { r.Written, r.Text = 5, "x" }), TakenRemarks{Known: 1}, b.Remarks[0]},
		{"a newer one is open again and keeps its answer", with("a", later), TakenRemarks{Changed: 1},
			Remark{ID: "a", Author: "Aunt", Written: 20, Panel: 1, Text: "other words", Answer: "as you like"}},
		{"a newer one of another author", with("a", func(r *Remark) { later(r); r.Author = "Uncle" }), TakenRemarks{Foreign: 1}, b.Remarks[0]},
		{"taken back", with("a", func(r *Remark) { r.Written, r.Text, r.State = 20, "", RemarkGone }), TakenRemarks{Gone: 1},
			Remark{ID: "a", Author: "Aunt", Written: 20, Panel: 1, State: RemarkGone}},
		{"twice in one list", append(with("b", later), with("b", later)...), TakenRemarks{Changed: 1, Known: 1}, b.Remarks[0]},
		{"answers and states of others do not count", []Remark{{ID: "c", Author: "Uncle", Written: 1, Panel: 99, After: 3, Text: "x", Answer: "x", State: RemarkDone}},
			TakenRemarks{New: 1}, b.Remarks[0]},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, n, err := b.WithRemarks(c.list)
			if err != nil || n != c.n || out.Remarks[0] != c.want {
				t.Errorf("%+v, %v, and the note is %+v, want %+v and %+v", n, err, out.Remarks[0], c.n, c.want)
			}
			if again, n, err := out.WithRemarks(c.list); err != nil || !reflect.DeepEqual(again, out) || n.New+n.Changed+n.Gone > 0 {
				t.Errorf("taken again it changes: %+v, %v", n, err)
			}
			if i := out.Remark("c"); i >= 0 && out.Remarks[i] != (Remark{ID: "c", Author: "Uncle", Written: 1, Text: "x"}) {
				t.Errorf("c is %+v", out.Remarks[i])
			}
		})
	}
}

func TestEditingRemarks(t *testing.T) {
	b := do(t, atFrames(0, 24), TakeRemarks([]Remark{remark("a", 1, 0, 10)}))
	state := func(b Board) RemarkState { return b.Remarks[0].State }
	accepted := do(t, b, AcceptRemark("a"))
	done := do(t, accepted, TickRemark("a"))
	open := do(t, done, ReopenRemark("a"))
	if state(accepted) != RemarkAccepted || state(done) != RemarkDone || state(open) != RemarkOpen {
		t.Errorf("the states are %q, %q, %q", state(accepted), state(done), state(open))
	}
	if a := do(t, do(t, b, AnswerRemark("a", "no")), AnswerRemark("a", " ")); a.Remarks[0].Answer != "" {
		t.Errorf("the answer is %q", a.Remarks[0].Answer)
	}
	gone := do(t, b, RemoveRemark("a"))
	if placed(gone) != "" || state(gone) != RemarkGone {
		t.Errorf("removed, it is %+v", gone.Remarks)
	}
	if again := do(t, gone, TakeRemarks([]Remark{remark("a", 1, 0, 10)})); !reflect.DeepEqual(again, gone) {
		t.Error("the same file brought it back")
	}
	if back := do(t, gone, TakeRemarks([]Remark{remark("a", 1, 0, 11)})); placed(back) != "a@0" {
		t.Errorf("written anew, it is %+v", back.Remarks)
	}
	for _, e := range []Edit{AcceptRemark("b"), TickRemark("b"), ReopenRemark("b"), AnswerRemark("b", "x"), RemoveRemark("b")} {
		refused(t, b, e, "there is no such note")
	}
	refused(t, gone, AcceptRemark("a"), "there is no such note")
	refused(t, b, AnswerRemark("a", strings.Repeat("x", MaxText+1)), "note a: its answer is too long")
	refused(t, b, TakeRemarks([]Remark{remark("c", 1, 0, 1), {ID: "d", Author: "Aunt"}}), "note d: its text is empty")
	refused(t, b, TakeRemarks([]Remark{{ID: "D", Author: "Aunt", Text: "x"}}), `the id "D" of a note`)
	many := make([]Remark, MaxRemarks)
	for i := range many {
		many[i] = remark(fmt.Sprintf("n%d", i), 1, 0, 1)
	}
	refused(t, b, TakeRemarks(many), "5001 notes of others: a film has at most 5000")
}

// In whatever order files of several people are taken, and however often, the
// film has the same notes in the end.
func TestTheOrderOfFilesDoesNotMatter(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	film := atFrames(0, 24, 48)
	for range 200 {
		var files [][]Remark
		for range 4 {
			var list []Remark
			for range rnd.IntN(6) {
				who := rnd.IntN(3)
				r := remark(fmt.Sprintf("w%d-%d", who, rnd.IntN(3)), 1, 0.25, int64(rnd.IntN(5)))
				r.Author, r.Text = fmt.Sprint("writer ", who), fmt.Sprint("words of ", r.Written)
				if r.Written%3 == 2 {
					r.Text, r.State = "", RemarkGone
				}
				list = append(list, r)
			}
			files = append(files, list)
		}
		all := func(order []int) []Remark {
			b := film
			for _, i := range order {
				b = do(t, b, TakeRemarks(files[i]))
			}
			slices.SortFunc(b.Remarks, func(a, b Remark) int { return strings.Compare(a.ID, b.ID) })
			return b.Remarks
		}
		if a, b := all([]int{0, 1, 2, 3}), all(append(rnd.Perm(4), 2, 0)); !reflect.DeepEqual(a, b) {
			t.Fatalf("one order gives\n%+v\nanother\n%+v", a, b)
		}
	}
}

// Remarks keep the rules through edits of panels at random, and none is lost.
func TestRemarksThroughEditsAtRandom(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	b := do(t, atFrames(0, 24, 48, 72, 96), TakeRemarks([]Remark{remark("a", 1, 0.5, 1), remark("b", 2, 0.25, 1), remark("c", 4, 0.9, 1)}))
	for range 400 {
		i := rnd.IntN(len(b.Panels))
		edits := []Edit{Split(i, b.Starts()[i]+Frame(rnd.IntN(20))), Join([]int{i, i + 1}), Move([]int{i}, rnd.IntN(len(b.Panels))),
			SetHold([]int{i}, Frame(1+rnd.IntN(40))), AcceptRemark("a"), AnswerRemark("b", "yes"), TickRemark("c"), ReopenRemark("c")}
		if out, err := edits[rnd.IntN(len(edits))].Apply(b); err == nil && len(out.Panels) > 1 {
			keepsRules(t, "at random", out)
			b = out
		}
		if got := b.PlacedRemarks(); len(got) != 3 || slices.ContainsFunc(got, func(p PlacedRemark) bool { return p.At < 0 }) {
			t.Fatalf("the remarks are %+v", got)
		}
	}
}
