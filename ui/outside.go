package ui

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/picture"
)

// outside lends pictures of the open film to other programs and takes them back
// when they are saved there. All but the watching belongs to the window's
// goroutine.
type outside struct {
	open  func(program, path string) error // starts the program; "" is the one of the system
	every time.Duration                    // between two looks at a file
	stop  context.CancelFunc               // ends all watching; nil: nothing is watched
	ctx   context.Context
}

func newOutside(post func(func()), failed func(error)) *outside {
	open := func(program, path string) error {
		return startProgram(program, path, func(err error) { post(func() { failed(err) }) })
	}
	return &outside{open: open, every: 500 * time.Millisecond}
}

// Stop takes nothing back from now on.
func (o *outside) Stop() {
	if o.stop != nil {
		o.stop()
		o.stop = nil
	}
}

// outsideKey is where the program for pictures is remembered.
const outsideKey = "program.pictures"

// sheetSide is how many pixels the longer side of a sheet has that is lent where
// there is no picture.
const sheetSide = 2560

// lentPanel is a panel that another program has.
type lentPanel struct {
	id     board.PanelID
	sketch board.MediaID // that is painted into what was lent; empty for none
}

// openOutside writes the chosen panel's picture to a file, opens that in another
// program and watches it. A panel without a picture is a sheet of the film's
// shape with its sketch on it.
func (w *window) openOutside() {
	if w.chosen < 0 {
		return
	}
	d, p, name := w.desk, w.board.Panels[w.chosen], w.board.Number(w.chosen)
	lent, sheet := lentPanel{id: p.ID}, w.film.Sheet(w.chosen)
	wide, high := w.board.Aspect.Inside(sheetSide, sheetSide)
	if p.Picture == "" {
		lent.sketch = p.Drawing().Sketch
	}
	var path string
	w.jobs.Run("Writing the picture of panel "+name, func(ctx context.Context, _ desk.Progress) (err error) {
		var data []byte
		if p.Picture != "" {
			data, err = d.Media(p.Picture)
		} else {
			data, err = blankSheet(d.Pictures, sheet, wide, high)
		}
		if err != nil {
			return err
		}
		path, err = lend(data, strings.TrimSpace("panel "+name+" "+p.Title))
		return err
	}, func(err error) {
		if d != w.desk {
			return
		}
		var seen fileState
		if err == nil {
			seen, err = stateOf(path)
		}
		if err == nil {
			err = w.outside.open(w.app.Preferences().String(outsideKey), path)
		}
		if err != nil {
			w.trouble("The picture was not opened", err)
			return
		}
		w.watch(lent, path, seen)
		w.foot.Say(fmt.Sprintf("The picture of panel %s is open in another program. What is saved there comes back by itself.", name))
	})
}

// blankSheet draws a sheet to paint on.
func blankSheet(pics *picture.Cache, sheet picture.Shot, wide, high int) ([]byte, error) {
	img, err := pics.Draw(sheet, wide, high)
	if err != nil {
		return nil, err
	}
	var data bytes.Buffer
	err = png.Encode(&data, img)
	return data.Bytes(), err
}

// watch takes a file back as the picture of a panel each time it was saved.
func (w *window) watch(lent lentPanel, path string, seen fileState) {
	o := w.outside
	if o.stop == nil {
		o.ctx, o.stop = context.WithCancel(context.Background())
	}
	ctx, post := o.ctx, w.post
	go watchFile(ctx, path, seen, o.every, func() {
		post(func() {
			if ctx.Err() == nil {
				w.takeBack(lent, path)
			}
		})
	})
}

