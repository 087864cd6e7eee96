package onset

import (
	"context"
	"fmt"
	"math"
	"sync"

	"stillbeat/audio/clip"
)

const (
	lowestSound, highestSound = 8000, 192000 // Hz, rates that are measured

	// chunk is the number of frames measured in one go; a multiple of
	// FrameRate/ColourRate, so that no two chunks share a row of Colour.
	chunk = 500
	// workers is the number of chunks measured at a time.
	workers = 2
)

// Intake measures a sound while it comes in, as a clip.Sink. It keeps no
// samples but one filter bank of magnitudes a frame: 50 kB a second of sound.
// Only when the sound's level is known, at its end, are they brought to one
// loudness and their logarithms compared.
type Intake struct {
	rate    int
	mono    []float32 // scratch: the block as one channel
	halvers []*halver
	halved  [2][]float32 // scratch of halve
	length  int          // samples that came in
	squares float64      // of those, summed

	tail   []float32    // samples at the halved rate, from first on
	first  int          // place of tail[0] in the sound
	pieces []*piece     // in order
	free   chan *worker // those that have nothing to do
	timing *worker      // for its places; does no work
	busy   sync.WaitGroup
}

// piece is what was measured of chunk rows. Row r is that of frame r-half,
// since frames before the first and after the last are compared with too.
type piece struct {
	rows  []float32 // [row][filter] magnitudes, later their logarithms
	fine  []float32 // power
	scale float64   // magnitudes are those of the sound times scale
}

// Begin makes the intake ready for a sound of the given rate. It fails if the
// rate is outside 8000 to 192000 Hz.
func (in *Intake) Begin(info clip.Info) error {
	if info.Rate < lowestSound || info.Rate > highestSound {
		return fmt.Errorf("onset: a rate of %d Hz is outside %d to %d", info.Rate, lowestSound, highestSound)
	}
	*in = Intake{rate: info.Rate, free: make(chan *worker, workers)}
	for range halvings(info.Rate) {
		in.halvers = append(in.halvers, newHalver())
	}
	in.timing = newWorker(info.Rate)
	in.free <- in.timing
	for range workers - 1 {
		in.free <- newWorker(info.Rate)
	}
	in.first, _ = in.timing.span(0)
	in.take(in.halve(make([]float32, -in.first<<len(in.halvers))))
	return nil
}

// Add takes the next samples, [channel][sample], whose mean is measured. What
// is not finite counts as 0.
func (in *Intake) Add(block [][]float32) error {
	in.mix(block)
	var sums [4]float64 // added up side by side, which is faster
	x := in.mono
	for ; len(x) >= len(sums); x = x[len(sums):] {
		for k := range sums {
			v := float64(x[k])
			sums[k] += v * v
		}
	}
	for _, v := range x {
		sums[0] += float64(v) * float64(v)
	}
	in.squares += sums[0] + sums[1] + sums[2] + sums[3]
	in.length += len(in.mono)
	in.take(in.halve(in.mono))
	return nil
}

// End does nothing: see Envelope.
func (in *Intake) End() error { return nil }

// mix writes the mean of the channels to in.mono.
func (in *Intake) mix(block [][]float32) {
	first := block[0]
	in.mono = grown(in.mono, len(first))
	mono := in.mono
	switch len(block) {
	case 1:
		copy(mono, first)
	case 2:
		for i, v := range block[1][:len(mono)] {
			mono[i] = 0.5*first[i] + 0.5*v
		}
	default:
		gain := 1 / float32(len(block))
		clear(mono)
		for _, ch := range block {
			for i, v := range ch[:len(mono)] {
				mono[i] += v * gain
			}
		}
	}
	for i, v := range mono {
		if v-v != 0 { // infinite or no number
			mono[i] = 0
		}
	}
}

// grown returns n values, those of buf if it is large enough.
func grown(buf []float32, n int) []float32 {
	if cap(buf) < n {
		return make([]float32, n)
	}
	return buf[:n]
}

// halve passes x through all halvers.
func (in *Intake) halve(x []float32) []float32 {
	for i, h := range in.halvers {
		in.halved[i%2] = h.add(in.halved[i%2][:0], x)
		x = in.halved[i%2]
	}
	return x
}

// take appends samples at the halved rate and has measured what is whole.
func (in *Intake) take(x []float32) {
	in.tail = append(in.tail, x...)
	for {
		if _, end := in.timing.span(len(in.pieces)); in.first+len(in.tail) < end {
			return
		}
		in.measure()
	}
}

// measure has the next chunk measured, on another goroutine.
func (in *Intake) measure() {
	n := len(in.pieces)
	start, end := in.timing.span(n)
	p := &piece{}
	in.pieces = append(in.pieces, p)
	w := <-in.free
	w.samples = append(w.samples[:0], in.tail[:end-start]...)
	in.busy.Go(func() {
		w.measure(p, n)
		in.free <- w
	})
	next, _ := in.timing.span(n + 1)
	in.tail = in.tail[:copy(in.tail, in.tail[next-start:])]
	in.first = next
}

// finish has the end of the sound measured, up to the last of so many rows,
// with silence after it.
func (in *Intake) finish(rows int) {
	silence := make([]float32, in.rate)
	for len(in.pieces)*chunk < rows {
		in.take(in.halve(silence))
	}
	in.busy.Wait()
}

// Envelope returns the envelopes of the sound that came in; the intake is
// used up. It fails if ctx ends.
func (in *Intake) Envelope(ctx context.Context) (*Envelope, error) {
	e := newEnvelope(in.length, in.rate, math.Sqrt(in.squares/float64(max(1, in.length))))
	frames := len(e.Sum)
	if e.Silent() {
		in.busy.Wait()
		return e, ctx.Err()
	}
	in.finish(frames + lag)
	in.each(ctx, func(_ *worker, n int) { in.pieces[n].level(e, n) })
	in.each(ctx, func(w *worker, n int) {
		w.out = e
		for f := n * chunk; f < min((n+1)*chunk, frames); f++ {
			w.recent[lag], w.recent[0] = in.row(w, f), in.row(w, f+lag)
			w.rise(f)
			w.recent[0] = in.row(w, f+half)
			w.colour(f)
		}
	})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return e, nil
}

// row returns row r.
func (in *Intake) row(w *worker, r int) []float32 {
	return in.pieces[r/chunk].rows[r%chunk*len(w.bank):][:len(w.bank)]
}

// each calls work for each piece, several at a time, until ctx ends.
func (in *Intake) each(ctx context.Context, work func(w *worker, piece int)) {
	for n := range in.pieces {
		if ctx.Err() != nil {
			break
		}
		w := <-in.free
		in.busy.Go(func() {
			work(w, n)
			in.free <- w
		})
	}
	in.busy.Wait()
}

// level brings the piece to the loudness of a sound of RMS 1: the rows become
// logarithms, and the power goes to e.
func (p *piece) level(e *Envelope, n int) {
	gain := 1 / (e.Level * p.scale)
	for i, v := range p.rows {
		p.rows[i] = float32(math.Log10(1 + loudness*gain*float64(v)))
	}
	const per = FineRate / FrameRate
	first := n*chunk - half
	for i, v := range p.fine {
		if k := first*per + i; k >= 0 && k < len(e.Fine) {
			e.Fine[k] = float32(float64(v) * gain * gain)
		}
	}
}
