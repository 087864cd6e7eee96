package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// parsed is a flag whose value is read by a function.
type parsed[T any] struct {
	to    *T
	read  func(string) (T, error)
	show  func(T) string
	shape string // what help calls the value
}

func (p parsed[T]) String() string {
	if p.to == nil {
		return ""
	}
	return p.show(*p.to)
}

func (p parsed[T]) Type() string { return p.shape }

func (p parsed[T]) Set(s string) (err error) {
	v, err := p.read(s)
	if err == nil {
		*p.to = v
	}
	return err
}

// rateFlag reads frames per second: 24, 23.976, 24000/1001.
func rateFlag(to *board.FrameRate) pflag.Value {
	return parsed[board.FrameRate]{to, board.ParseRate, board.FrameRate.String, "RATE"}
}

// targetFlag reads what to snap to.
func targetFlag(to *board.Target) pflag.Value {
	return parsed[board.Target]{to, board.ParseTarget, func(t board.Target) string { return string(t) }, "TARGET"}
}

// wholeFlag reads a whole number from least to most.
func wholeFlag(to *int, least, most int) pflag.Value {
	return parsed[int]{to, wholeNumber(least, most), strconv.Itoa, "N"}
}

// wholeNumber returns what reads a whole number from least to most.
func wholeNumber(least, most int) func(string) (int, error) {
	return func(s string) (int, error) {
		n, err := strconv.Atoi(s)
		if err != nil || n < least || n > most {
			return 0, fmt.Errorf("%q is not a whole number from %d to %d", s, least, most)
		}
		return n, nil
	}
}

// choiceFlag reads one of a few words.
func choiceFlag(to *string, shape string, words ...string) pflag.Value {
	read := func(s string) (string, error) {
		if s = strings.ToLower(s); slices.Contains(words, s) {
			return s, nil
		}
		return "", fmt.Errorf("%q is not %s", s, strings.Join(words, " or "))
	}
	return parsed[string]{to, read, func(s string) string { return s }, shape}
}

// numberFlag reads a number from least to most.
func numberFlag(to *float64, least, most float64, shape string) pflag.Value {
	read := func(s string) (float64, error) {
		v, err := strconv.ParseFloat(strings.ReplaceAll(s, ",", "."), 64)
		if err != nil || !(v >= least && v <= most) {
			return 0, fmt.Errorf("%q is not a number from %g to %g", s, least, most)
		}
		return v, nil
	}
	show := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	return parsed[float64]{to, read, show, shape}
}

// size is a width and height in pixels.
type size struct{ w, h int }

// Sizes a film can be written in, each way.
const (
	leastPixels = 16
	mostPixels  = 4096
)

// sizeFlag reads pixels: 1280x720.
func sizeFlag(to *size) pflag.Value {
	read := func(s string) (size, error) {
		w, h, ok := strings.Cut(strings.ToLower(s), "x")
		width, errW := strconv.Atoi(w)
		height, errH := strconv.Atoi(h)
		if !ok || errW != nil || errH != nil || min(width, height) < leastPixels || max(width, height) > mostPixels {
			return size{}, fmt.Errorf("%q is not a size: write width x height in pixels, %d to %d each, such as %dx%d",
				s, leastPixels, mostPixels, picture.Width, picture.Height)
		}
		return size{width, height}, nil
	}
	show := func(v size) string {
		if v == (size{}) {
			return "" // the film's shape decides
		}
		return fmt.Sprintf("%dx%d", v.w, v.h)
	}
	return parsed[size]{to, read, show, "WxH"}
}
