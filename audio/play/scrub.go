package play

import (
	"io"
	"time"
)

// snippet is how long a place is heard when a film is scrubbed.
const snippet = 60 * time.Millisecond

// scrub is a run of snippets, each heard to its end before the next begins;
// of the places asked for meanwhile only the last is heard.
type scrub struct {
	voice voice
	timer *time.Timer // runs while a snippet is heard
	next  float64     // second of film
	again bool        // next is still to be heard
}

// end is called when playing begins or all stops.
func (s *scrub) end() {
	if s.timer != nil {
		s.timer.Stop()
	}
	if s.voice != nil {
		s.voice.Close()
	}
	*s = scrub{}
}

// Scrub has a snippet of the sound at a second of film heard, unless the
// player runs or has no device.
func (p *Player) Scrub(at float64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.run != nil || p.dev == nil || p.dev.err() != nil {
		return
	}
	p.scrub.next, p.scrub.again = at, true
	if p.scrub.timer == nil {
		p.nextSnippet()
	}
}

// nextSnippet begins the snippet that was asked for last; callers hold the
// lock.
func (p *Player) nextSnippet() {
	s := &p.scrub
	s.timer = nil
	if !s.again || p.dev == nil || p.dev.err() != nil {
		return
	}
	s.again = false
	rate := p.dev.rate()
	one := newPlanned(p.sound, p.start, newPlan(Manner{}, s.next, float64(rate)))
	one.soft, one.end = true, int64(snippet.Seconds()*float64(rate))
	s.voice = p.dev.voice(once{one}) // the one before rings out by itself
	s.voice.Play()
	var timer *time.Timer
	timer = time.AfterFunc(snippet, func() {
		p.mu.Lock()
		defer p.mu.Unlock()
		if p.scrub.timer == timer {
			p.nextSnippet()
		}
	})
	s.timer = timer
}

// once ends a source where its first pass does.
type once struct{ *source }

func (o once) Read(b []byte) (int, error) {
	if o.read.Load() == o.end {
		return 0, io.EOF
	}
	return o.source.Read(b)
}
