package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"stillbeat/board"
	"stillbeat/board/share"
	"stillbeat/board/share/mp4"
)

// soundOf is a decoded song.
type soundOf = board.Sound

// export turns what was asked for into an export of a film.
func (o shareOptions) export(b board.Board) (share.Options, error) {
	out := share.Options{
		Width: o.size.w, Height: max(o.size.h, o.height), Under: int64(o.under * 1e6),
		Silent: o.silent, Click: o.click, Burn: share.Burn{Mark: o.mark},
		Quality: map[string]mp4.Quality{"small": mp4.Small, "standard": mp4.Standard, "fine": mp4.Fine}[o.quality],
	}
	for _, word := range o.burn {
		burns[slices.IndexFunc(burns, func(w burnWord) bool { return w.name == word })].set(&out.Burn)
	}
	if !o.from.given() && !o.up.given() || len(b.Panels) == 0 {
		return out, nil
	}
	span, err := o.span(b)
	out.From, out.To = span.Start, span.End
	return out, err
}

// span returns the frames that are asked for.
func (o shareOptions) span(b board.Board) (board.Span, error) {
	whole := board.Span{End: b.Frames()}
	from, err := o.from.in(b, whole)
	if err != nil {
		return whole, err
	}
	to, err := o.up.in(b, whole)
	if err != nil {
		return whole, err
	}
	span := board.Span{Start: from.Start, End: to.End}
	if span.Start < 0 || span.Len() == 0 || span.End > whole.End {
		return span, fmt.Errorf("there are no frames from %d up to %d: the film has %d", span.Start, span.End, whole.End)
	}
	return span, nil
}

// place is a place in a film as it is typed; "" is none.
type place string

const panelMark = "panel:"

func (p place) given() bool { return p != "" }

// in returns the frames a place stands for: from where what begins there
// begins, up to where what ends there ends.
func (p place) in(b board.Board, whole board.Span) (board.Span, error) {
	text := string(p)
	if text == "" {
		return whole, nil
	}
	if number, isPanel := strings.CutPrefix(strings.ToLower(text), panelMark); isPanel {
		number = strings.TrimSpace(number)
		i := slices.IndexFunc(b.Numbers(), func(n string) bool { return strings.EqualFold(n, number) })
		if i < 0 {
			return board.Span{}, fmt.Errorf("there is no panel %q", number)
		}
		return b.Span(i), nil
	}
	f, err := strconv.ParseInt(text, 10, 32)
	at := board.Frame(f)
	if err != nil {
		if at, err = b.Rate.ParseTimecode(text); err != nil {
			return board.Span{}, err
		}
	}
	return board.Span{Start: at, End: at}, nil
}

// placeFlag reads a frame, a timecode or a panel.
func placeFlag(to *place) pflag.Value {
	read := func(s string) (place, error) {
		s = strings.TrimSpace(s)
		n, err := strconv.Atoi(s)
		number, isPanel := strings.CutPrefix(strings.ToLower(s), panelMark)
		if err == nil && n >= 0 || isPanel && number != "" || !isPanel && err != nil && strings.Contains(s, ":") {
			return place(s), nil // timecodes depend on the film's rate
		}
		return "", fmt.Errorf("%q is no place in a film: write a frame such as 48, a timecode such as 00:00:02:00, or panel:3", s)
	}
	return parsed[place]{to, read, func(p place) string { return string(p) }, "PLACE"}
}

// heightFlag reads a height in pixels.
func heightFlag(to *int) pflag.Value {
	return zeroHidden[int]{parsed[int]{to, wholeNumber(leastPixels, mostPixels), strconv.Itoa, "N"}}
}

// megabytes is a size of a file.
type megabytes float64

func (m megabytes) String() string { return strconv.FormatFloat(float64(m), 'f', -1, 64) }

// megabytesFlag reads a size of a file: "10", "2.5", "10MB".
func megabytesFlag(to *megabytes) pflag.Value {
	read := func(s string) (megabytes, error) {
		number := strings.TrimSpace(strings.TrimSuffix(strings.ToUpper(strings.TrimSpace(s)), "MB"))
		v, err := strconv.ParseFloat(strings.ReplaceAll(number, ",", "."), 64)
		if err != nil || !(v >= 0.01 && v <= 1e6) || math.IsInf(v, 0) {
			return 0, fmt.Errorf("%q is not a size of a file: write megabytes, 0.01 to 1000000", s)
		}
		return megabytes(v), nil
	}
	return zeroHidden[megabytes]{parsed[megabytes]{to, read, megabytes.String, "MB"}}
}

// zeroHidden is a flag whose zero help does not show.
type zeroHidden[T comparable] struct{ parsed[T] }

func (z zeroHidden[T]) String() string {
	var zero T
	if z.to == nil || *z.to == zero {
		return ""
	}
	return z.parsed.String()
}

// burnWord is something that can be burnt into the pictures.
type burnWord struct {
	name string
	set  func(*share.Burn)
}

var burns = []burnWord{
	{"frame", func(b *share.Burn) { b.Words.Frame = true }},
	{"timecode", func(b *share.Burn) { b.Words.Timecode = true }},
	{"beat", func(b *share.Burn) { b.Words.Beat = true }},
	{"exposure", func(b *share.Burn) { b.Words.Exposure = true }},
	{"panel", func(b *share.Burn) { b.Words.Number = true }},
	{"title", func(b *share.Burn) { b.Words.Title = true }},
	{"notes", func(b *share.Burn) { b.Note = true }},
	{"safe", func(b *share.Burn) { b.Safe = true }},
}

// burnWords lists what can be burnt in.
func burnWords() (names []string) {
	for _, w := range burns {
		names = append(names, w.name)
	}
	return names
}

// burnFlag reads a list of what is to be burnt in.
func burnFlag(to *[]string) pflag.Value {
	read := func(s string) ([]string, error) {
		var out []string
		for _, word := range strings.Split(strings.ToLower(s), ",") {
			word = strings.TrimSpace(word)
			if !slices.Contains(burnWords(), word) {
				return nil, fmt.Errorf("%q is nothing to burn in: there are %s", word, strings.Join(burnWords(), ", "))
			}
			out = append(out, word)
		}
		return out, nil
	}
	return parsed[[]string]{to, read, func(v []string) string { return strings.Join(v, ",") }, "LIST"}
}
