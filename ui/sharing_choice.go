package ui

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"stillbeat/board"
	"stillbeat/board/share"
	"stillbeat/board/share/mp4"
	"stillbeat/board/share/printed"
)

// sharing is how films are shared: what the program remembers from one to the
// next. The part of the film is not in it: it belongs to one film.
type sharing struct {
	Format    string         `json:"format"` // its ending
	Lines     map[string]int `json:"lines"`  // heights by format, of a 16:9 frame
	Quality   int            `json:"quality"`
	Under     string         `json:"under"` // megabytes as typed
	Silent    bool           `json:"silent"`
	Click     bool           `json:"click"`
	Burn      share.Burn     `json:"burn"`
	Each      int            `json:"each"`
	PerPage   int            `json:"perPage"`
	Paper     int            `json:"paper"`
	Landscape bool           `json:"landscape"`
}

// Choices in the order they are listed.
var (
	qualityNames = []string{"standard", "small: for mail", "fine: for a large screen", "under a size"}
	qualities    = []mp4.Quality{mp4.Standard, mp4.Small, mp4.Fine, mp4.Standard}
	eachNames    = []string{"of each panel", "of each frame"}
)

const (
	underSize = 3 // in qualityNames
	eachFrame = 1 // in eachNames

	sharingKey   = "sharing" // where the program keeps it
	mostMark     = 200       // signs of a watermark
	usualMB      = "10"
	mostMB       = 1e6
	leastMB      = 0.01
	bytesOfAnMB  = 1e6 // as the size is typed
	mostTextName = 150 // bytes of a file's name that come from a title
)

// readSharing reads what was kept; what makes no sense is as usual.
func readSharing(data string) sharing {
	var s sharing
	if json.Unmarshal([]byte(data), &s) != nil {
		s = sharing{}
	}
	f, _ := formatNamed(s.Format)
	s.Format = f.ending
	if s.Lines == nil {
		s.Lines = map[string]int{}
	}
	for _, f := range shareFormats {
		if !slices.Contains(f.lines, s.Lines[f.ending]) {
			s.Lines[f.ending] = f.usual
		}
	}
	within := func(v *int, least, most, usual int) {
		if *v < least || *v > most {
			*v = usual
		}
	}
	within(&s.Quality, 0, len(qualityNames)-1, 0)
	within(&s.Each, 0, len(eachNames)-1, 0)
	within(&s.Paper, 0, len(papers)-1, 0)
	within(&s.PerPage, 1, printed.MostPerPage, printed.UsualPerPage)
	if _, err := megabytes(s.Under); err != nil {
		s.Under = usualMB
	}
	if len([]rune(s.Burn.Mark)) > mostMark {
		s.Burn.Mark = ""
	}
	return s
}

// keep has the program remember it.
func (s sharing) keep() string {
	data, err := json.Marshal(s)
	if err != nil {
		return ""
	}
	return string(data)
}

// megabytes reads a size of a file.
func megabytes(text string) (float64, error) {
	v, err := typedNumber(text)
	if err != nil || !(v >= leastMB && v <= mostMB) {
		return 0, fmt.Errorf("%q is not a size of a file: write megabytes, such as 10 or 2.5", text)
	}
	return v, nil
}

// options turns the choice into an export of some frames of a film.
func (s sharing) options(f *shareFormat, b board.Board, part board.Span) (share.Options, error) {
	var o share.Options
	if f.has(takesRange) {
		o.From, o.To = part.Start, part.End
	}
	if f.has(takesHeight) {
		o.Width, o.Height = f.size(b.Aspect, s.Lines[f.ending])
	}
	if f.has(takesQuality) {
		o.Quality = qualities[s.Quality]
		if s.Quality == underSize {
			mb, err := megabytes(s.Under)
			if err != nil {
				return o, err
			}
			o.Under = int64(mb * bytesOfAnMB)
		}
	}
	o.Silent = !f.has(takesSound) || s.Silent
	o.Click = f.has(takesClick) && s.Click && !b.Grid.Empty()
	if f.has(takesBurn) {
		o.Burn = s.Burn
		o.Burn.Mark = strings.TrimSpace(s.Burn.Mark)
	}
	return o, nil
}

// partOf is a part of the film that can be shared.
type partOf struct {
	name string
	span board.Span
}

// shareParts returns the parts to choose from, the whole film first.
func (w *window) shareParts() []partOf {
	end := w.board.Frames()
	parts := []partOf{{"the whole film", board.Span{End: end}}}
	if set := w.selection(); len(set) > 0 {
		first, last := set[0], set[len(set)-1]
		name := "panel " + w.numbers[first]
		if first != last {
			name = fmt.Sprintf("panels %s to %s", w.numbers[first], w.numbers[last])
		}
		parts = append(parts, partOf{name, board.Span{Start: w.starts[first], End: w.starts[last+1]}})
	}
	if s := markedSpan(w.board.Rate, w.transport.in, w.transport.out, end); !s.empty() && s.from < end {
		parts = append(parts, partOf{"between the In and Out marks", board.Span{Start: s.from, End: s.to}})
	}
	return parts
}

// shareName is the name offered for a file: the film's title with an ending.
func (w *window) shareName(f *shareFormat) string {
	name := strings.TrimSpace(w.board.Title)
	if name == "" {
		name = w.desk.Name()
	}
	name = fileName(name)
	for len(name) > mostTextName { // some signs have several bytes
		r := []rune(name)
		name = strings.TrimSpace(string(r[:len(r)-1]))
	}
	if f.folder() {
		return name + " " + strings.ToLower(f.name)
	}
	return name + f.ending
}
