package desk

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"stillbeat/board"
	"stillbeat/board/file"
	"stillbeat/board/picture"
)

// Desk is one open film. Its methods belong to one goroutine, but for Media
// and the picture cache, which any may use.
type Desk struct {
	// OnChange is called after the board changed, on the caller's goroutine.
	OnChange func()
	// OnTrouble is called, on a goroutine of its own, when the film could not
	// be written, or a step of its history not be read; the film goes on in
	// memory, and each edit tries again. It must not wait for Flush. Set it
	// before the first edit.
	OnTrouble func(error)
	// OnWritten is called like OnTrouble when all is on disk again.
	OnWritten func()

	Pictures *picture.Cache // goes on through SaveAs

	history   *board.History
	keeper    *keeper
	untitled  bool // the file is a scratch file that nobody named yet
	abandoned bool // and nobody wants it
	moving    sync.RWMutex
	store     *file.File // set under moving, as Media reads it anywhere
	unsaved   sketches
	songs     map[board.MediaID]*Heard // decoded songs, so that undo finds the one before
	recent    []board.MediaID          // of songs, handed over last at the end
}

// Create makes a new film at path holding b.
func Create(path string, b board.Board) (*Desk, error) {
	store, err := file.Create(path, b)
	if err != nil {
		return nil, err
	}
	return newDesk(store), nil
}

func newDesk(store *file.File) *Desk {
	d := &Desk{songs: map[board.MediaID]*Heard{}}
	d.Pictures = picture.NewCache(d, 0)
	d.restore(store)
	d.adopt(store)
	return d
}

// restore goes on with the history that a film has on disk.
func (d *Desk) restore(store *file.File) {
	d.history = board.RestoreHistory(store.Past(), store)
	d.history.Lost = func(err error) { go d.told(err) }
}

func (d *Desk) adopt(store *file.File) {
	d.store = store
	d.history.Shelve(store)
	d.keeper = newKeeper(sketchSaver{store, &d.unsaved}, d.told)
}

func (d *Desk) told(err error) {
	switch {
	case err != nil && d.OnTrouble != nil:
		d.OnTrouble(err)
	case err == nil && d.OnWritten != nil:
		d.OnWritten()
	}
}

// Board returns the film as it is now.
func (d *Desk) Board() board.Board { return d.history.Board() }

// Path returns where the film lives, "" as long as it has no name.
func (d *Desk) Path() string {
	if d.untitled {
		return ""
	}
	return d.store.Path()
}

// Name returns what to call the film: its title, else its file name.
func (d *Desk) Name() string {
	switch b := d.Board(); {
	case b.Title != "":
		return b.Title
	case d.untitled:
		return "Untitled film"
	}
	return strings.TrimSuffix(filepath.Base(d.store.Path()), file.Ext)
}

// Do applies an edit. It is on disk soon after; Flush waits for that.
func (d *Desk) Do(e board.Edit) error {
	if err := d.ReadOnly(); err != nil {
		return err
	}
	if err := d.history.Do(e); err != nil {
		return err
	}
	d.changed()
	return nil
}

// Undo takes back the last edit and reports whether there was one.
func (d *Desk) Undo() bool { return d.ReadOnly() == nil && d.moved(d.history.Undo()) }

// Redo does the last edit taken back again and reports whether there was one.
func (d *Desk) Redo() bool { return d.ReadOnly() == nil && d.moved(d.history.Redo()) }

func (d *Desk) moved(did bool) bool {
	if did {
		d.changed()
	}
	return did
}

// UndoName and RedoName name the next step each way, "" for none.
func (d *Desk) UndoName() string { return d.history.UndoName() }

// RedoName names the step Redo would do again.
func (d *Desk) RedoName() string { return d.history.RedoName() }

// Past returns what the film went through and where in it it is.
func (d *Desk) Past() board.Past { return d.history.Past() }

// CloseEdit ends a run of merging edits, such as typing in one field.
func (d *Desk) CloseEdit() { d.history.Close() }

func (d *Desk) changed() {
	d.abandoned = false
	d.keeper.keep(d.Past())
	if d.OnChange != nil {
		d.OnChange()
	}
}

// Media returns the bytes of a picture, sketch or song in the film. Any goroutine may
// call it.
func (d *Desk) Media(id board.MediaID) ([]byte, error) {
	if data := d.unsaved.of(id); data != nil {
		return data, nil
	}
	d.moving.RLock()
	defer d.moving.RUnlock()
	return d.store.Media(id)
}

// AddPictures stores pictures and lays them as panels before panel at, on
// every so many beats.
func (d *Desk) AddPictures(at int, pics []ReadPicture, every int) error {
	ids, err := d.storePictures(pics)
	if err != nil || len(ids) == 0 {
		return err
	}
	panels := make([]board.Panel, len(ids))
	for i, id := range ids {
		panels[i] = board.Panel{Picture: id, Words: board.Words{Title: titleOf(pics[i].Name)}}
	}
	return d.Do(board.Insert(at, panels, every))
}

