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
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board/desk"
)

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
		return desk.NaturalLess(a.name, b.name)
	})
	setText(p.place, folder)
	setText(p.none, "")
	if files == 0 && p.req.saveAs == "" {
		setText(p.none, "No "+strings.Join(p.req.extensions, ", ")+" in this folder")
	}
	p.list.UnselectAll()
	p.list.point(0)
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

func sizeWords(n int64) string {
	switch {
	case n >= 1<<20:
		return fmt.Sprintf("%.1f MB", float64(n)/(1<<20))
	case n >= 1<<10:
		return fmt.Sprintf("%d kB", n>>10)
	}
	return fmt.Sprintf("%d B", n)
}
