package play

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"net"
	"sync"
	"time"

	"github.com/jfreymuth/pulse/proto"
)

// pulseOutput is the output of a sound server, in the protocol of PulseAudio,
// which PipeWire speaks too. Where the machine is so busy that it runs dry all
// the same, the server keeps its place and it goes on with what comes next. One
// is opened once.
type pulseOutput struct {
	conn   net.Conn
	client *proto.Client
	stream uint32
	hz     int
	more   chan struct{} // holds a word when the server has asked for more

	// What the server told about the delay last.
	told    int // pairs that were to be heard yet
	at      time.Time
	since   int // pairs written after that
	running bool

	mu      sync.Mutex
	room    int // bytes the server asked for and was not sent
	changed bool
	gone    bool
}

const (
	reserve = 250 * time.Millisecond // what the server holds ready while something plays
	quiet   = 30 * time.Millisecond  // of silence, so that what begins is heard soon
	first   = 20 * time.Millisecond  // before it begins
	portion = 10 * time.Millisecond  // the server asks for at once
	fresh   = 50 * time.Millisecond  // what it told last counts so long
	answer  = time.Second            // the longest it may take to answer
)

func (p *pulseOutput) open(hz int) error {
	p.hz, p.more = hz, make(chan struct{}, 1)
	var err error
	if p.conn, p.client, err = connect(p.hear); err != nil {
		return err
	}
	var made proto.CreatePlaybackStreamReply
	err = p.client.Request(&proto.CreatePlaybackStream{
		SampleSpec:            proto.SampleSpec{Format: proto.FormatFloat32LE, Channels: channels, Rate: uint32(hz)},
		ChannelMap:            proto.ChannelMap{proto.ChannelLeft, proto.ChannelRight},
		ChannelVolumes:        proto.ChannelVolumes{uint32(proto.VolumeNorm), uint32(proto.VolumeNorm)},
		SinkIndex:             proto.Undefined,
		BufferMaxLength:       2 * uint32(p.bytes(reserve)),
		BufferTargetLength:    uint32(p.bytes(reserve)),
		BufferPrebufferLength: uint32(p.bytes(first)),
		BufferMinimumRequest:  uint32(p.bytes(portion)),
		EarlyRequests:         true,
		Properties:            proto.PropList{"media.name": proto.PropListString("film")},
	}, &made)
	if err != nil {
		p.close()
		return err
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.stream = made.StreamIndex
	p.room += int(made.Missing)
	return nil
}

// bytes returns how many a time of sound has.
func (p *pulseOutput) bytes(d time.Duration) int { return int(d.Seconds()*float64(p.hz)) * frameBytes }

// hear takes what the server says by itself.
func (p *pulseOutput) hear(message any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch m := message.(type) {
	case *proto.Request:
		p.room += int(m.Length)
	case *proto.PlaybackStreamKilled, *proto.ConnectionClosed:
		p.gone = true
	case *proto.Started, *proto.Underflow, *proto.PlaybackStreamMoved, *proto.PlaybackStreamSuspended:
		p.changed = true
		return
	}
	select {
	case p.more <- struct{}{}:
	default:
	}
}

var errServerGone = errors.New("the sound server ended")

func (p *pulseOutput) write(b []float32, silence bool) (int, error) {
	keep := 0
	if silence {
		keep = p.bytes(reserve - quiet)
	}
	p.mu.Lock()
	n, gone := min(max(0, p.room-keep)/frameBytes, len(b)/channels), p.gone
	p.room -= n * frameBytes
	p.mu.Unlock()
	if gone {
		return 0, errServerGone
	}
	if n == 0 {
		select {
		case <-p.more:
		case <-time.After(patience):
		}
		return 0, nil
	}
	data := make([]byte, 0, n*frameBytes)
	for _, v := range b[:n*channels] {
		data = binary.LittleEndian.AppendUint32(data, math.Float32bits(v))
	}
	p.since += n
	return n, p.lost(p.client.Send(p.stream, data))
}

// delay asks the server now and then, and counts on from there.
func (p *pulseOutput) delay() (int, error) {
	p.mu.Lock()
	changed := p.changed
	p.changed = false
	p.mu.Unlock()
	if changed || !p.running || time.Since(p.at) >= fresh {
		if err := p.ask(); err != nil {
			return 0, err
		}
	}
	n := p.told + p.since
	if p.running {
		n -= int(time.Since(p.at).Seconds() * float64(p.hz))
	}
	return max(n, 0), nil
}

func (p *pulseOutput) ask() error {
	var l proto.GetPlaybackLatencyReply
	asked := time.Now()
	if err := p.client.Request(&proto.GetPlaybackLatency{StreamIndex: p.stream}, &l); err != nil {
		return p.lost(err)
	}
	p.at = asked.Add(time.Since(asked) / 2) // the answer was true half-way
	p.told = int((l.WriteIndex-l.ReadIndex)/frameBytes) + int(float64(l.Latency)/1e6*float64(p.hz))
	p.since, p.running = 0, l.Running
	return nil
}

func (p *pulseOutput) pause(held bool) error {
	p.running = false // so that it is asked anew
	return p.lost(p.client.Request(&proto.CorkPlaybackStream{StreamIndex: p.stream, Corked: held}, nil))
}

// drop takes back what the server was given and has not handed on.
func (p *pulseOutput) drop() error {
	p.running = false
	return p.lost(p.client.Request(&proto.FlushPlaybackStream{StreamIndex: p.stream}, nil))
}

// lost says plainly what a request failed of.
func (p *pulseOutput) lost(err error) error {
	var refused proto.Error
	switch {
	case err == nil:
		return nil
	case errors.Is(err, context.DeadlineExceeded):
		return errNoAnswer
	case errors.As(err, &refused):
		return fmt.Errorf("the sound server refuses (%w)", err)
	}
	return errServerGone
}

func (p *pulseOutput) close() { p.conn.Close() }
