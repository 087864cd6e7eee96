package mp4

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"

	"github.com/gen2brain/aac-go"
)

const (
	aacFrame   = 1024   // samples in a packet
	adtsHead   = 7      // bytes before each packet as the encoder writes them
	aacDelay   = 1600   // samples the encoder's sound is late, measured
	aacBitRate = 160000 // bits per second for both channels, where size does not matter
)

// aacPackets returns how many packets hold n samples and the encoder's delay.
func aacPackets(n int64) int64 { return (n + aacDelay + aacFrame - 1) / aacFrame }

// aacTurn is held while sound is coded: the encoder library keeps its state in
// one global place.
var aacTurn = make(chan struct{}, 1)

// packets is a sound being coded on a goroutine of its own.
type packets struct {
	ch  chan []byte // never blocks: it has room for all
	err error       // to be read after ch is closed
}

// codeSound starts coding track as the plan says. The goroutine ends when all
// packets are made or ctx ends; then it closes the channel.
func codeSound(ctx context.Context, track *soundtrack, plan *plan) *packets {
	count := aacPackets(plan.audioSamples)
	p := &packets{ch: make(chan []byte, count)}
	go func() {
		defer close(p.ch)
		defer func() {
			if r := recover(); r != nil {
				p.err = fmt.Errorf("sound encoder: internal error: %v", r)
			}
		}()
		select {
		case aacTurn <- struct{}{}:
			defer func() { <-aacTurn }()
		case <-ctx.Done():
			p.err = ctx.Err()
			return
		}
		source := &pcmReader{ctx: ctx, track: track, end: count * aacFrame}
		sink := &adtsSplitter{out: p.ch, left: count}
		if err := runAAC(sink, source, plan.audioRate, plan.audioBits); err != nil {
			p.err = fmt.Errorf("sound encoder: %w", err)
		} else if sink.left > 0 {
			p.err = fmt.Errorf("the sound encoder kept %d of %d packets back", sink.left, count)
		}
	}()
	return p
}

// next returns the next packet.
func (p *packets) next() ([]byte, error) {
	packet, ok := <-p.ch
	if !ok {
		return nil, p.err
	}
	return packet, nil
}

// runAAC codes 16-bit stereo samples from r as ADTS frames to w.
func runAAC(w io.Writer, r io.Reader, rate, bits int) (err error) {
	enc, err := aac.NewEncoder(w, &aac.Options{SampleRate: rate, BitRate: bits, NumChannels: 2})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, enc.Close()) }()
	return enc.Encode(r)
}

// pcmReader serves a soundtrack as little-endian bytes. The encoder asks for
// whole packets and takes anything less as the end.
type pcmReader struct {
	ctx     context.Context
	track   *soundtrack
	at, end int64 // samples of film
	buf     [2 * aacFrame]int16
}

func (r *pcmReader) Read(p []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	if r.at >= r.end {
		return 0, io.EOF
	}
	samples := r.buf[:min(len(p)/2, len(r.buf))]
	r.track.read(samples, r.at)
	r.at += int64(len(samples) / 2)
	for i, v := range samples {
		binary.LittleEndian.PutUint16(p[2*i:], uint16(v))
	}
	return 2 * len(samples), nil
}

// adtsSplitter takes ADTS frames apart (ISO/IEC 13818-7, 6.2) and passes the
// packets in them on.
type adtsSplitter struct {
	out  chan<- []byte
	left int64 // packets still awaited
	buf  []byte
}

func (s *adtsSplitter) Write(p []byte) (int, error) {
	s.buf = append(s.buf, p...)
	for len(s.buf) >= 7 {
		if s.buf[0] != 0xff || s.buf[1]&0xf6 != 0xf0 {
			return 0, errors.New("no frame where one should start")
		}
		head := adtsHead
		if s.buf[1]&1 == 0 {
			head = 9 // a checksum follows
		}
		size := int(s.buf[3]&3)<<11 | int(s.buf[4])<<3 | int(s.buf[5])>>5
		if size <= head {
			return 0, errors.New("a frame without sound in it")
		}
		if len(s.buf) < size {
			break
		}
		if s.left--; s.left < 0 {
			return 0, errors.New("more packets than there is sound")
		}
		s.out <- append([]byte(nil), s.buf[head:size]...)
		s.buf = s.buf[size:]
	}
	return len(p), nil
}
