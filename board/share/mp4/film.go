package mp4

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"math"
	"os"
)

// filmWriter writes the media of one film.
type filmWriter struct {
	ctx      context.Context
	film     Film
	plan     *plan
	progress func(float64)

	out             *counter
	coder           *coder
	drawer          *drawer
	cut             int // cuts drawn so far
	packets         *packets
	pictures, sound *track
}

// writeFilm writes the whole file to f: first the media, behind a gap of the
// index's size, then the index into the gap.
func writeFilm(ctx context.Context, f *os.File, film Film, p *plan, opts Options) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	w := &filmWriter{ctx: ctx, film: film, plan: p, progress: opts.Progress, pictures: newTrack(p.layout.pictures)}
	if p.audioRate > 0 {
		soundCtx, stop := context.WithCancel(ctx)
		w.sound = newTrack(p.layout.packets)
		w.packets = codeSound(soundCtx, newSoundtrack(film.Sound, p.audioRate), p)
		defer func() { // leave no goroutine behind
			stop()
			for range w.packets.ch {
			}
		}()
	}
	gap, err := head(p, w.pictures, w.sound, 0)
	if err != nil {
		return err
	}
	if _, err := f.Seek(int64(len(gap)), io.SeekStart); err != nil {
		return err
	}
	buffer := bufio.NewWriterSize(f, 1<<18)
	w.out = &counter{w: buffer, n: int64(len(gap))}
	if err := w.media(); err != nil {
		return err
	}
	if err := buffer.Flush(); err != nil {
		return err
	}
	if w.out.n > math.MaxUint32 && !p.large {
		return errors.New("the file grew past what its index can hold")
	}
	second := int((p.timescale + p.tick - 1) / p.tick)
	if p.level, err = levelFor(film.Width, film.Height, int64(p.timescale), int64(p.tick), busiest(w.pictures.sizes, second)); err != nil {
		return err
	}
	index, err := head(p, w.pictures, w.sound, w.out.n-int64(len(gap)))
	if err != nil {
		return err
	}
	if len(index) != len(gap) {
		return errors.New("the index does not fit its gap")
	}
	_, err = f.WriteAt(index, 0)
	return err
}

// media writes all chunks.
func (w *filmWriter) media() (err error) {
	if w.coder, err = newCoder(w.plan); err != nil {
		return err
	}
	defer w.coder.close()
	w.drawer = newDrawer(w.ctx, w.film, w.plan)
	defer w.drawer.close()
	frame := int64(0)
	for i, n := range w.plan.layout.pictures {
		for j := range n {
			sample, err := w.frame(frame)
			if err != nil {
				return err
			}
			if err := w.put(w.pictures, sample, j == 0); err != nil {
				return err
			}
			frame++
		}
		for j := range w.plan.layout.packets[i] {
			packet, err := w.packets.next()
			if err != nil {
				return err
			}
			if err := w.put(w.sound, packet, j == 0); err != nil {
				return err
			}
		}
		if w.progress != nil {
			w.progress(float64(frame) / float64(len(w.plan.steps)))
		}
	}
	return nil
}

// put writes a sample of a track; first says that it starts a chunk.
func (w *filmWriter) put(t *track, sample []byte, first bool) error {
	t.add(sample, w.out.n, first)
	_, err := w.out.Write(sample)
	return err
}

// frame returns the sample of frame n; frames are asked for in order.
func (w *filmWriter) frame(n int64) ([]byte, error) {
	if err := w.ctx.Err(); err != nil {
		return nil, err
	}
	if w.cut < len(w.film.Cuts) && w.film.Cuts[w.cut] == n {
		if err := w.drawer.next(); err != nil {
			return nil, err
		}
		w.cut++
	}
	if w.plan.steps[n] == hold {
		return w.coder.held(), nil
	}
	sample, err := w.coder.picture(w.drawer.up.out, w.plan.steps[n] == key)
	if err != nil {
		return nil, fmt.Errorf("frame %d: %w", n, err)
	}
	return sample, nil
}

// drawInto asks for the picture of frame n and converts it.
func drawInto(ctx context.Context, c *converter, film Film, n int64) error {
	img, err := film.Picture(ctx, n)
	if err != nil {
		return fmt.Errorf("picture of frame %d: %w", n, err)
	}
	if img == nil {
		return fmt.Errorf("picture of frame %d: there is none", n)
	}
	if size := img.Bounds().Size(); size != image.Pt(film.Width, film.Height) {
		return fmt.Errorf("picture of frame %d: it measures %dx%d, not %dx%d", n, size.X, size.Y, film.Width, film.Height)
	}
	c.convert(img)
	return nil
}

// counter counts what passes through to w.
type counter struct {
	w io.Writer
	n int64
}

func (c *counter) Write(p []byte) (int, error) {
	n, err := c.w.Write(p)
	c.n += int64(n)
	return n, err
}
