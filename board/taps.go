package board

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// TapOptions sets the fit of FitTaps. The zero value fits a steady tempo and
// takes the taps as they come.
type TapOptions struct {
	// Follow fits a tempo that changes; else it is steady.
	Follow bool
	// Reference holds beats or onsets of the song, ascending, in seconds.
	// The taps' constant lateness against it is taken off.
	Reference []float64
}

// TapFit is what FitTaps found.
type TapFit struct {
	Beats   []float64 // seconds of song, from the first tap that counts to the last, missed ones filled in
	Tempo   float64   // beats per minute, the mean if it changes
	Late    float64   // seconds taken off: by how much the taps were late, negative if early
	Matched int       // beats found in the reference, 0: lateness not measured
	Used    int       // taps that count
	Spread  float64   // seconds, the standard deviation of those taps about the beats
	Follow  bool      // the tempo changes
}

// MinTaps is the least number of taps that say a tempo.
const MinTaps = 4

var (
	errUneven   = errors.New("the taps keep no steady count: tap along once more")
	errChanging = errors.New("the taps change too much for one tempo: fit a tempo that follows them")
)

// FitTaps finds the beats meant by taps at the given seconds of song, in any
// order. Double taps and stray ones are left out; two taps two beats apart
// count as one missed between them. The errors are that fewer than MinTaps
// are left, that they keep no count, at least every second beat tapped, or
// that a steady tempo is asked for where they change theirs.
func FitTaps(taps []float64, opt TapOptions) (TapFit, error) {
	times, err := tidyTaps(taps)
	if err != nil {
		return TapFit{}, err
	}
	counted := countTaps(times)
	last := counted[len(counted)-1].n
	if len(counted) < MinTaps || 2*len(counted) < max(len(times), last+1) {
		return TapFit{}, errUneven
	}
	fit := TapFit{Used: len(counted), Follow: opt.Follow}
	var place func(n float64) float64
	if opt.Follow {
		place = local(counted)
	} else {
		place = straight(counted)
	}
	fit.Beats = make([]float64, last+1)
	for n := range fit.Beats {
		fit.Beats[n] = place(float64(n))
		if n > 0 && fit.Beats[n]-fit.Beats[n-1] < MinBeat+slack {
			return TapFit{}, errUneven
		}
	}
	period := (fit.Beats[last] - fit.Beats[0]) / float64(last)
	fit.Tempo = 60 / period
	var sum float64
	for _, t := range counted {
		sum += (t.at - fit.Beats[t.n]) * (t.at - fit.Beats[t.n])
	}
	fit.Spread = math.Sqrt(sum / float64(len(counted)))
	if !opt.Follow && fit.Spread > stray/2*period {
		return TapFit{}, errChanging
	}
	fit.Late, fit.Matched = lateness(fit.Beats, opt.Reference, period)
	for n := range fit.Beats {
		fit.Beats[n] -= fit.Late
	}
	return fit, nil
}

// MaxTaps is the most taps a fit takes.
const MaxTaps = 20000

// tidyTaps returns the taps in order without the second of each double tap.
func tidyTaps(taps []float64) ([]float64, error) {
	if len(taps) > MaxTaps {
		return nil, fmt.Errorf("%d taps: at most %d are fitted", len(taps), MaxTaps)
	}
	times := slices.Clone(taps)
	slices.Sort(times)
	for _, t := range times {
		if !finite(t, MaxSeconds) {
			return nil, fmt.Errorf("a tap at %g seconds is outside the film", t)
		}
	}
	out := times[:0]
	for _, t := range times {
		if len(out) == 0 || t-out[len(out)-1] >= 60.0/MaxTempo {
			out = append(out, t)
		}
	}
	if len(out) < MinTaps {
		return nil, fmt.Errorf("%d taps are too few to say a tempo: tap %d times or more", len(out), MinTaps)
	}
	return out, nil
}

// LayTaps lays the beats of a fit. Steady ones become the tempo of the whole
// song, the first of them starting a bar, as by SetTempo. Those that follow
// the music are beats set by hand where they were tapped, and the grid around
// them stays; anchored starts go to the place nearest in time.
func LayTaps(fit TapFit) Edit {
	name := "tapped beats"
	return Edit{Name: name, Apply: func(b Board) (Board, error) {
		if len(fit.Beats) < 2 {
			return b, errNoBeats
		}
		if !fit.Follow {
			return steady(name, fit.Tempo, fit.Beats[0]).Apply(b)
		}
		tapped := NewGrid(fit.Beats, nil)
		for i := range tapped.Beats {
			tapped.Beats[i].Hand = true
		}
		for i, was := range b.Grid.Beats { // bars stay on the beats they are on
			if twin := b.Grid.twin(i, tapped.Beats); twin >= 0 && nearestBeat(b.Grid.Beats, tapped.Beats[twin].Time) == i {
				tapped.Beats[twin].Bar, tapped.Beats[twin].Metre = was.Bar, was.Metre
			}
		}
		if err := tapped.check(); err != nil {
			return b, err
		}
		out := b
		out.Grid = tapped.merged(b.Grid)
		out.Grid.Locks = b.Grid.Locks
		out.Grid.Unsure = without(b.Grid.Unsure, Stretch{fit.Beats[0], fit.Beats[len(fit.Beats)-1]})
		return out.reanchored(b).checked(b)
	}}
}
