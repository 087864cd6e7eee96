package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"stillbeat/board"
)

// plannedFilm makes film.stillbeat with all there is to tell in a plan: a still
// panel, its repeat, a rig, a shot longer than a session, two scenes.
func plannedFilm(t *testing.T) {
	t.Helper()
	fourPanels(t)
	edit(t, "film.stillbeat", board.SetStep(2), board.SetStill([]int{1}, true), board.Duplicate([]int{1}), board.Move([]int{2}, 5),
		board.Open([]int{2}, board.OpensShot), board.Open([]int{3}, board.OpensScene), board.SetHold([]int{3}, 240),
		board.Write([]int{2}, "rig", func(w *board.Words) { w.Rig = true }), board.SetStill([]int{2}, true),
		board.AddObjectMove(board.ObjectMove{Object: "cup", First: 3, Last: 3, Keys: []board.Spot{{}, {X: 40}}}))
}

func TestPlanForPeopleAndPrograms(t *testing.T) {
	inTemp(t)
	plannedFilm(t)
	golden(t, "plan.txt", must(t, "plan", "film.stillbeat"))
	golden(t, "plan.json", must(t, "plan", "film.stillbeat", "--json"))
	golden(t, "plan-asked.txt", must(t, "plan", "film.stillbeat", "--session", "400", "--pace", "20", "--setup", "30", "--contingency", "10", "--every"))
	by := must(t, "plan", "film.stillbeat", "--pace", "3min")
	if hour := must(t, "plan", "film.stillbeat", "--pace", "20"); by != hour || !strings.Contains(by, "3 min for an exposure, 20 in an hour (set)") {
		t.Errorf("3 minutes for an exposure are\n%s\n20 in an hour\n%s", by, hour)
	}
}

// The figures of the film count, its log too, and the plan changes nothing.
func TestPlanByTheFilmsFigures(t *testing.T) {
	inTemp(t)
	plannedFilm(t)
	edit(t, "film.stillbeat", board.Log(board.Logged{Shot: "1", Exposures: 20, Minutes: 80}), board.Log(board.Logged{Exposures: 20, Minutes: 40}))
	before := must(t, "info", "film.stillbeat", "--json")
	if out := must(t, "plan", "film.stillbeat"); !strings.Contains(out, "3 min for an exposure, 20 in an hour (learnt; 40 exposures logged, from 2 to 4 min)") {
		t.Errorf("it says\n%s", out)
	}
	must(t, "plan", "film.stillbeat", "--pace", "9")
	if after := must(t, "info", "film.stillbeat", "--json"); after != before {
		t.Errorf("the plan changed the film to\n%s", after)
	}
}

func TestCallSheets(t *testing.T) {
	inTemp(t)
	plannedFilm(t)
	if out := must(t, "plan", "film.stillbeat", "-o", "calls.pdf", "--paper", "letter"); !strings.HasPrefix(out, "calls.pdf: ") || !strings.HasSuffix(out, " sessions\n") {
		t.Errorf("it says %q", out)
	}
	text, err := exec.Command("pdftotext", "-layout", "calls.pdf", "-").Output()
	if err != nil {
		t.Fatalf("pdftotext (of poppler-utils): %v", err)
	}
	for _, want := range []string{"The shoot", "Call sheet, session 1 of ", "Before the first exposure", "moving: cup"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the call sheets have no %q:\n%s", want, text)
		}
	}
	oneLineOf(t, runner{}.run(t, "plan", "film.stillbeat", "-o", "calls.pdf"))
	must(t, "plan", "film.stillbeat", "-o", "calls.pdf", "--force")
	if info, err := exec.Command("pdfinfo", "calls.pdf").Output(); err != nil || !strings.Contains(string(info), "(A4)") {
		t.Errorf("pdfinfo says %v\n%s", err, info)
	}
	edit(t, "film.stillbeat", board.Delete([]int{0, 1, 2, 3, 4}))
	res := runner{}.run(t, "plan", "film.stillbeat", "-o", "none.pdf")
	oneLineOf(t, res)
	if _, err := os.Stat("none.pdf"); err == nil || !strings.Contains(res.err, `plan of "film.stillbeat": the film has no panels`) {
		t.Errorf("it says %q, and the file: %v", res.err, err)
	}
}
