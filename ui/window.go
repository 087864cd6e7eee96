package ui

import (
	"image"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stillbeat/audio"
	"stillbeat/audio/play"
	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/picture"
)

// window is the open film on screen. All its methods belong to the window's
// goroutine.
type window struct {
	app  fyne.App
	win  fyne.Window
	ear  desk.Ear
	desk *desk.Desk
	demo func() (string, error)
	mute bool
	post func(func()) // has something done on this goroutine

	board   board.Board            // the desk's, as shown
	starts  []board.Frame          // of board
	numbers []string               // of its panels
	film    *picture.Film          // of board, drawn
	at      board.Frame            // playhead
	chosen  int                    // panel, -1 none
	also    map[board.PanelID]bool // other panels chosen with it
	lead    board.Frame            // frames by which what is snapped comes before the music
	pivot   int                    // where a run of chosen panels began

	player     play.Player
	transport  transport
	playing    *playback           // nil while stopped
	paint      paintLag            // of what plays
	tapping    *tapping            // nil but while taps come in
	clicking   bool                // a click on the beats, over the song
	tuned      tuning              // what the player was given
	cue        atomic.Pointer[cue] // of the count-in under way
	clickLevel loudness
	aids       aids
	flash      flash
	seen       *seen // the film at another rate, nil while it is seen at its own
	paired     bool  // seen is beside the film at its own rate
	waveOf     board.MediaID
	wave       *audio.Pyramid // of it, nil for none

	loader        *loader
	timeline      *timeline
	viewer        *viewer
	second, full  *screen    // the picture on others, nil while they are closed
	screens       func() int // how many are at the machine
	restFor       time.Duration
	resting       bool // behind a full screen: see rest
	rested        time.Time
	pages         *pages
	timelinePage  *page
	wallPage      *page
	wall          *wallPage
	sheetPage     *page
	sheet         *sheetPage
	plan          *page
	planPage      *planPage
	surface       *surface // on the viewer, for tools
	faces         *faces   // of the card
	framing       *frameFace
	outside       *outside
	pad           *drawPad // the sketch pad, on one of them
	welcome       *welcome
	card          *card
	letters       *letterFace
	check         *checkPage
	motion        *motionFace
	remarks       *remarkFace
	header        *header
	deck          *deck
	notice        *notice
	jobs          *jobs
	foot          *foot
	commands      []*command
	pressed       fyne.KeyName // while its command is done
	plain         map[fyne.KeyName][]*command
	keys          *keyset
	sameShortcuts []fyne.Shortcut // keys with Ctrl that the menu does not show
	catcher       *catcher        // takes the next key, nil but while one is changed
	menu          *fyne.MainMenu
	rows          *container.Split // timeline over the rest
	columns       *container.Split // viewer and card
	body          *fyne.Container  // all of it, which scrolls where it has no room
	note          *note
	closing       bool
}

func newWindow(app fyne.App, o Options, d *desk.Desk) *window {
	wearKept(app)
	w := &window{app: app, win: app.NewWindow("Stillbeat"), ear: o.Ear, demo: o.Demo, mute: o.Mute, post: o.post, desk: d, board: d.Board(), starts: d.Board().Starts(), chosen: -1, screens: func() int { return 2 }}
	if w.post == nil {
		w.post = fyne.Do
	}
	w.jobs = newJobs(w.post)
	w.outside = newOutside(w.post, func(err error) { w.foot.Say(sentence(err.Error())) })
	w.note = newNote(w.post)
	w.timeline = newTimeline(w.drawn)
	w.viewer = w.newViewer()
	w.takeTransport()
	w.welcome = newWelcome(w)
	w.wall = newWallPage(w)
	w.deck = newDeck(w)
	w.notice = newNotice()
	w.foot = newFoot(w.jobs)
	w.foot.also = func(s string) {
		if w.full != nil { // it covers the foot
			w.full.words.Say(s)
		}
	}
	w.card = newCard(
		w.hinted("Anchor", nil, widget.LowImportance, "Tie the start to the nearest beat, or set it free", w.toggleAnchor).by("Anchor to the music or set free"),
		w.hinted("Replace picture…", nil, widget.LowImportance, "Give this panel another picture", w.replacePicture).by("Replace picture…"),
		w.hinted("Duplicate", nil, widget.LowImportance, "A copy after this panel, with its hold", w.duplicate).by("Duplicate"),
		w.hinted("Delete", nil, widget.LowImportance, "The panel before holds on over its time", func() { w.takeOut(board.Delete) }).by("Delete: the panel before holds on"))
	w.wire()
	w.surface = newSurface(w.viewer)
	w.faces = w.newFaces()
	view := container.NewBorder(nil, w.deck.root, nil, nil, container.NewStack(w.viewer, w.surface, w.welcome.root))
	w.columns = container.NewHSplit(view, w.faces.root)
	w.rows = container.NewVSplit(w.timeline, w.columns)
	w.timelinePage = &page{name: "Timeline", hint: "The film along its music", key: fyne.KeyF3, root: w.rows, typed: w.faces.typedKey, moved: w.motion.moved}
	w.wallPage = w.wall.page()
	w.sheet, w.planPage = newSheetPage(w), newPlanPage(w)
	w.sheetPage, w.plan = w.sheet.page(), w.planPage.page()
	w.check = newCheckPage(w)
	w.pages = newPages(w, w.timelinePage, w.wallPage, w.sheetPage, w.plan, w.check.page())
	w.header = newHeader(w)
	w.commands = w.allCommands()
	holdBack(w.commands, func() bool { return w.desk.ReadOnly() == nil })
	w.keys = newKeyset(w.commands, app.Preferences().String(keysKey))
	w.rekey()
	w.win.Canvas().SetOnTypedKey(w.typedKey)
	w.takeArrangement()

	w.body = container.NewBorder(
		container.NewVBox(w.header.root, w.notice.root, rule()), container.NewVBox(rule(), w.foot.root), nil, nil, w.pages.root())
	w.notice.OnSize = func() {
		w.body.Refresh() // words learn their width,
		w.body.Refresh() // and what is below them how many lines they take
	}
	w.win.SetContent(container.NewStack(container.NewScroll(w.body), w.note.root))
	w.win.SetOnDropped(func(_ fyne.Position, uris []fyne.URI) { w.dropped(uris) })
	w.win.SetCloseIntercept(w.close)
	w.aids = readAids(app.Preferences().String(aidsKey))
	w.setDesk(d)
	w.takeAids()
	return w
}

