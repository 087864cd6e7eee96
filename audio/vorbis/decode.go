// Package vorbis reads Ogg Vorbis files.
//
// Layouts: RFC 3533, The Ogg Encapsulation Format, 2003; Xiph.Org, Vorbis I
// specification, 2020.
package vorbis

import (
	"bytes"
	"context"
	"errors"
	"fmt"

	"github.com/jfreymuth/vorbis"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/guard"
	"stillbeat/audio/internal/tags"
)

// Decode reads the Vorbis sound in an Ogg file, all links of it if it is
// chained. Sound that is cut short is read as far as it goes; damage before
// the end is an error that says where it is.
//
// progress, if not nil, is called with the part that is done, 0 to 1. Errors
// wrap clip.ErrFormat, ErrDamaged, ErrEmpty, ErrTooLong, ErrTooBig or the
// error of ctx.
func Decode(ctx context.Context, data []byte, progress func(done float64)) (*clip.Clip, error) {
	return guard.Decode("Vorbis", func() (*clip.Clip, error) {
		d := &decoder{size: len(data)}
		if err := d.decode(ctx, tags.SkipID3(data), progress); err != nil {
			return nil, err
		}
		return &d.clip, nil
	})
}

// decoder collects the sound of all links.
type decoder struct {
	clip clip.Clip
	size int // bytes in the whole file
	link *link
}

// link is one Vorbis stream.
type link struct {
	serial  uint32
	headers int // header packets seen
	dec     vorbis.Decoder
	buf     []float32
	open    []byte // packet that goes on in the next page

	start   int  // samples in the clip before this link
	placed  bool // the first granule position has been seen
	granule int  // granule position of sample start
}

const headerPackets = 3

func (d *decoder) decode(ctx context.Context, data []byte, progress func(float64)) error {
	meter := guard.NewMeter(ctx, len(data), progress)
	for len(data) > 0 {
		p, err := parsePage(data)
		if errors.Is(err, errPageEnd) || err != nil && d.link == nil && d.clip.Rate > 0 {
			break // cut short, or something else after the sound
		}
		if err != nil {
			return d.damage()
		}
		data = data[p.size:]
		if err := d.page(p); err != nil {
			return err
		}
		if err := meter.Add(p.size); err != nil {
			return err
		}
	}
	if d.clip.Rate == 0 {
		return fmt.Errorf("%w: there is no Vorbis sound in it", clip.ErrFormat)
	}
	meter.Finish()
	return nil
}

// page takes one page. Pages of other streams are passed over.
func (d *decoder) page(p page) error {
	if d.link == nil && p.flags&firstPage != 0 && bytes.HasPrefix(p.body, []byte("\x01vorbis")) {
		d.link = &link{serial: p.serial, start: d.clip.Len()}
	}
	l := d.link
	if l == nil || l.serial != p.serial {
		return nil
	}
	ready := l.headers == headerPackets // sound starts on a page of its own
	var packets [][]byte
	packets, l.open = p.packets(l.open)
	for _, packet := range packets {
		if err := d.packet(packet); err != nil {
			return err
		}
	}
	if ready && p.granule >= 0 && len(packets) > 0 {
		d.place(p)
	}
	if p.flags&lastPage != 0 {
		d.link = nil
	}
	return nil
}

// packet takes one packet: the three headers, then sound.
func (d *decoder) packet(packet []byte) error {
	l := d.link
	if l.headers < headerPackets {
		return d.header(packet)
	}
	if len(packet) == 0 {
		return nil
	}
	var values []float32
	err := guard.Call("Vorbis", func() (err error) {
		values, err = l.dec.DecodeInto(packet, l.buf)
		return err
	})
	if err != nil {
		return d.damage()
	}
	channels := d.clip.Channels()
	n := len(values) / channels
	if err := clip.CheckSize(d.clip.Rate, channels, d.clip.Len()+n, d.size); err != nil {
		return err
	}
	for ch, samples := range d.clip.Samples {
		for i := range n {
			samples = append(samples, guard.Tame(float64(values[i*channels+ch])))
		}
		d.clip.Samples[ch] = samples
	}
	return nil
}

// header takes one of the three header packets.
func (d *decoder) header(packet []byte) error {
	const kinds = "\x01\x03\x05"
	const magicBytes = 7
	l := d.link
	if len(packet) < magicBytes || packet[0] != kinds[l.headers] {
		return d.damage()
	}
	body := packet[magicBytes:]
	var err error
	switch l.headers {
	case 0:
		err = d.format(body)
	case 1:
		if d.clip.Title == "" {
			d.clip.Title = tags.VorbisTitle(body)
		}
		l.headers++
		return nil // the decoder has no need of it
	case 2:
		err = checkSetup(body)
	}
	if errors.Is(err, errSetup) {
		return d.damage()
	}
	if err != nil {
		return err
	}
	if l.dec.ReadHeader(packet) != nil {
		return errUnsupported
	}
	l.headers++
	if l.headers == headerPackets {
		l.buf = make([]float32, l.dec.BufferSize())
	}
	return nil
}

// format reads and checks the identification header (Vorbis I, 4.2.2).
func (d *decoder) format(b []byte) error {
	if len(b) < 23 {
		return errSetup
	}
	channels := int(b[4])
	rate := int(uint32(b[5]) | uint32(b[6])<<8 | uint32(b[7])<<16 | uint32(b[8])<<24)
	if err := clip.CheckFormat(rate, channels); err != nil {
		return err
	}
	const smallest, largest = 6, 13 // block sizes are 2^6 to 2^13
	if short, long := b[21]&15, b[21]>>4; short < smallest || short > long || long > largest {
		return errSetup
	}
	if d.clip.Rate == 0 {
		d.clip.Rate, d.clip.Samples = rate, make([][]float32, channels)
	}
	if rate != d.clip.Rate || channels != d.clip.Channels() {
		return fmt.Errorf("%w: its parts differ in sample rate or channels", clip.ErrFormat)
	}
	return nil
}

// place compares the samples decoded so far with the granule position of a
// page. The first page tells how many samples to drop at the start, the last
// one where to cut the end (Vorbis I, appendix A.2).
func (d *decoder) place(p page) {
	l := d.link
	have := d.clip.Len() - l.start
	last := p.flags&lastPage != 0
	if !l.placed {
		l.placed = true
		l.granule = int(p.granule) - have
		if last {
			l.granule = min(0, max(l.granule, 0))
		}
		if l.granule < 0 { // sound before time 0
			d.drop(l.start, min(have, -l.granule))
			l.granule, have = 0, d.clip.Len()-l.start
		}
	}
	if want := int(p.granule) - l.granule; last && 0 <= want && want < have {
		for ch := range d.clip.Samples {
			d.clip.Samples[ch] = d.clip.Samples[ch][:l.start+want]
		}
	}
}

// drop takes n samples out of every channel, from sample at on.
func (d *decoder) drop(at, n int) {
	for ch, samples := range d.clip.Samples {
		d.clip.Samples[ch] = append(samples[:at], samples[at+n:]...)
	}
}

// damage returns the error for data that cannot be decoded.
func (d *decoder) damage() error {
	if d.clip.Len() == 0 {
		return fmt.Errorf("%w: its Ogg Vorbis data cannot be decoded", clip.ErrDamaged)
	}
	return fmt.Errorf("%w: its Ogg Vorbis data cannot be decoded after %.1f seconds", clip.ErrDamaged, d.clip.Seconds())
}
