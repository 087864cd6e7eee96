package ui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// timingCommands is the menu of holds and starts.
func (w *window) timingCommands() []*command {
	panel := func() bool { return w.chosen >= 0 }
	start := func() bool { return w.chosen > 0 || len(w.also) > 0 }
	grid := func() bool { return panel() && w.board.OnGrid() }
	run := func() bool { return len(w.also) > 0 }
	c := []*command{{menu: "Timing", name: "Hold…", near: nearPanel, key: fyne.KeyW, do: w.holdDialog, can: panel}}
	names := []string{"A beat each", "Two beats each", "Three beats each", "Four beats each"}
	for i, name := range names {
		c = append(c, &command{menu: "Timing", name: name, key: digit(i + 1), do: func() {
			w.onSelection(func(set []int) board.Edit { return board.HoldBeats(set, i+1, board.ToBeat) })
		}, can: grid})
	}
	c = append(c, []*command{
		{menu: "Timing", name: "A bar each", key: digit(5), do: func() {
			w.onSelection(func(set []int) board.Edit { return board.HoldBeats(set, 1, board.ToBar) })
		}, can: grid},
		{menu: "Timing", name: "Even holds", near: nearPanel, key: fyne.KeyE, do: func() { w.onSelection(board.Spread) }, can: run},
		{menu: "Timing", name: "Fit into a length…", key: fyne.KeyE, mod: shift, do: w.fitDialog, can: panel},
		{menu: "Timing"},
		{menu: "Timing", name: "Start a frame earlier", key: fyne.KeyComma, do: func() { w.nudge(-1) }, can: start},
		{menu: "Timing", name: "Start a frame later", key: fyne.KeyPeriod, do: func() { w.nudge(1) }, can: start},
		{menu: "Timing", name: "Start a beat earlier", key: fyne.KeyComma, mod: shift, do: func() { w.nudgeBeat(-1) }, can: start},
		{menu: "Timing", name: "Start a beat later", key: fyne.KeyPeriod, mod: shift, do: func() { w.nudgeBeat(1) }, can: start},
		{menu: "Timing", name: "Anchor to the music or set free", near: nearPanel, key: fyne.KeyA, do: w.toggleAnchor, can: func() bool { return start() && grid() }},
		{menu: "Timing"},
	}...)
	for _, t := range board.Targets {
		cmd := &command{menu: "Timing", name: "Snap to " + targetName(t), do: func() { w.snap(t) },
			can: func() bool { return panel() && (w.board.OnGrid() || t == board.ToOnset || t == board.ToMarker) }}
		if t == board.ToBeat {
			cmd.key, cmd.mod = fyne.KeyB, ctrl
		}
		c = append(c, cmd)
	}
	c = append(c,
		&command{menu: "Timing", name: "Picture ahead of the music…", looks: true, do: w.leadDialog,
			label: func() string { return fmt.Sprintf("Picture ahead of the music: %d f…", w.lead) }},
		&command{menu: "Timing", name: worstCutName, looks: true, key: fyne.KeyQ, do: w.toOffBeat, can: func() bool { return len(w.board.Panels) > 0 && w.board.OnGrid() }},
		&command{menu: "Timing"},
		&command{menu: "Timing", name: "A dragged start trades time", looks: true, do: func() { w.setPushing(false) }, ticked: func() bool { return !w.timeline.pushing }},
		&command{menu: "Timing", name: "A dragged start takes all after it along", looks: true, key: fyne.KeyG, do: func() { w.setPushing(!w.timeline.pushing) },
			ticked: func() bool { return w.timeline.pushing }})
	return c
}

// setPushing says what a dragged start does to what comes after it.
func (w *window) setPushing(on bool) {
	w.timeline.pushing = on
	words := "A dragged start trades time with its neighbours."
	if on {
		words = "A dragged start takes all after it along."
	}
	w.foot.Say(words)
	refreshMenus(w.menu, w.commands)
}

// A length as typed: frames, seconds, or beats and bars from where it begins.
type length struct {
	n    float64
	unit string // "f", "s", "b" or "bar"
}

