package board

import (
	"math"
	"strings"
	"unicode"
)

// Reading says how fast words are read. The zero value is for grown-ups who
// see them once.
type Reading struct {
	Characters float64 // a second, letters and spaces alike; 0 means 15
	Words      float64 // a minute; 0 means 170
	Ideographs float64 // a second, of scripts that write a syllable or word in a sign; 0 means 5
}

// The usual speeds. Subtitles are held for 12 to 15 characters a second on
// television and up to 17 to 20 on demand (titlevision.dk), or 160 to 180 words a
// minute (BBC); the speed of ideographs is from memory. Titles are held to be
// read aloud twice and not under 2 seconds, which is common practice.
const (
	usualCharacters = 15
	usualWords      = 170
	usualIdeographs = 5
	leastTitle      = 2 // seconds
)

// Seconds returns how long words take to read: by characters or by words,
// whichever takes longer.
func (r Reading) Seconds(text string) float64 {
	characters, words, ideographs := count(text)
	speed := func(v, usual float64) float64 {
		if v > 0 {
			return v
		}
		return usual
	}
	byCharacters := float64(characters) / speed(r.Characters, usualCharacters)
	byWords := float64(words) * 60 / speed(r.Words, usualWords)
	return math.Max(byCharacters, byWords) + float64(ideographs)/speed(r.Ideographs, usualIdeographs)
}

// Frames returns how many whole frames words must be held to be read.
func (r Reading) Frames(text string, rate FrameRate) Frame { return wholeFrames(r.Seconds(text), rate) }

// wholeFrames returns the least frames that last so many seconds.
func wholeFrames(seconds float64, rate FrameRate) Frame {
	return Frame(math.Ceil(seconds*rate.Float() - 1e-9))
}

// count returns the characters of a text without ideographs, with each run of
// white space as one, its words, and its ideographs.
func count(text string) (characters, words, ideographs int) {
	for _, field := range strings.Fields(text) {
		n := 0
		for _, r := range field {
			switch {
			case unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul):
				ideographs++
			case !unicode.Is(unicode.Mn, r): // marks on a letter are read with it
				n++
			}
		}
		if n > 0 {
			words++
			characters += n
		}
	}
	return characters + max(0, words-1), words, ideographs
}

// ReadingTime returns how many frames panel i must be held for its lettering
// to be read: all of it once, titles twice and for two seconds at least. It is
// 0 for a panel without words.
func (b Board) ReadingTime(i int, r Reading) Frame {
	var seconds float64
	for _, l := range b.Panels[i].Drawing().Lettering {
		s := r.Seconds(l.Text)
		if l.Kind == TitleCard && s > 0 {
			s = math.Max(2*s, leastTitle)
		}
		seconds += s
	}
	return wholeFrames(seconds, b.Rate)
}

// TooShortToRead returns the panels that do not hold as long as their
// lettering takes to read. It is a hint: words that stay on over several
// panels are read over all of them.
func (b Board) TooShortToRead(r Reading) []int {
	var out []int
	holds := b.Holds()
	for i := range b.Panels {
		if b.ReadingTime(i, r) > holds[i] {
			out = append(out, i)
		}
	}
	return out
}
