// Package beat finds the tempo, the beats and the bars of a sound.
package beat

import (
	"context"

	"stillbeat/audio/onset"
)

// Options sets the analysis. The zero value is ready to use.
type Options struct {
	Progress func(done float64) // told the part done, 0..1, from any goroutine; may be nil
}

// Range is a stretch of time, seconds.
type Range struct{ From, To float64 }

// Result is what Analyse found. Times are seconds from the first sample.
type Result struct {
	Tempo      float64       // median, BPM; 0 without a steady beat
	Confidence float64       // 0 no steady beat .. 1 beyond doubt
	Metre      int           // beats in a bar, 0 if unknown
	Beats      []float64     // ascending; empty without a steady beat
	Downbeats  []float64     // first beats of bars, a subset of Beats
	Onsets     []onset.Onset // hits, ascending
	Unsure     []Range       // where the beats are doubtful
}

// Analyse finds the beats of mono, sampled at rate Hz. It fails if the rate
// is outside 8000 to 192000 Hz or ctx ends.
func Analyse(ctx context.Context, mono []float32, rate int, opts Options) (*Result, error) {
	tell := func(from, to float64) func(float64) {
		return func(done float64) {
			if opts.Progress != nil {
				opts.Progress(from + (to-from)*done)
			}
		}
	}
	env, err := onset.Measure(ctx, mono, rate, tell(0, 0.7))
	if err != nil {
		return nil, err
	}
	return Track(ctx, env, tell(0.7, 1))
}

// Track finds the beats of a sound from its envelopes.
func Track(ctx context.Context, env *onset.Envelope, progress func(float64)) (*Result, error) {
	r := &Result{Onsets: env.Onsets()}
	if env.Frames() < 2*onset.FrameRate || env.Colour[0] == nil {
		return r, ctx.Err()
	}
	f := newFeatures(env)
	ev := newEvidence(f)
	beats, _ := decode(ctx, ev, newTempogram(f), env.Frames(), shortest, longest)
	g := newGrid(f, beats)
	g.change = beatChange(env.Colour, beats)
	var phase int
	r.Metre, phase = g.bars()
	r.Beats = align(env.Sum, beats, 3)
	for i := phase; i < len(beats); i += r.Metre {
		r.Downbeats = append(r.Downbeats, r.Beats[i])
	}
	r.Tempo = 60 * float64(len(beats)-1) / (r.Beats[len(beats)-1] - r.Beats[0])
	return r, ctx.Err()
}