// ReplacePicture gives panel i another picture.
func (d *Desk) ReplacePicture(i int, pic ReadPicture) error {
	ids, err := d.storePictures([]ReadPicture{pic})
	if err != nil {
		return err
	}
	return d.Do(board.SetPicture([]int{i}, ids[0]))
}

// PaintOver gives panel i a picture that its sketch is painted into, in place of
// that.
func (d *Desk) PaintOver(i int, pic ReadPicture) error {
	ids, err := d.storePictures([]ReadPicture{pic})
	if err != nil {
		return err
	}
	return d.Do(board.PaintOver(i, ids[0]))
}

func (d *Desk) storePictures(pics []ReadPicture) ([]board.MediaID, error) {
	if err := d.KeepPictures(context.Background(), pics, nil); err != nil {
		return nil, err
	}
	ids := make([]board.MediaID, len(pics))
	for i, p := range pics {
		if _, err := d.store.MediaName(p.in); err != nil { // saved elsewhere meanwhile
			return nil, err
		}
		ids[i] = p.in
	}
	return ids, nil
}

// KeepPictures puts the bytes of pictures into the film, so that laying them
// takes no time. It may run on any goroutine; on an error, and when ctx ends,
// none is in the film.
func (d *Desk) KeepPictures(ctx context.Context, pics []ReadPicture, p Progress) error {
	var media []file.Media
	var which []int
	for i, pic := range pics {
		if pic.in == "" {
			media, which = append(media, file.Media{Name: pic.Name, Data: pic.Data}), append(which, i)
		}
	}
	d.moving.RLock()
	defer d.moving.RUnlock()
	ids, err := d.store.AddAll(ctx, file.Picture, media, p)
	if err != nil {
		return err
	}
	for k, i := range which {
		pics[i].in, pics[i].Data = ids[k], nil
	}
	return nil
}

// Setting and SetSetting remember small things of the window in the film.
func (d *Desk) Setting(key string) string {
	v, _ := d.store.Setting(key)
	return v
}

// SetSetting remembers a small thing; it is no loss if it fails.
func (d *Desk) SetSetting(key, value string) { _ = d.store.SetSetting(key, value) }

// Flush waits until the film on disk is the film on the desk.
func (d *Desk) Flush() error { return d.keeper.flush() }

// Unwritten returns why the film on disk is not the film on the desk; nil if
// it is, or will be in a moment. It is tried again with each edit.
func (d *Desk) Unwritten() error { return d.keeper.trouble() }

// SaveAs writes the film to path, replacing what is there, and goes on there.
// Of a film that is only read it writes what was last saved, which may be newer
// than what is shown, and shows that.
func (d *Desk) SaveAs(path string) error {
	store, err := d.copyTo(path)
	if err != nil {
		return err
	}
	old, scratch, read := d.store, d.untitled, d.ReadOnly() != nil
	d.keeper.stop()
	d.moving.Lock()
	if read {
		d.restore(store)
	}
	d.adopt(store)
	d.moving.Unlock()
	old.Close()
	if scratch {
		os.Remove(old.Path())
	}
	d.untitled = false
	if read && d.OnChange != nil {
		d.OnChange()
	}
	return nil
}

// SaveCopy writes the film to path and stays where it is.
func (d *Desk) SaveCopy(path string) error {
	store, err := d.copyTo(path)
	if err != nil {
		return err
	}
	return store.Close()
}

// copyTo makes a copy of the film as it is in memory, even where the last
// edits could not be written to its own file.
func (d *Desk) copyTo(path string) (*file.File, error) {
	if same(path, d.store.Path()) {
		return nil, fmt.Errorf("save film %q: it is there already", filepath.Base(path))
	}
	unwritten := d.Flush()
	if err := d.store.CopyTo(path); err != nil {
		return nil, err
	}
	store, _, err := file.Open(path)
	if err != nil {
		return nil, err
	}
	if unwritten != nil {
		_, err := sketchSaver{store, &d.unsaved}.saveSketches()
		if err == nil {
			err = store.Save(d.Past())
		}
		if err != nil {
			store.Close()
			return nil, err
		}
	}
	return store, nil
}

func same(a, b string) bool {
	ia, errA := os.Stat(a)
	ib, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(ia, ib)
}

// Close writes what is not written and closes the film. A film without a
// name is kept for Resume if it holds anything and was not abandoned.
func (d *Desk) Close() error {
	gone := d.untitled && (d.abandoned || !d.Untitled())
	var err error
	if !gone {
		err = d.Flush()
	}
	d.keeper.stop()
	err = errors.Join(err, d.store.Close())
	if gone {
		os.Remove(d.store.Path())
	}
	return err
}
