package share

import (
	"bufio"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"os"

	"stillbeat/board"
	"stillbeat/board/beside"
	"stillbeat/board/share/mp4"
)

// WAV writes the sound of b to path as it is heard under the film: stereo, 16
// bits, at 44.1 or 48 kHz, silent where there is no song, and as long as the
// film to a sample. It is, sample by sample, what MP4 codes. It fails as MP4
// does, and with ErrNoSound where there is nothing to hear.
func WAV(ctx context.Context, path string, b board.Board, sound board.Sound, opts Options) error {
	pcm, err := wavSound(b, sound, opts)
	if err != nil {
		return err
	}
	err = beside.File(path, func(f *os.File) error { return writeWAV(ctx, f, pcm, opts.Progress) })
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	return nil
}

// Bytes of a WAV file: what stands before the samples, and one for each ear.
const wavHead, wavFrame = 44, 4

// writeWAV writes a RIFF WAVE file of PCM (Microsoft and IBM, Multimedia
// Programming Interface 1.0).
func writeWAV(ctx context.Context, f io.Writer, pcm *mp4.PCM, progress func(float64)) error {
	if pcm.Len > (math.MaxUint32-wavHead)/wavFrame {
		return errors.New("the film is too long for a WAV file")
	}
	le, data := binary.LittleEndian, uint32(pcm.Len*wavFrame)
	h := le.AppendUint32([]byte("RIFF"), wavHead-8+data)
	h = le.AppendUint32(append(h, "WAVEfmt "...), 16)
	h = le.AppendUint16(le.AppendUint16(h, 1), 2) // PCM, two channels
	h = le.AppendUint32(le.AppendUint32(h, uint32(pcm.Rate)), uint32(pcm.Rate*wavFrame))
	h = le.AppendUint16(le.AppendUint16(h, wavFrame), 16)
	h = le.AppendUint32(append(h, "data"...), data)
	out := bufio.NewWriterSize(f, 1<<16)
	out.Write(h)
	var block [2 * 4096]int16
	bytes := make([]byte, 0, 2*len(block))
	for at := int64(0); at < pcm.Len; at += int64(len(block) / 2) {
		if err := ctx.Err(); err != nil {
			return err
		}
		samples := block[:2*min(int64(len(block)/2), pcm.Len-at)]
		pcm.Read(samples, at)
		bytes = bytes[:0]
		for _, v := range samples {
			bytes = le.AppendUint16(bytes, uint16(v))
		}
		if _, err := out.Write(bytes); err != nil {
			return err
		}
		if progress != nil {
			progress(float64(at+int64(len(samples)/2)) / float64(pcm.Len))
		}
	}
	return out.Flush()
}
