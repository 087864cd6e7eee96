package check

import (
	"context"
	"fmt"
	"math"

	"stillbeat/board"
)

// Peak is the loudest sample that is heard of a song, before its gain.
type Peak struct {
	Level  float64 // 1 is full scale
	Second float64 // of the song
}

// PeakOf finds the loudest sample of a song as it is trimmed and faded, in what
// lies under the film. It returns the error of ctx when it ends.
func PeakOf(ctx context.Context, b board.Board, sound board.Sound) (Peak, error) {
	song := *b.Song
	song.Gain = 0
	shaped, rate := song.Shape(sound), float64(sound.Rate())
	from, to := song.Sounding()
	from, to = math.Max(from, -song.Offset), math.Min(to, b.Rate.Seconds(b.Frames())-song.Offset)
	first, last := max(0, int(math.Ceil(from*rate))), min(sound.Len(), int(math.Ceil(to*rate)))
	const block = 1 << 14
	buffer := make([][]float32, sound.Channels())
	for ch := range buffer {
		buffer[ch] = make([]float32, block)
	}
	var p Peak
	for at := first; at < last; at += block {
		if err := ctx.Err(); err != nil {
			return Peak{}, err
		}
		n := min(block, last-at)
		for ch := range buffer {
			buffer[ch] = buffer[ch][:n]
		}
		shaped.Read(buffer, at)
		for _, ch := range buffer {
			for i, v := range ch {
				if a := math.Abs(float64(v)); a > p.Level {
					p = Peak{a, float64(at+i) / rate}
				}
			}
		}
	}
	return p, nil
}

// loud finds a song that is louder than full scale. Up to a decibel over is
// worth a look, more is heard (common practice).
func (l look) loud() []Finding {
	if l.Song == nil || l.Peak == nil {
		return nil
	}
	over := 20*math.Log10(l.Peak.Level) + l.Song.Gain
	if !(over > 1e-6) {
		return nil
	}
	n := min(max(0, l.Rate.At(l.Peak.Second+l.Song.Offset)), l.starts[len(l.Panels)]-1)
	f := Finding{ID: IDOf(Loud, 0), Kind: Loud, Severity: Hint, Span: board.Span{Start: n, End: n + 1}}
	if over > 1 {
		f.Severity = Fault
	}
	f.What = fmt.Sprintf("has a song that is %.1f dB louder than full scale", over)
	f.Why = "What is louder than full scale is cut off and sounds harsh."
	f.Source = "common practice"
	if gain := math.Floor(10*(l.Song.Gain-over)) / 10; gain >= board.MinGain {
		e := board.SetGain(gain)
		e.Name, e.Merge = "make the song softer", ""
		f.Mend = l.works(e)
	}
	return []Finding{f}
}

// silent finds a film that goes on after its song.
func (l look) silent() []Finding {
	if l.Song == nil {
		return nil
	}
	limit := l.Silence
	if limit <= 0 {
		limit = 0.5
	}
	_, to := l.Song.Sounding()
	end, last := l.Rate.Nearest(l.Song.Offset+to), l.starts[len(l.Panels)]
	if l.Rate.Seconds(last-end) <= limit {
		return nil
	}
	f := Finding{ID: IDOf(SongEnds, 0), Kind: SongEnds, Severity: Hint, Span: board.Span{Start: max(0, end), End: last}}
	f.What = fmt.Sprintf("goes on for %.1f s after its song", l.Rate.Seconds(last-end))
	f.Why = "The end of the film is silent."
	f.Source = "common practice"
	e := board.SetStart(len(l.Panels), board.Free(l.Rate.Seconds(end)))
	e.Name = "end the film with its song"
	f.Mend = l.works(e)
	return []Finding{f}
}
