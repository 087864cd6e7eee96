package audio

import (
	"fmt"
	"sync"

	"stillbeat/audio/clip"
)

// relay is a sink that has another one work on a goroutine of its own, a few
// blocks behind, so that the decoder need not wait for it.
type relay struct {
	sink clip.Sink
	full chan [][]float32
	free chan [][]float32
	work sync.WaitGroup

	mu  sync.Mutex
	err error // of the sink
}

// blocksAhead is how many blocks the decoder may be ahead.
const blocksAhead = 8

func newRelay(sink clip.Sink) *relay { return &relay{sink: sink} }

func (r *relay) Begin(info clip.Info) error {
	if err := r.sink.Begin(info); err != nil {
		return err
	}
	r.full, r.free = make(chan [][]float32, blocksAhead), make(chan [][]float32, blocksAhead)
	for range blocksAhead {
		r.free <- make([][]float32, info.Channels)
	}
	full := r.full // stop forgets it
	r.work.Go(func() {
		for block := range full {
			if r.failure() == nil {
				r.add(block)
			}
			r.free <- block
		}
	})
	return nil
}

// add hands the sink a block. A panic would end the program here, where the
// decoder's own guard does not reach.
func (r *relay) add(block [][]float32) {
	err := func() (err error) {
		defer func() {
			if p := recover(); p != nil {
				err = fmt.Errorf("something went wrong while the sound was measured: %v", p)
			}
		}()
		return r.sink.Add(block)
	}()
	r.mu.Lock()
	defer r.mu.Unlock()
	r.err = err
}

func (r *relay) failure() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.err
}

func (r *relay) Add(block [][]float32) error {
	if err := r.failure(); err != nil {
		return err
	}
	b := <-r.free
	for ch := range b {
		b[ch] = append(b[ch][:0], block[ch]...)
	}
	r.full <- b
	return nil
}

// stop waits for the sink and ends the goroutine. It may be called twice.
func (r *relay) stop() {
	if r.full != nil {
		close(r.full)
		r.full = nil
	}
	r.work.Wait()
}

func (r *relay) End() error {
	r.stop()
	if r.err != nil {
		return r.err
	}
	return r.sink.End()
}
