package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// pickRequest says what the file window is for.
type pickRequest struct {
	title      string
	kind       string   // under which the last folder is remembered
	extensions []string // lower case, with the dot
	several    bool     // more than one may be taken
	saveAs     string   // a name to write to, "" to open what is there
}

// picker lists a folder: folders first, then the files asked for, in natural
// order. The toolkit's own file window cannot take several files.
type picker struct {
	w    *window
	req  pickRequest
	done func([]string)

	folder  string
	entries []pickEntry
	taken   map[string]bool
	last    int // entry clicked last, for taking a run

	place *canvas.Text
	none  *canvas.Text // said when there is no file to take here
	list  *keyList
	name  *field
	take  *widget.Button
	box   *dialog.CustomDialog
}

type pickEntry struct {
	name   string
	folder bool
	size   int64
}

// pick opens the file window; done gets the paths, at least one.
func (w *window) pick(req pickRequest, done func([]string)) {
	p := &picker{w: w, req: req, done: done, taken: map[string]bool{}, last: -1, place: small("")}
	p.none = small("")
	p.list = newKeyList(func() int { return len(p.entries) }, p.newRow, p.showRow)
	p.list.OnSelected = p.clicked
	p.list.OnLeave = func() { p.box.Hide() }
	p.list.OnTake, p.list.pointing = p.takeByKey, true
	verb := "Open"
	if req.saveAs != "" {
		verb = "Save"
	} else if req.several {
		verb = "Add"
	}
	p.take = strong(verb, p.finish)
	up := widget.NewButtonWithIcon("", theme.NavigateBackIcon(), func() { p.enter(filepath.Dir(p.folder)) })
	home := widget.NewButtonWithIcon("", theme.HomeIcon(), func() { p.enter(homeFolder()) })
	up.Importance, home.Importance = widget.LowImportance, widget.LowImportance
	top := container.NewBorder(nil, nil, container.NewHBox(up, home), nil, centred(p.place))
	p.name = newField("name of the file", 1)
	var bottom fyne.CanvasObject = layout.NewSpacer()
	switch {
	case req.saveAs != "":
		p.name.SetText(req.saveAs)
		p.name.OnReturn, p.name.OnEscape = p.finish, p.list.OnLeave
		bottom = container.NewBorder(nil, nil, label("Name"), nil, p.name)
	case req.several:
		bottom = container.NewHBox(quiet("Take all", p.takeAll), quiet("Take none", p.takeNone))
	}
	content := container.NewBorder(top, padded(0, 4, bottom), nil, nil,
		band(paper, padded(8, 4, container.NewStack(container.NewCenter(p.none), p.list))))
	p.box = dialog.NewCustomWithoutButtons(req.title, content, w.win)
	p.box.SetButtons(buttons(quiet("Cancel", p.box.Hide), p.take))
	size := w.win.Canvas().Size()
	p.box.Resize(fyne.NewSize(min(760, size.Width*0.85), min(640, size.Height*0.85)))
	p.enter(w.lastFolder(req.kind))
	p.box.Show()
	w.win.Canvas().Focus(p.list)
	if req.saveAs != "" {
		w.win.Canvas().Focus(p.name)
		p.name.selectAll()
	}
}

func (w *window) lastFolder(kind string) string {
	folder := w.app.Preferences().String("folder." + kind)
	if info, err := os.Stat(folder); folder == "" || err != nil || !info.IsDir() {
		return homeFolder()
	}
	return folder
}

func homeFolder() string {
	home, err := os.UserHomeDir()
	if err != nil {
		home = string(filepath.Separator)
	}
	return home
}

func (p *picker) takeAll() {
	for _, e := range p.entries {
		if !e.folder {
			p.taken[e.name] = true
		}
	}
	p.refresh()
}

func (p *picker) takeNone() {
	clear(p.taken)
	p.refresh()
}

func (p *picker) refresh() {
	if p.req.several {
		p.take.SetText(fmt.Sprintf("Add %d", len(p.taken)))
	}
	setEnabled(p.take, p.req.saveAs != "" || len(p.taken) > 0)
	p.list.Refresh()
}

// takeByKey takes what was taken; if that is nothing, what is pointed at: it
// enters a folder.
func (p *picker) takeByKey() {
	if at := p.list.at; len(p.taken) == 0 && at < len(p.entries) {
		p.clicked(at)
		if p.req.several || len(p.taken) == 0 {
			return
		}
	}
	p.finish()
}

func (p *picker) finish() {
	var paths []string
	if p.req.saveAs != "" {
		name := strings.TrimSpace(p.name.Text)
		if name == "" || name != filepath.Base(name) {
			p.w.foot.Say("A file name has no slashes and is not empty.")
			return
		}
		paths = []string{filepath.Join(p.folder, name)}
	} else {
		for _, e := range p.entries {
			if p.taken[e.name] {
				paths = append(paths, filepath.Join(p.folder, e.name))
			}
		}
	}
	if len(paths) == 0 {
		return
	}
	p.w.app.Preferences().SetString("folder."+p.req.kind, p.folder)
	p.box.Hide()
	if p.req.saveAs != "" {
		p.w.confirmReplace(paths[0], p.req.extensions[0], func() { p.done(paths) })
		return
	}
	p.done(paths)
}

// strong is the button that goes on.
func strong(text string, do func()) *widget.Button {
	b := widget.NewButton(text, do)
	b.Importance = widget.HighImportance
	return b
}

func buttons(b ...fyne.CanvasObject) []fyne.CanvasObject { return b }
