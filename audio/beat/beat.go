// Package beat finds the tempo, the beats and the bars of a sound.
//
// A moment of music looks different on a downbeat, on another beat, halfway
// between two, and elsewhere: so says a small table of mean onset strengths by
// band (strengths). The beats are the path through a state space of tempo and
// position in the beat under which the sound is most likely by that table, by
// how well it repeats after a beat and its multiples, and by a tempo prior. The
// path is held to one tempo (hold), and bars, chord changes and swing tell
// whether its beats, twice or half as many or those between are counted
// (reread).
package beat

import (
	"context"
	"slices"
	"sync"

	"stillbeat/audio/onset"
)

// Options sets the analysis. The zero value is ready to use.
type Options struct {
	// Progress is told the part done, 0..1, rising, one call at a time, not
	// always from the same goroutine. It may be nil.
	Progress func(done float64)
}

// Range is a stretch of time, seconds.
type Range struct{ From, To float64 }

// Result is what was found. Times are seconds from the first sample.
type Result struct {
	Tempo      float64       // BPM, from the median interval; 0 without a steady beat
	Confidence float64       // 0 (no steady beat) .. 1 (steady and clear throughout)
	Metre      int           // beats in a bar, 0 if unknown
	Beats      []float64     // ascending; empty without a steady beat
	Downbeats  []float64     // first beats of bars, among Beats
	Onsets     []onset.Onset // hits, ascending
	Unsure     []Range       // where the beats are doubtful, ascending, within the sound
}

// measured is the part of the work the envelopes are.
const measured = 0.6

// Analyse finds the beats of mono, sampled at rate Hz. It fails if the rate is
// outside 8000 to 192000 Hz or ctx ends. A sound without a steady beat is no
// failure: its Beats are empty.
func Analyse(ctx context.Context, mono []float32, rate int, opts Options) (*Result, error) {
	tell := func(done float64) {
		if opts.Progress != nil {
			opts.Progress(done)
		}
	}
	env, err := onset.Measure(ctx, mono, rate, func(done float64) { tell(measured * done) })
	if err != nil {
		return nil, err
	}
	tell(measured)
	r, err := Track(ctx, env)
	if err != nil {
		return nil, err
	}
	tell(1)
	return r, nil
}

// shortestSound is the length, frames, below which no beat is looked for.
const shortestSound = 3 * onset.FrameRate

// Track finds the beats of a sound from its envelopes. It fails if ctx ends.
func Track(ctx context.Context, env *onset.Envelope) (*Result, error) {
	r := &Result{}
	if env.Silent() || len(env.Sum) < shortestSound {
		r.Onsets = env.Onsets()
		return r, ctx.Err()
	}
	var beside sync.WaitGroup
	beside.Go(func() { r.Onsets = env.Onsets() })
	f := newFeatures(env)
	tg := newTempogram(f)
	ev := newEvidence(f)
	beside.Wait()
	beats, err := decode(ctx, ev, tg)
	if err != nil {
		return nil, err
	}
	if beats, err = hold(ctx, ev, tg, beats); err != nil {
		return nil, err
	}
	beats = audible(env, beats)
	if len(beats) > 1 {
		beats = reread(f, env, ev, beats)
	}
	strength := measure(f, env, beats)
	local := steadiness(tg, beats)
	if len(r.Onsets)*beatsForOnset < len(beats) || !isSteady(local, strength) {
		return r, nil
	}
	r.Beats = align(env, beats)
	r.Confidence = confidence(local)
	r.Unsure = unsure(local, r.Beats, env.Seconds)
	r.Tempo = 60 / medianInterval(r.Beats)
	metre, first := bars(strength)
	r.Metre = metre
	for i := first; metre > 0 && i < len(r.Beats); i += metre {
		r.Downbeats = append(r.Downbeats, r.Beats[i])
	}
	return r, nil
}

// audible returns the beats, frames, at which there is something to hear.
func audible(env *onset.Envelope, beats []int) []int {
	const before = 0.05 // seconds a beat may precede the sound
	from, to := env.Audible()
	return slices.DeleteFunc(beats, func(b int) bool {
		t := float64(b) / onset.FrameRate
		return t < from-before || t > to
	})
}

// medianInterval returns the median distance between neighbouring times.
func medianInterval(times []float64) float64 {
	var d []float64
	for i := 1; i < len(times); i++ {
		d = append(d, times[i]-times[i-1])
	}
	slices.Sort(d)
	return (d[(len(d)-1)/2] + d[len(d)/2]) / 2
}
