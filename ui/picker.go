package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"sort"
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
	p.list.OnTake = p.finish
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

// enter lists a folder; one that cannot be read is left alone.
func (p *picker) enter(folder string) {
	items, err := os.ReadDir(folder)
	if err != nil {
		p.w.foot.Say(sentence(fmt.Sprintf("the folder %q cannot be read", folder)))
		return
	}
	p.folder, p.entries, p.last = folder, nil, -1
	files := 0
	clear(p.taken)
	for _, it := range items {
		if strings.HasPrefix(it.Name(), ".") {
			continue
		}
		info, err := os.Stat(filepath.Join(folder, it.Name()))
		if err != nil {
			continue
		}
		if info.IsDir() || has(p.req.extensions, strings.ToLower(filepath.Ext(it.Name()))) {
			p.entries = append(p.entries, pickEntry{it.Name(), info.IsDir(), info.Size()})
			if !info.IsDir() {
				files++
			}
		}
	}
	sort.SliceStable(p.entries, func(i, j int) bool {
		a, b := p.entries[i], p.entries[j]
		if a.folder != b.folder {
			return a.folder
		}
		return naturalLess(a.name, b.name)
	})
	setText(p.place, folder)
	setText(p.none, "")
	if files == 0 && p.req.saveAs == "" {
		setText(p.none, "No "+strings.Join(p.req.extensions, ", ")+" in this folder")
	}
	p.list.UnselectAll()
	p.list.ScrollToTop()
	p.refresh()
}

func (p *picker) newRow() fyne.CanvasObject {
	icon := widget.NewIcon(theme.FileIcon())
	name := widget.NewLabel("")
	name.Truncation = fyne.TextTruncateEllipsis
	return container.NewBorder(nil, nil, icon, small(""), name)
}

func (p *picker) showRow(i widget.ListItemID, o fyne.CanvasObject) {
	e := p.entries[i]
	row := o.(*fyne.Container).Objects
	name, icon, size := row[0].(*widget.Label), row[1].(*widget.Icon), row[2].(*canvas.Text)
	name.TextStyle.Bold = p.taken[e.name]
	name.SetText(e.name)
	switch {
	case e.folder:
		icon.SetResource(theme.FolderIcon())
		setText(size, "")
	case p.taken[e.name]:
		icon.SetResource(theme.ConfirmIcon())
		setText(size, sizeWords(e.size))
	default:
		icon.SetResource(theme.FileIcon())
		setText(size, sizeWords(e.size))
	}
}

// clicked enters a folder, or takes a file; with Shift held, the whole run
// from the one before. A second click on the only file taken is the end.
func (p *picker) clicked(i widget.ListItemID) {
	p.list.UnselectAll()
	e := p.entries[i]
	if e.folder {
		p.enter(filepath.Join(p.folder, e.name))
		return
	}
	switch {
	case p.req.saveAs != "":
		p.name.SetText(e.name)
	case !p.req.several:
		if p.taken[e.name] {
			p.finish()
			return
		}
		clear(p.taken)
		p.taken[e.name] = true
	case shiftHeld() && p.last >= 0:
		for k := min(p.last, i); k <= max(p.last, i); k++ {
			if !p.entries[k].folder {
				p.taken[p.entries[k].name] = true
			}
		}
	case p.taken[e.name]:
		delete(p.taken, e.name)
	default:
		p.taken[e.name] = true
	}
	p.last = i
	p.refresh()
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

// confirmReplace asks before a file that is there is written over.
func (w *window) confirmReplace(path, ext string, then func()) {
	if filepath.Ext(path) != ext {
		path += ext
	}
	if _, err := os.Stat(path); err != nil {
		then()
		return
	}
	ask := dialog.NewCustomWithoutButtons("Replace the file?", small(filepath.Base(path)+" is there already."), w.win)
	ask.SetButtons(buttons(quiet("Keep it", ask.Hide), strong("Replace", func() { ask.Hide(); then() })))
	ask.Show()
}

func sizeWords(n int64) string {
	switch {
	case n >= 1<<20:
		return fmt.Sprintf("%.1f MB", float64(n)/(1<<20))
	case n >= 1<<10:
		return fmt.Sprintf("%d kB", n>>10)
	}
	return fmt.Sprintf("%d B", n)
}

// strong is the button that goes on.
func strong(text string, do func()) *widget.Button {
	b := widget.NewButton(text, do)
	b.Importance = widget.HighImportance
	return b
}

func buttons(b ...fyne.CanvasObject) []fyne.CanvasObject { return b }
