package main

import (
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/motion"
)

// movedFilm makes moved.stillbeat: a cup that falls and lands on a beat, on
// twos but for the panel it falls in, and a nameless thing that slides.
func movedFilm(t *testing.T) {
	t.Helper()
	fourPanels(t)
	fall, slide := motion.Suggest(board.Falling, 1, 2), motion.Suggest(board.SlowingBoth, 4, 4)
	fall.Hits = []board.Hit{{Moment: 1, Start: board.Start{Anchor: board.Anchor{Beat: 3, Of: 1}}}}
	slide.Object = ""
	edit(t, "film.stillbeat", board.SetPanelStep([]int{1}, 1), board.AddObjectMove(fall), board.AddObjectMove(slide))
}

func TestSpacingForPeople(t *testing.T) {
	inTemp(t)
	movedFilm(t)
	golden(t, "spacing.txt", must(t, "spacing", "film.stillbeat", "--largest", "30"))
	golden(t, "spacing.csv", must(t, "spacing", "film.stillbeat", "--csv"))
	if out := must(t, "spacing", "film.stillbeat"); !strings.HasSuffix(out, "Every step can be set and every hit is on its beat.\n") {
		t.Errorf("it says\n%s", out)
	}
	edit(t, "film.stillbeat", board.RemoveObjectMove(1), board.RemoveObjectMove(2))
	if out := must(t, "spacing", "film.stillbeat"); out != "Nothing moves on the set yet.\n" {
		t.Errorf("it says %q", out)
	}
	if out := must(t, "spacing", "film.stillbeat", "--json"); !strings.Contains(out, `"moves":[],"findings":[]`) {
		t.Errorf("it says %s", out)
	}
}

// The document and the list say the same, exposure by exposure.
func TestSpacingForPrograms(t *testing.T) {
	inTemp(t)
	movedFilm(t)
	var doc struct {
		File  string `json:"file"`
		Moves []struct {
			ID        int    `json:"id"`
			Object    string `json:"object"`
			Manner    string `json:"manner"`
			First     string `json:"first_panel"`
			Last      string `json:"last_panel"`
			Exposures []struct {
				Frame    int     `json:"frame"`
				Exposure int     `json:"exposure"`
				X        float64 `json:"x_mm"`
				Y        float64 `json:"y_mm"`
				Height   float64 `json:"height_mm"`
				Along    float64 `json:"along_mm"`
				Step     float64 `json:"step_mm"`
				Moment   string  `json:"moment"`
				Beat     string  `json:"beat"`
			} `json:"exposures"`
		} `json:"moves"`
		Findings []struct {
			Move   int     `json:"move"`
			Object string  `json:"object"`
			Panel  *string `json:"panel"`
			Frame  int     `json:"frame"`
			Kind   string  `json:"kind"`
			Reason string  `json:"reason"`
		} `json:"findings"`
	}
	decodeStrict(t, must(t, "spacing", "film.stillbeat", "--json", "--largest", "30"), &doc)
	if len(doc.Moves) != 2 || doc.Moves[0].Manner != "fall" || doc.Moves[0].First != "1" || doc.Moves[0].Last != "2" {
		t.Fatalf("moves %+v", doc.Moves)
	}
	if f := doc.Findings[0]; f.Kind != "step too large" || f.Object != "cup" || *f.Panel != "2" {
		t.Errorf("the first finding is %+v", f)
	}
	rows, err := csv.NewReader(strings.NewReader(must(t, "spacing", "film.stillbeat", "--csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var want [][]string
	for _, m := range doc.Moves {
		for _, e := range m.Exposures {
			row := []string{fmt.Sprint(m.ID), m.Object, fmt.Sprint(e.Frame), fmt.Sprint(e.Exposure)}
			for _, mm := range []float64{e.X, e.Y, e.Height, e.Along, e.Step} {
				row = append(row, fmt.Sprintf("%.3f", mm))
			}
			want = append(want, append(row, e.Moment, e.Beat))
		}
	}
	if !slices.EqualFunc(rows[1:], want, slices.Equal[[]string]) {
		t.Errorf("the list says\n%v\nthe document\n%v", rows[1:], want)
	}
}
