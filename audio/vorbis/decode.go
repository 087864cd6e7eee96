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

// Decode reads the Vorbis sound in an Ogg file into sink, all links of it if it
// is chained, and returns what came out. Sound that is cut short is read as far
// as it goes; damage before the end is an error that says where it is.
//
// progress, if not nil, is called with the part that is done, 0 to 1. Errors
// wrap clip.ErrFormat, ErrDamaged, ErrEmpty, ErrTooLong, ErrTooBig or the
// error of sink or ctx.
func Decode(ctx context.Context, data []byte, sink clip.Sink, progress func(done float64)) (clip.Info, error) {
	return guard.Decode("Vorbis", sink, func(out *guard.Feed) error {
		d := &decoder{fileBytes: len(data), out: out}
		return d.decode(ctx, tags.SkipID3(data), progress)
	})
}

// decoder reads the sound of all links.
type decoder struct {
	info      clip.Info // Len counts what was decoded and not dropped
	fileBytes int
	link      *link
	held      [][]float32 // the end of what was decoded: a page may yet cut it
	out       *guard.Feed
}

// link is one Vorbis stream.
type link struct {
	serial  uint32
	headers int // header packets seen
	dec     vorbis.Decoder
	buf     []float32
	open    []byte // packet that goes on in the next page

	start   int  // samples before this link
	placed  bool // the first granule position has been seen
	granule int  // granule position of sample start
}

const headerPackets = 3

func (d *decoder) decode(ctx context.Context, data []byte, progress func(float64)) error {
	meter := guard.NewMeter(ctx, len(data), progress)
	for len(data) > 0 {
		p, err := parsePage(data)
		if errors.Is(err, errPageEnd) || err != nil && d.link == nil && d.info.Rate > 0 {
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
	if d.info.Rate == 0 {
		return fmt.Errorf("%w: there is no Vorbis sound in it", clip.ErrFormat)
	}
	if err := d.release(); err != nil {
		return err
	}
	d.out.Title(d.info.Title)
	meter.Finish()
	return nil
}

// release hands on what was held.
func (d *decoder) release() error {
	if len(d.held) == 0 || len(d.held[0]) == 0 {
		return nil
	}
	if err := d.out.Add(d.held); err != nil {
		return err
	}
	for ch := range d.held {
		d.held[ch] = d.held[ch][:0]
	}
	return nil
}

// page takes one page. Pages of other streams are passed over.
func (d *decoder) page(p page) error {
	if d.link == nil && p.flags&firstPage != 0 && bytes.HasPrefix(p.body, []byte("\x01vorbis")) {
		d.link = &link{serial: p.serial, start: d.info.Len}
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
	if l.placed || d.link == nil {
		return d.release()
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
	channels := d.info.Channels
	n := len(values) / channels
	if err := clip.CheckSize(d.info.Rate, channels, d.info.Len+n, d.fileBytes); err != nil {
		return err
	}
	d.info.Len += n
	for ch, samples := range d.held {
		for i := range n {
			samples = append(samples, guard.Tame(float64(values[i*channels+ch])))
		}
		d.held[ch] = samples
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
		if d.info.Title == "" {
			d.info.Title = tags.VorbisTitle(body)
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
	if l.headers < headerPackets {
		return nil
	}
	l.buf = make([]float32, l.dec.BufferSize())
	if d.held != nil {
		return nil // not the first link
	}
	d.held = make([][]float32, d.info.Channels)
	return d.out.Begin(d.info)
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
	if d.info.Rate == 0 {
		d.info.Rate, d.info.Channels = rate, channels
	}
	if rate != d.info.Rate || channels != d.info.Channels {
		return fmt.Errorf("%w: its parts differ in sample rate or channels", clip.ErrFormat)
	}
	return nil
}

// place compares the samples decoded so far with the granule position of a
// page. The first page tells how many samples to drop at the start, the last
// one where to cut the end, no further back than it begins itself (Vorbis I,
// appendix A.2).
func (d *decoder) place(p page) {
	l := d.link
	have := d.info.Len - l.start
	last := p.flags&lastPage != 0
	if !l.placed {
		l.placed = true
		l.granule = int(p.granule) - have
		if last {
			l.granule = min(0, max(l.granule, 0))
		}
		if l.granule < 0 { // sound before time 0
			early := min(have, -l.granule)
			for ch, samples := range d.held {
				d.held[ch] = samples[early:]
			}
			d.info.Len -= early
			l.granule, have = 0, have-early
		}
	}
	if want := int(p.granule) - l.granule; last && 0 <= want && want < have {
		extra := min(have-want, len(d.held[0]))
		for ch, samples := range d.held {
			d.held[ch] = samples[:len(samples)-extra]
		}
		d.info.Len -= extra
	}
}

// damage returns the error for data that cannot be decoded.
func (d *decoder) damage() error {
	if d.info.Len == 0 {
		return fmt.Errorf("%w: its Ogg Vorbis data cannot be decoded", clip.ErrDamaged)
	}
	return fmt.Errorf("%w: its Ogg Vorbis data cannot be decoded after %.1f seconds", clip.ErrDamaged, d.info.Seconds())
}