// parseLength reads "12", "12 f", "1.5 s", "2 b", "2 beats" or "1 bar".
func parseLength(s string) (length, error) {
	s = strings.ToLower(strings.ReplaceAll(strings.TrimSpace(s), ",", "."))
	at := strings.IndexFunc(s, func(r rune) bool { return r != '.' && (r < '0' || r > '9') })
	if at < 0 {
		at = len(s)
	}
	n, err := strconv.ParseFloat(s[:at], 64)
	if err != nil || !(n > 0) || n > 1e6 {
		return length{}, fmt.Errorf("%q is no length: write 12, 1.5 s, 2 beats or 1 bar", s)
	}
	unit, known := map[string]string{"": "f", "f": "f", "frame": "f", "frames": "f", "s": "s", "sec": "s", "second": "s", "seconds": "s",
		"b": "b", "beat": "b", "beats": "b", "bar": "bar", "bars": "bar"}[strings.TrimSpace(s[at:])]
	if !known {
		return length{}, fmt.Errorf("%q is no unit: a length is in frames, s, beats or bars", strings.TrimSpace(s[at:]))
	}
	if unit != "s" && n != math.Trunc(n) && !(unit == "b" && 4*n == math.Trunc(4*n)) {
		return length{}, fmt.Errorf("%q: frames and bars are whole, beats whole or in quarters", s)
	}
	return length{n, unit}, nil
}

// holdEdit gives panels a hold as typed.
func holdEdit(set []int, l length, r board.FrameRate) board.Edit {
	switch l.unit {
	case "s":
		return board.SetHold(set, r.Nearest(l.n))
	case "b":
		if l.n != math.Trunc(l.n) {
			return board.HoldBeats(set, int(4*l.n), board.ToQuarter)
		}
		return board.HoldBeats(set, int(l.n), board.ToBeat)
	case "bar":
		return board.HoldBeats(set, int(l.n), board.ToBar)
	}
	return board.SetHold(set, board.Frame(l.n))
}

func (w *window) holdDialog() {
	set := w.selection()
	hold := newField("12, 1.5 s, 2 beats, 1 bar", 1)
	title := "Hold of panel " + w.numbers[w.chosen]
	if len(set) > 1 {
		title = fmt.Sprintf("Hold of %d panels, each", len(set))
	}
	w.ask(title, "Set", []askRow{{"Hold", hold}, {"", small("What comes after moves along.")}}, func() error {
		l, err := parseLength(hold.Text)
		if err != nil {
			return err
		}
		return w.desk.Do(holdEdit(set, l, w.board.Rate))
	})
}

// fitDialog scales the run of chosen panels to a length.
func (w *window) fitDialog() {
	set := w.selection()
	from, to := set[0], set[len(set)-1]+1
	now := w.starts[to] - w.starts[from]
	field := newField("96, 4 s, 8 beats, 2 bars", 1)
	w.ask(fmt.Sprintf("Fit panels %s to %s into a length", w.numbers[from], w.numbers[to-1]), "Fit",
		[]askRow{{"Length", field}, {"", small(fmt.Sprintf("It is %d frames now; each hold changes in proportion.", now))}}, func() error {
			l, err := parseLength(field.Text)
			if err != nil {
				return err
			}
			frames, err := w.framesFrom(w.starts[from], l)
			if err != nil {
				return err
			}
			return w.desk.Do(board.ScaleHolds(set, frames))
		})
}

// framesFrom returns a typed length in frames, beats counted from frame at.
func (w *window) framesFrom(at board.Frame, l length) (board.Frame, error) {
	switch l.unit {
	case "s":
		return w.board.Rate.Nearest(l.n), nil
	case "f":
		return board.Frame(l.n), nil
	}
	// One panel on its own tells where so many beats end.
	probe := w.board
	probe.Panels = []board.Panel{{ID: 1}, {ID: 2, Start: board.Free(w.board.Rate.Seconds(at))}}
	probe.End = board.Free(w.board.Rate.Seconds(at + 1))
	i := 1
	if at == 0 {
		probe.Panels, i = probe.Panels[:1], 0
	}
	probe, err := holdEdit([]int{i}, l, w.board.Rate).Apply(probe)
	if err != nil {
		return 0, err
	}
	return probe.Frames() - at, nil
}

// maxLead is the most frames a picture may come before or after its beat.
const maxLead = 48

// leadDialog asks how far pictures come before the music when they are snapped.
func (w *window) leadDialog() {
	lead := newField("frames; 2 at 24 fps is usual", 1)
	lead.SetText(strconv.FormatInt(int64(w.lead), 10))
	w.ask("Picture ahead of the music", "Set", []askRow{
		{"Frames", lead},
		{"", small("Starts that are snapped from now on come so many frames before their beat.")},
		{"", small("Animators often place a hit two frames early at 24 fps; 0 is on the beat.")},
	}, func() error {
		n, err := strconv.Atoi(strings.TrimSpace(lead.Text))
		if err != nil || n < -maxLead || n > maxLead {
			return fmt.Errorf("%q is not a number of frames from %d to %d", lead.Text, -maxLead, maxLead)
		}
		w.lead = board.Frame(n)
		refreshMenus(w.menu, w.commands)
		return nil
	})
}

func digit(n int) fyne.KeyName { return fyne.KeyName(strconv.Itoa(n)) }
