package ui

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/beside"
	"stillbeat/board/desk"
	"stillbeat/board/sheet"
)

// papers are the sizes of paper that are offered.
var papers = []struct{ name, size string }{{"A4", "a4"}, {"Letter", "letter"}}

func paperNames() (names []string) {
	for _, p := range papers {
		names = append(names, p.name)
	}
	return names
}

func newPaperChoice() *widget.Select {
	s := widget.NewSelect(paperNames(), nil)
	s.SetSelectedIndex(0)
	return s
}

// printDialog asks how the sheet is to be printed and where it goes.
func (p *sheetPage) printDialog() {
	w := p.w
	paper, rows, shots, each := newPaperChoice(), newField("whole seconds in up to 100", 1), newField("all, or as 1, 3-5", 1), p.newEach()
	w.ask("Print the exposure sheet as PDF", "Choose the file…", []askRow{
		{"Paper", paper}, {"A row", each}, {"Rows a page", rows}, {"Shots", shots},
		{"", small("Each shot begins a page; pages end where a second does.")},
	}, func() error {
		b := w.board
		o, err := sheetOptions(b, each, shots.Text)
		if err != nil {
			return err
		}
		to := sheet.Paper{Size: papers[paper.SelectedIndex()].size, Made: time.Now()}
		if text := strings.TrimSpace(rows.Text); text != "" {
			if to.Lines, err = strconv.Atoi(text); err != nil || to.Lines < sheet.MinLines || to.Lines > sheet.MaxLines {
				return fmt.Errorf("%q rows on a page: it takes %d to %d", text, sheet.MinLines, sheet.MaxLines)
			}
		}
		w.writeOut("The exposure sheet", "sheet", ".pdf", func(out *bytes.Buffer) error { return sheet.PDF(out, b, o, to) })
		return nil
	})
}

// csvDialog asks what stands in the table and where it goes.
func (p *sheetPage) csvDialog() {
	w := p.w
	shots, each := newField("all, or as 1, 3-5", 1), p.newEach()
	w.ask("Write the exposure sheet as CSV", "Choose the file…", []askRow{{"A row", each}, {"Shots", shots}}, func() error {
		b := w.board
		o, err := sheetOptions(b, each, shots.Text)
		if err != nil {
			return err
		}
		w.writeOut("The exposure sheet", "sheet", ".csv", func(out *bytes.Buffer) error { return sheet.CSV(out, b, o) })
		return nil
	})
}

// newEach asks what a row is for; it is what the page shows until another is
// picked.
func (p *sheetPage) newEach() *widget.Select {
	s := widget.NewSelect([]string{"a frame", "an exposure"}, nil)
	s.SetSelectedIndex(map[bool]int{true: 1}[p.view.exposures])
	return s
}

func sheetOptions(b board.Board, each *widget.Select, shots string) (o sheet.Options, err error) {
	o = sheet.Options{Exposures: each.SelectedIndex() == 1, Columns: sheet.MoveColumns(b)}
	if strings.TrimSpace(shots) != "" {
		o.Shots, err = sheet.ShotsNamed(b, shots)
	}
	return o, err
}

// writeOut asks for a file, once the dialog that asked before is gone, and
// writes it, whole or not at all; kind is the middle of the name offered,
// between the film's and the extension.
func (w *window) writeOut(what, kind, ext string, make func(*bytes.Buffer) error) {
	w.post(func() { w.writeNow(what, kind, ext, make) })
}

func (w *window) writeNow(what, kind, ext string, make func(*bytes.Buffer) error) {
	name := fileName(w.desk.Name()) + "." + kind + ext
	w.pick(pickRequest{title: "Write " + strings.ToLower(what[:1]) + what[1:], extensions: []string{ext}, kind: "papers", saveAs: name}, func(paths []string) {
		path := paths[0]
		if !strings.EqualFold(filepath.Ext(path), ext) {
			path += ext
		}
		w.jobs.Run("Writing "+filepath.Base(path), func(ctx context.Context, _ desk.Progress) error {
			var out bytes.Buffer
			if err := make(&out); err != nil {
				return err
			}
			if err := ctx.Err(); err != nil {
				return err
			}
			return beside.Save(path, func(to io.Writer) error {
				_, err := out.WriteTo(to)
				return err
			})
		}, func(err error) {
			if err != nil {
				w.trouble(what+" was not written", err)
				return
			}
			w.foot.Say("Written: " + path)
		})
	})
}
