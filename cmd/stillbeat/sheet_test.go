package main

import (
	"encoding/csv"
	"os"
	"os/exec"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// teaFilm puts a film of two shots, 30 and 26 frames on twos, at path.
func teaFilm(t *testing.T, path string) {
	t.Helper()
	err := withNewFilm(path, func(d *desk.Desk) error {
		for _, e := range []board.Edit{
			board.SetTitle("Tea"), board.SetStep(2),
			board.Paste(0, []board.Panel{{Words: board.Words{Action: "The cup turns"}}, {Opens: board.OpensShot, Words: board.Words{Action: "=A1"}}}, []board.Frame{30, 26}),
			board.SetFrameNote(31, "blink"),
		} {
			if err := d.Do(e); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestSheetCommand(t *testing.T) {
	inTemp(t)
	teaFilm(t, "tea.stillbeat")
	if out := must(t, "sheet", "tea.stillbeat", "-o", "tea.pdf"); !strings.HasPrefix(out, "tea.pdf: 2 panels, 56 frames") {
		t.Errorf("it says %q", out)
	}
	text, err := exec.Command("pdftotext", "-layout", "tea.pdf", "-").Output()
	if err != nil {
		t.Fatalf("pdftotext (of poppler-utils): %v", err)
	}
	for _, want := range []string{"Tea", "1/2", "2/2", "24 fps, on twos", "The cup turns", "blink"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the sheet has no %q:\n%s", want, text)
		}
	}
	before, err := os.ReadFile("tea.pdf")
	if err != nil {
		t.Fatal(err)
	}
	oneLineOf(t, runner{}.run(t, "sheet", "tea.stillbeat", "-o", "tea.pdf", "--shots", "2"))
	if after, err := os.ReadFile("tea.pdf"); err != nil || string(after) != string(before) {
		t.Error("a sheet that is there was replaced unasked")
	}
	must(t, "sheet", "tea.stillbeat", "-o", "tea.pdf", "--shots", "2", "--paper", "letter", "--rows", "24", "--each", "exposure", "--force")
	info, err := exec.Command("pdfinfo", "tea.pdf").Output()
	if err != nil || !strings.Contains(string(info), "Pages:           1\n") || !strings.Contains(string(info), "(letter)") {
		t.Errorf("pdfinfo says %v\n%s", err, info)
	}

	must(t, "sheet", "tea.stillbeat", "-o", "tea.csv", "--each", "exposure")
	file, err := os.Open("tea.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	table, err := csv.NewReader(file).ReadAll()
	if err != nil || len(table) != 1+28 || table[16][10] != "'=A1" || table[16][14] != "blink" {
		t.Errorf("the table is %q, %v", table, err)
	}
}

func TestSheetOfAnEmptyFilm(t *testing.T) {
	inTemp(t)
	if err := withNewFilm("empty.stillbeat", func(*desk.Desk) error { return nil }); err != nil {
		t.Fatal(err)
	}
	res := runner{}.run(t, "sheet", "empty.stillbeat", "-o", "empty.pdf")
	oneLineOf(t, res)
	if _, err := os.Stat("empty.pdf"); err == nil || !strings.Contains(res.err, `sheet of "empty.stillbeat": the film has no panels`) {
		t.Errorf("it says %q, and the file: %v", res.err, err)
	}
}
