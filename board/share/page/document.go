package page

import (
	"fmt"
	"strings"
	"unicode"

	"stillbeat/board"
	"stillbeat/board/review"
)

// document is what the page knows of the film, besides pictures and sound.
type document struct {
	Film    review.Film `json:"film"` // goes back with the notes
	Format  string      `json:"format"`
	Version int         `json:"version"`
	Title   string      `json:"title"`
	About   string      `json:"about"`
	Num     int64       `json:"num"`
	Den     int64       `json:"den"`
	Frames  board.Frame `json:"frames"`
	Width   int         `json:"width"`
	Height  int         `json:"height"`
	Sound   bool        `json:"sound"`
	Caution string      `json:"caution"`
	Save    string      `json:"save"` // name of the file of notes
	Most    int         `json:"most"` // notes in it
	Panels  []panel     `json:"panels"`
	Changes [][2]int64  `json:"changes"`
	Beats   []beat      `json:"beats"`
	Notes   []note      `json:"notes"`
}

type panel struct {
	ID     board.PanelID `json:"id"`
	Number string        `json:"number"`
	Start  board.Frame   `json:"start"`
	OnBeat bool          `json:"onBeat"`
	Title  string        `json:"title"`
	Action string        `json:"action"`
	Sound  string        `json:"sound"`
	Note   string        `json:"note"`
	Shot   string        `json:"shot"` // size and camera
}

type beat struct {
	Frame board.Frame `json:"frame"`
	Bar   bool        `json:"bar"`
	Words string      `json:"words"`
}

type note struct {
	ID      string        `json:"id"`
	Author  string        `json:"author"`
	Written int64         `json:"written"`
	Frame   board.Frame   `json:"frame"` // where it is loose, the one nearest to where it was
	Loose   bool          `json:"loose"`
	Panel   board.PanelID `json:"panel"`
	In      board.Frame   `json:"in"`
	Text    string        `json:"text"`
	Answer  string        `json:"answer"`
	State   string        `json:"state"`
}

func newDocument(b board.Board, p *pictures, sound bool, opts Options) document {
	starts, numbers := b.Starts(), b.Numbers()
	last := b.Frames() - 1
	d := document{
		Film: review.FilmOf(b), Format: review.Format, Version: review.Version, Title: b.Title,
		About: fmt.Sprintf("%s, %.1f s at %s frames a second", counted(len(b.Panels), "panel"), b.Rate.Seconds(b.Frames()), b.Rate),
		Num:   b.Rate.Num, Den: b.Rate.Den, Frames: b.Frames(), Width: p.width, Height: p.height,
		Sound: sound, Caution: opts.Caution, Save: saveName(opts.Name, b.Title), Most: review.MaxNotes,
		Changes: p.changes, Beats: beats(b), Notes: []note{},
	}
	on := map[board.Frame]bool{}
	for _, k := range d.Beats {
		on[k.Frame] = true
	}
	for i, p := range b.Panels {
		shot := strings.Join(strings.Fields(p.Size+" "+p.Camera), " ")
		d.Panels = append(d.Panels, panel{p.ID, numbers[i], starts[i], on[starts[i]], p.Title, p.Action, p.Sound, p.Note, shot})
	}
	for _, r := range b.PlacedRemarks() {
		n := note{r.ID, r.Author, r.Written, r.Frame, r.At < 0, r.Panel, 0, r.Text, r.Answer, string(r.State)}
		if n.Loose {
			n.Panel, n.Frame = 0, min(b.Rate.Nearest(r.Was), last)
		} else {
			n.In = r.Frame - starts[r.At]
		}
		d.Notes = append(d.Notes, n)
	}
	return d
}

// beats returns those of the film in its order, each on the frame nearest to it.
func beats(b board.Board) []beat {
	out := []beat{}
	if !b.OnGrid() {
		return out
	}
	end, bar, first := b.Frames(), 0, 0
	for i, k := range b.Grid.Beats {
		if k.Bar {
			bar, first = bar+1, i
		}
		f := b.BeatFrame(i)
		if f < 0 || f >= end {
			continue
		}
		words := fmt.Sprintf("beat %d", i-first+1)
		if bar > 0 {
			words = fmt.Sprintf("bar %d, %s", bar, words)
		}
		out = append(out, beat{f, k.Bar, words})
	}
	return out
}

// saveName makes a file's name of what a film is called.
func saveName(name, title string) string {
	if name == "" {
		name = title
	}
	name = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || strings.ContainsRune(`/\:*?"<>|`, r) {
			return -1
		}
		return r
	}, name)
	if runes := []rune(name); len(runes) > 80 {
		name = string(runes[:80])
	}
	if name = strings.Trim(name, " ."); name == "" {
		name = "film"
	}
	return name + review.Ending
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
