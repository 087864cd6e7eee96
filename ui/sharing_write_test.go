package ui

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/desk"
)

func TestEveryFormatIsWritten(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.do(board.Write([]int{1}, "words", func(w *board.Words) { w.Sound = "tea?" }))
	w.do(board.SetTitle("Чай / 茶"))
	dir := t.TempDir()
	for _, f := range shareFormats {
		d := openShare(t, w, f.ending)
		if len(f.lines) > 0 {
			d.choice.Lines[f.ending] = f.lines[0]
		}
		opts, err := d.choice.options(f, w.board, d.span())
		if err != nil || d.write.Disabled() {
			t.Fatalf("%s: %v, %q", f.ending, err, d.wrong.Text)
		}
		e := w.newExport(f, d.choice, opts)
		d.leave()
		e.path = filepath.Join(dir, w.shareName(f))
		w.queueShare(e)
		settle(t, w)
		info, err := os.Stat(e.path)
		if err != nil || !info.IsDir() && info.Size() == 0 || info.IsDir() != f.folder() {
			t.Errorf("%s: %v; the foot says %q", f.ending, err, w.foot.words.Text)
		}
		if !strings.Contains(w.foot.words.Text, filepath.Base(e.path)) {
			t.Errorf("%s: the foot says %q", f.ending, w.foot.words.Text)
		}
	}
}

func TestNamesOfferedForFiles(t *testing.T) {
	w := openWindow(t)
	f, _ := formatNamed(".beats.csv")
	w.do(board.SetTitle(strings.Repeat("чайник ", 20)))
	if name := w.shareName(f); len(name) > 255 || !strings.HasSuffix(name, ".beats.csv") || !strings.HasPrefix(name, "чайник чайник") {
		t.Errorf("of a long title: %q, %d bytes", name, len(name))
	}
	for _, tt := range [][3]string{
		{"/a/cup", ".mp4", "/a/cup.mp4"}, {"/a/cup.MP4", ".mp4", "/a/cup.MP4"}, {"/a/cup.csv", ".beats.csv", "/a/cup.csv.beats.csv"},
		{"/a/.mp4", ".mp4", "/a/.mp4.mp4"}, {"/a/cup", "", "/a/cup"},
	} {
		if got := withEnding(tt[0], tt[1]); got != tt[2] {
			t.Errorf("%s with %q is %s, want %s", tt[0], tt[1], got, tt[2])
		}
	}
}

// TestExportsQueue has one export under way, two that wait, and other work go
// before those.
func TestExportsQueue(t *testing.T) {
	w := openWindow(t)
	j := w.jobs
	var order []string
	gates := map[string]chan struct{}{}
	job := func(name string) (string, func(context.Context, desk.Progress) error, func(error)) {
		gate := make(chan struct{})
		gates[name] = gate
		return name, func(ctx context.Context, p desk.Progress) error {
			select {
			case <-gate:
				return nil
			case <-ctx.Done():
				return ctx.Err()
			}
		}, func(error) { order = append(order, name) }
	}
	j.Queue(job("cup"))
	j.Queue(job("spoon"))
	j.Queue(job("lamp"))
	j.Run(job("picture"))
	if j.more.Text != "3 more wait" || j.stopAll.Hidden || j.Queued() != 3 {
		t.Errorf("it says %q of %d exports", j.more.Text, j.Queued())
	}
	close(gates["cup"])
	until(t, "the picture is not next", func() bool { return j.now.what == "picture" })
	j.Stop()
	until(t, "the spoon is not next", func() bool { return j.now.what == "spoon" })
	if j.more.Text != "1 more waits" {
		t.Errorf("it says %q", j.more.Text)
	}
	j.StopAll()
	until(t, "it is not stopped", func() bool { return !j.Busy() })
	if !slices.Equal(order, []string{"cup"}) || j.row.Visible() {
		t.Errorf("done: %q", order)
	}
}

func TestAStoppedExportLeavesNothing(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	dir := t.TempDir()
	f, _ := formatNamed(".mp4")
	s := readSharing("")
	opts, err := s.options(f, w.board, board.Span{End: w.board.Frames()})
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"cup.mp4", "spoon.mp4"} {
		e := w.newExport(f, s, opts)
		e.path = filepath.Join(dir, name)
		w.queueShare(e)
	}
	w.jobs.StopAll()
	settle(t, w)
	if left, _ := os.ReadDir(dir); len(left) != 0 {
		t.Errorf("left are %v", left)
	}
	if got := w.foot.words.Text; got != "cup.mp4 was stopped: nothing of it is left." {
		t.Errorf("the foot says %q", got)
	}
}

func TestLeavingAsksWhileSomethingIsWritten(t *testing.T) {
	w := openWindow(t)
	left := false
	w.jobs.Queue("Writing cup.mp4", func(ctx context.Context, _ desk.Progress) error {
		<-ctx.Done()
		return ctx.Err()
	}, func(error) {})
	w.leave(func() { left = true })
	top := w.win.Canvas().Overlays().Top()
	if left || top == nil || !slices.Contains(textsIn(top), "Something is still being written") {
		t.Error("the film is left without a question")
	}
	w.jobs.StopAll()
	settle(t, w)
}