// newViewer makes a viewer of the film's pictures.
func (w *window) newViewer() *viewer {
	return newViewer(w.drawn, func(s picture.Shot) error { return w.loader.Failed(s) })
}

// drawn returns a shot of the film if it is drawn by now, else nil.
func (w *window) drawn(s picture.Shot, pw, ph int) *image.RGBA { return w.loader.Shot(s, pw, ph) }

func (w *window) wire() {
	w.timeline.OnScrub = w.scrub
	w.timeline.OnChoose = func(i int, how choice) {
		switch how {
		case chooseRun:
			w.chooseTo(i)
		case chooseMore:
			w.chooseAlso(i)
		default:
			w.choose(i)
		}
	}
	w.timeline.OnOrder = w.movePanels
	w.timeline.OnMenu = w.contextMenu
	w.timeline.OnOpen = func(i int) { w.choose(i); w.writeOnCard() }
	w.timeline.OnMove = func(i int, s board.Start) { w.do(w.timeline.moving(i, s)) }
	w.timeline.OnBeat = func(i int, sec float64) { w.do(board.MoveBeat(i, sec)) }
	w.timeline.OnRemark = func(id string) { w.remarks.open(id) }
	w.timeline.OnHint = w.foot.Hint
	w.card.OnEdit = func(e board.Edit) error { return w.desk.Do(e) }
	w.card.OnDone = func() { w.desk.CloseEdit() }
	w.card.OnSay, w.card.OnHint, w.card.OnKey = w.foot.Say, w.foot.Hint, w.typedKey
}

// setDesk shows another film. The one before must be closed already.
func (w *window) setDesk(d *desk.Desk) {
	w.stop()
	w.outside.Stop()
	w.desk = d
	w.adoptPictures()
	d.OnChange = w.show
	d.OnTrouble = func(err error) {
		w.post(func() {
			if d == w.desk {
				w.foot.Say(sentence(err.Error()))
				w.showNotice()
			}
		})
	}
	d.OnWritten = func() { w.post(w.showNotice) }
	w.chosen, w.also, w.at, w.tuned, w.waveOf, w.wave = -1, nil, 0, tuning{}, "", nil
	w.seen, w.paired = nil, false
	w.timeline.SetWave(nil)
	w.show()
	w.takePlace()
	w.takeMarks()
	w.remember()
}

// adoptPictures draws from the desk's cache.
func (w *window) adoptPictures() {
	w.loader = newLoader(w.desk.Pictures, w.post, func() {
		for _, v := range w.viewers() {
			v.Update()
		}
		if w.resting {
			return
		}
		w.timeline.Refresh()
		w.surface.Refresh()
		w.wall.wall.Refresh()
	})
	w.timeline.view.thumbs.forget()
	w.wall.wall.view.thumbs.forget()
}

// show brings every part in line with the film.
func (w *window) show() {
	before := w.board
	w.board = w.desk.Board()
	w.starts, w.numbers = w.board.Starts(), w.board.Numbers()
	w.film = picture.NewFilm(w.desk.Pictures, w.board)
	w.followSeen()
	if before.Rate != w.board.Rate && before.Rate.Num > 0 {
		w.at = w.board.Rate.Nearest(before.Rate.Seconds(w.at))
	}
	w.at = min(w.at, w.lastFrame())
	w.keepSelection(before)
	w.timeline.SetBoard(w.board, w.starts, w.film)
	w.timeline.SetChosen(w.chosen, w.selection(), false)
	w.timeline.SetPlayhead(w.at, false)
	w.pages.Present()
	w.check.Changed()
	w.faces.Present()
	w.header.Present(w.board)
	w.welcome.Present(w.board)
	w.foot.Present(w.board, w.starts, w.soundWords())
	w.showFrame(w.at)
	w.showNotice()
	w.win.SetTitle(w.desk.Name() + " — Stillbeat")
	refreshMenus(w.menu, w.commands)
	w.replan()
	w.tune()
}

// do applies an edit, or says why not.
func (w *window) do(e board.Edit) {
	if err := w.desk.Do(e); err != nil {
		w.foot.Say(sentence(err.Error()))
		w.show()
	}
}

// soundWords says how the sound is, where there is something to say.
func (w *window) soundWords() string {
	switch {
	case w.board.Song == nil && w.board.OnGrid():
		return "no song: a click"
	case w.board.Song == nil:
		return "no song"
	case w.player.Trouble() != nil:
		return "no sound device: playing by the clock"
	}
	return ""
}

// lastFrame returns the last place of the playhead: the end of the film or,
// without panels, of the song.
func (w *window) lastFrame() board.Frame {
	if n := w.starts[len(w.starts)-1]; n > 0 || w.board.Song == nil {
		return n
	}
	s := w.board.Song
	return w.board.Rate.Nearest(s.Offset + s.Seconds)
}