// takeBack makes a file that was saved the picture of the panel it was lent
// from: a step to undo, for each save. A sketch that is painted into it goes.
func (w *window) takeBack(lent lentPanel, path string) {
	d, name := w.desk, filepath.Base(path)
	at := w.board.Index(lent.id)
	if at < 0 {
		w.foot.Say(sentence(fmt.Sprintf("%s was saved, but its panel is no longer in the film", name)))
		return
	}
	had := w.board.Panels[at].Picture
	var pics []desk.ReadPicture
	same := false
	w.jobs.Run("Taking back "+name, func(ctx context.Context, p desk.Progress) error {
		good, bad, err := desk.NewPictures(ctx, []string{path}, p.Part(0, 0.3))
		if err = errors.Join(append(bad, err)...); err != nil {
			return err
		}
		if old, err := d.Media(had); err == nil && bytes.Equal(old, good[0].Data) {
			same = true
			return nil
		}
		pics = good
		return d.KeepPictures(ctx, pics, p.Part(0.3, 1))
	}, func(err error) {
		at := w.board.Index(lent.id)
		if d != w.desk || same || at < 0 {
			return
		}
		if err == nil {
			d.CloseEdit()
			if p := w.board.Panels[at]; lent.sketch != "" && p.Drawing().Sketch == lent.sketch {
				err = d.PaintOver(at, pics[0])
			} else {
				err = d.ReplacePicture(at, pics[0])
			}
			d.CloseEdit()
		}
		if err != nil {
			w.foot.Say(sentence(fmt.Sprintf("the panel keeps its picture: %v", err)))
			return
		}
		w.foot.Say(fmt.Sprintf("Panel %s has the picture as it was saved.", w.board.Number(at)))
	})
}

// startProgram opens a file in a program, or in that of the system; failed hears
// of one that started and then could not open it.
func startProgram(program, path string, failed func(error)) error {
	name, args := program, []string{path}
	switch {
	case program != "" && runtime.GOOS == "darwin" && strings.HasSuffix(program, ".app"):
		name, args = "open", []string{"-a", program, path}
	case program != "":
	case runtime.GOOS == "darwin":
		name = "open"
	case runtime.GOOS == "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", path}
	default:
		name = "xdg-open"
	}
	c := exec.Command(name, args...)
	if err := c.Start(); err != nil {
		return fmt.Errorf("%s cannot be started: choose another program for pictures", filepath.Base(name))
	}
	go func() {
		if err := c.Wait(); err != nil && program == "" {
			failed(fmt.Errorf("the system has no program for %s: choose one for pictures", filepath.Base(path)))
		}
	}()
	return nil
}

// outsideDialog asks which program pictures are opened in.
func (w *window) outsideDialog() {
	f := newField("the one the system has for pictures", 1)
	f.SetText(w.app.Preferences().String(outsideKey))
	ask := dialog.NewCustomWithoutButtons("The program for pictures", container.NewVBox(
		small("Its path, or its name where the system finds it by that. Empty: the one the system has."), fixedWidth(420, f)), w.win)
	set := func() {
		w.app.Preferences().SetString(outsideKey, strings.TrimSpace(f.Text))
		ask.Hide()
	}
	f.OnReturn, f.OnEscape = set, ask.Hide
	ask.SetButtons(buttons(quiet("Go back", ask.Hide), strong("Set", set)))
	ask.Show()
	w.win.Canvas().Focus(f)
}

// lentFolder is where pictures are lent from, in the program's cache.
func lentFolder() (string, error) {
	dir, err := os.UserCacheDir()
	if err != nil {
		dir = os.TempDir()
	}
	dir = filepath.Join(dir, "stillbeat", "pictures")
	return dir, os.MkdirAll(dir, 0o700)
}

// lend writes a picture to a file of its own.
func lend(data []byte, name string) (string, error) {
	dir, err := lentFolder()
	if err != nil {
		return "", err
	}
	sweep(dir, time.Now().Add(-30*24*time.Hour))
	if dir, err = os.MkdirTemp(dir, "lent-"); err != nil {
		return "", err
	}
	if r := []rune(name); len(r) > 60 {
		name = string(r[:60])
	}
	path := filepath.Join(dir, strings.TrimRight(fileName(name), " .")+picture.Extension(data))
	return path, os.WriteFile(path, data, 0o600)
}

// sweep removes pictures that were lent and not saved since a time.
func sweep(dir string, since time.Time) {
	lent, _ := filepath.Glob(filepath.Join(dir, "lent-*"))
	for _, each := range lent {
		files, _ := filepath.Glob(filepath.Join(each, "*"))
		old := true
		for _, f := range append(files, each) {
			info, err := os.Stat(f)
			old = old && err == nil && info.ModTime().Before(since)
		}
		if old {
			os.RemoveAll(each)
		}
	}
}
