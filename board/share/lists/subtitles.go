package lists

import (
	"bytes"
	"errors"
	"fmt"
	"math/big"
	"strings"

	"stillbeat/board"
)

// ErrNoWords is returned for subtitles of a film in which nothing is said.
var ErrNoWords = errors.New("no panel of the film has sound or dialogue written on it")

// zero is a space without width. SubRip has no way to write a sign that
// players take for a command; behind one it makes them show it.
const zero = "\u200b"

var (
	inSubRip = strings.NewReplacer("<", "<"+zero, `{\`, "{"+zero+`\`, "-->", "--"+zero+">")
	// W3C, WebVTT: The Web Video Text Tracks Format, 4.2.2.
	inWebVTT = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")
)

// SubRip returns the sound and dialogue of the panels as subtitles in SubRip's
// form: numbered, with a comma before the milliseconds (common practice, as
// FFmpeg reads and writes it). Each is up as long as its panel holds.
func SubRip(b board.Board) ([]byte, error) {
	var out bytes.Buffer
	err := subtitles(b, ',', func(n int, _, times, text string) {
		fmt.Fprintf(&out, "%d\n%s\n%s\n\n", n, times, inSubRip.Replace(text))
	})
	return out.Bytes(), err
}

// WebVTT is SubRip in the form of the W3C's WebVTT. A subtitle is named by its
// panel's number.
func WebVTT(b board.Board) ([]byte, error) {
	out := bytes.NewBufferString("WEBVTT\n\n")
	err := subtitles(b, '.', func(_ int, panel, times, text string) {
		fmt.Fprintf(out, "%s\n%s\n%s\n\n", panel, times, inWebVTT.Replace(text))
	})
	if err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func subtitles(b board.Board, point byte, write func(n int, panel, times, text string)) error {
	starts, numbers, n := b.Starts(), b.Numbers(), 0
	for i, p := range b.Panels {
		text := plain(p.Sound)
		if text == "" {
			continue
		}
		n++
		write(n, numbers[i], clock(b.Rate, starts[i], point)+" --> "+clock(b.Rate, starts[i+1], point), text)
	}
	if n == 0 {
		return ErrNoWords
	}
	return nil
}

// clock writes the instant at which a frame starts as hh:mm:ss.mmm, each
// rounded on its own.
func clock(r board.FrameRate, f board.Frame, point byte) string {
	ms := roundedUnits(r, f, 1000)
	return fmt.Sprintf("%02d:%02d:%02d%c%03d", ms/3600_000, ms/60_000%60, ms/1000%60, point, ms%1000)
}

// roundedUnits returns frame f in so many units to the second, the nearest one,
// halves upwards. f is not negative.
func roundedUnits(r board.FrameRate, f board.Frame, units int64) int64 {
	num := big.NewInt(int64(f))
	num.Mul(num, big.NewInt(2*units*r.Den)).Add(num, big.NewInt(r.Num))
	return num.Div(num, big.NewInt(2*r.Num)).Int64()
}
