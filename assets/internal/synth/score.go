package synth

import (
	"fmt"
	"strconv"
	"strings"
)

// Note is one note of a score.
type Note struct {
	Beat  float64 // where it starts, in beats
	Beats float64 // how long it is written
	Key   int     // MIDI note number
}

// longest is the longest note, in beats, that a line may hold.
const longest = 1000

// steps are the semitones of the note names above C.
var steps = map[byte]int{'c': 0, 'd': 2, 'e': 4, 'f': 5, 'g': 7, 'a': 9, 'b': 11}

// Read turns a written line into notes. Words are name, octave and length in
// beats: "c5:1" is a C of one beat, "bb4:.5" a B flat of half a beat, "f#5:2"
// an F sharp of two; "-:1" is a rest. Bar lines "|" are for the reader. The
// first note starts at beat first. Read also returns the beat where the line ends.
func Read(line string, first float64) ([]Note, float64, error) {
	var out []Note
	beat := first
	for _, word := range strings.Fields(line) {
		if word == "|" {
			continue
		}
		name, length, ok := strings.Cut(word, ":")
		beats, err := strconv.ParseFloat(length, 64)
		if !ok || err != nil || !(beats > 0 && beats <= longest) {
			return nil, 0, fmt.Errorf("synth: note %q: want name:beats, at most %d beats", word, longest)
		}
		if name != "-" {
			key, err := Key(name)
			if err != nil {
				return nil, 0, err
			}
			out = append(out, Note{beat, beats, key})
		}
		beat += beats
	}
	return out, beat, nil
}

// Key returns the MIDI note number of a name such as "c4" (60), "bb3" or "f#5".
func Key(name string) (int, error) {
	if len(name) < 2 {
		return 0, fmt.Errorf("synth: %q is not a note", name)
	}
	step, ok := steps[name[0]]
	rest := name[1:]
	switch rest[0] {
	case 'b':
		step, rest = step-1, rest[1:]
	case '#':
		step, rest = step+1, rest[1:]
	}
	octave, err := strconv.Atoi(rest)
	if !ok || err != nil || octave < 0 || octave > 8 {
		return 0, fmt.Errorf("synth: %q is not a note", name)
	}
	return 12*(octave+1) + step, nil
}
