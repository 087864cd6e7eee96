package board

import (
	"fmt"
	"math"
	"slices"
)

// Slowest and fastest tempo a grid can be set to, in beats per minute.
const (
	MinTempo = 10
	MaxTempo = 600
)

// ClickSeconds is the least length of the click of a film without a song.
const ClickSeconds = 10 * 60

// SetTempo lays a steady tempo in beats per minute, with a beat that starts a
// bar at second at of the song (of the film if it has none). The beats reach
// from the song's start to its end; without a song from the film's start to
// its end, ClickSeconds at least. All count as set by hand.
//
// Anchored starts keep their place in the count: the beat at the given second
// is the same as before, and those around it are counted from there, twice,
// half, 3/2 or 2/3 as many if that is how the new tempo lies to the old. Over
// a song, a tempo that lies otherwise takes each start to the beat nearest in
// time.
func SetTempo(bpm, at float64) Edit {
	return steady(fmt.Sprintf("tempo %.4g", bpm), bpm, at)
}

// SetClick lays a film click: SetTempo in frames and eighths.
func SetClick(c Click, at float64) Edit { return steady("film click "+c.String(), c.BPM(), at) }

func steady(name string, bpm, at float64) Edit {
	return Edit{Name: name, Apply: func(b Board) (Board, error) {
		if !(bpm >= MinTempo && bpm <= MaxTempo) {
			return b, fmt.Errorf("a tempo of %.4g is outside %d to %d beats a minute", bpm, MinTempo, MaxTempo)
		}
		if !finite(at, MaxSeconds) {
			return b, fmt.Errorf("a beat at %g seconds is outside the film", at)
		}
		g, zero := b.steadyGrid(bpm, at)
		out := b
		out.Grid = g
		num, den, ok := b.tempoRatio(bpm)
		if !ok {
			return out.reanchored(b).checked(b)
		}
		was := b.Grid.Near(at, 1).Beat
		return b.regridded(g, scaled(num, den, num*was-den*zero)).checked(b)
	}}
}

// steadyGrid returns the grid of SetTempo and the index of the beat at the
// given second.
func (b Board) steadyGrid(bpm, at float64) (Grid, int) {
	length := max(ClickSeconds, b.Rate.Seconds(b.Frames()))
	if b.Song != nil && b.Song.Seconds > 0 {
		length = min(b.Song.Seconds, MaxSeconds)
	}
	beat := 60 / bpm
	first := int(math.Ceil(-at/beat - 1e-9))
	last := max(first+1, int(math.Floor((length-at)/beat+1e-9)))
	metre := b.Grid.Metre
	if !barLength(metre) {
		metre = 4
	}
	g := Grid{Tempo: bpm, Confidence: 1, Metre: metre, Onsets: b.Grid.Onsets, Locks: b.Grid.Locks}
	for k := first; k <= last; k++ {
		g.Beats = append(g.Beats, Beat{Time: at + float64(k)*beat, Bar: k%metre == 0, Hand: true})
	}
	return g, -first
}

// ratios are the ways in which one count of the same music lies to another.
var ratios = [][2]int{{1, 1}, {2, 1}, {1, 2}, {3, 2}, {2, 3}}

// tempoRatio returns how a tempo lies to that of the grid, to an eighth, and
// false if it lies otherwise. Without a song there is nothing but the count.
func (b Board) tempoRatio(bpm float64) (num, den int, ok bool) {
	switch {
	case !b.OnGrid():
		return 0, 0, false
	case b.Song == nil:
		return 1, 1, true
	}
	for _, r := range ratios {
		if off := bpm * float64(r[1]) / (b.Grid.tempo() * float64(r[0])); off > 8.0/9 && off < 9.0/8 {
			return r[0], r[1], true
		}
	}
	return 0, 0, false
}

// tempo returns the beats per minute of the median interval of a grid that is
// not empty.
func (g Grid) tempo() float64 {
	gaps := make([]float64, len(g.Beats)-1)
	for i := range gaps {
		gaps[i] = g.Beats[i+1].Time - g.Beats[i].Time
	}
	slices.Sort(gaps)
	return 60 / gaps[len(gaps)/2]
}

// ScaleTempo multiplies the tempo by 2, 1/2, 3/2 or 2/3. New beats are put
// between the old ones in proportion, so that changes of tempo stay. Bars keep
// their number of beats and are counted again from where that number begins or
// changes, so that a downbeat stays one where it can; the first always does.
// Anchored starts stay at their place in the music: twice as fast, beat k is
// beat 2k; half as fast, beat k/2, or half a beat later where k is odd. All
// beats count as set by hand.
func ScaleTempo(num, den int) Edit {
	return Edit{Name: fmt.Sprintf("tempo times %d/%d", num, den), Apply: func(b Board) (Board, error) {
		if num == den || !slices.Contains(ratios, [2]int{num, den}) {
			return b, fmt.Errorf("the tempo can be multiplied by 2, 1/2, 3/2 and 2/3, not by %d/%d", num, den)
		}
		if !b.OnGrid() {
			return b, errNoBeats
		}
		g, shift := b.Grid.scaled(num, den)
		if g.Empty() {
			return b, fmt.Errorf("%d beats are too few to take out any", len(b.Grid.Beats))
		}
		return b.regridded(g, scaled(num, den, shift)).checked(b)
	}}
}

// scaled returns the grid with num beats in the place of den. Beat j of it is
// at place (den*j + shift) / num of g: the shift lays a beat on the first
// downbeat.
func (g Grid) scaled(num, den int) (Grid, int) {
	shift := num * max(0, slices.IndexFunc(g.Beats, func(b Beat) bool { return b.Bar })) % den
	out := g
	out.Tempo = g.Tempo * float64(num) / float64(den)
	out.Beats = nil
	for at := shift; at <= num*(len(g.Beats)-1); at += den {
		k, part := at/num, at%num
		out.Beats = append(out.Beats, Beat{Time: g.Time(k, part, num), Hand: true})
	}
	runs := g.runs()
	for i, r := range runs {
		from, to := (num*r.first-shift+den-1)/den, len(out.Beats)
		if i+1 < len(runs) {
			to = min(to, (num*runs[i+1].first-shift+den-1)/den)
		}
		for k := from; k < to; k += r.beats {
			out.Beats[k].Bar = true
		}
		if r.hand && from < to {
			out.Beats[from].Metre = r.beats
		}
	}
	return out, shift
}
