package wav

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"math"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/guard"
)

// Encode writes c as 16-bit PCM, its title as LIST INFO INAM. Values are
// rounded to the nearest step; those outside -1..1 are clipped.
func Encode(w io.Writer, c *clip.Clip) error {
	if err := clip.CheckFormat(c.Rate, c.Channels()); err != nil {
		return fmt.Errorf("write WAV: %w", err)
	}
	const headerBytes, valueBytes = 36, 2
	info := infoChunk(c.Title)
	frame := c.Channels() * valueBytes
	dataBytes := c.Len() * frame
	if dataBytes > math.MaxUint32-headerBytes-len(info) {
		return fmt.Errorf("write WAV: %w", clip.ErrTooLong)
	}

	le := binary.LittleEndian
	h := append([]byte("RIFF"), 0, 0, 0, 0)
	le.PutUint32(h[4:], uint32(headerBytes+len(info)+dataBytes))
	h = append(h, "WAVEfmt \x10\x00\x00\x00"...)
	h = le.AppendUint16(h, tagPCM)
	h = le.AppendUint16(h, uint16(c.Channels()))
	h = le.AppendUint32(h, uint32(c.Rate))
	h = le.AppendUint32(h, uint32(c.Rate*frame))
	h = le.AppendUint16(h, uint16(frame))
	h = le.AppendUint16(h, 8*valueBytes)
	h = append(h, info...)
	h = append(h, "data"...)
	h = le.AppendUint32(h, uint32(dataBytes))

	out := bufio.NewWriter(w)
	out.Write(h) // the writer keeps the first error for Flush
	for i := range c.Len() {
		for _, ch := range c.Samples {
			v := uint16(quantise(ch[i]))
			out.WriteByte(byte(v))
			out.WriteByte(byte(v >> 8))
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("write WAV: %w", err)
	}
	return nil
}

// quantise is the inverse of readS16. What is not a number becomes silence.
func quantise(v float32) int16 {
	steps := math.Round(float64(guard.Tame(float64(v))) * (1 << 15))
	return int16(max(math.MinInt16, min(math.MaxInt16, steps)))
}

// infoChunk returns a LIST INFO chunk with the title, nothing for "".
func infoChunk(title string) []byte {
	if title == "" {
		return nil
	}
	text := append([]byte(title), 0)
	if len(text)%2 != 0 {
		text = append(text, 0)
	}
	b := append([]byte("LIST"), 0, 0, 0, 0)
	binary.LittleEndian.PutUint32(b[4:], uint32(len("INFOINAM")+4+len(text)))
	b = append(b, "INFOINAM"...)
	b = binary.LittleEndian.AppendUint32(b, uint32(len(text)))
	return append(b, text...)
}
