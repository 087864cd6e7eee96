// Package play makes sound, and tells where it is: sound is the master, and
// whoever shows pictures asks Position. Without a sound device a monotonic
// clock takes its place, and Trouble says why.
package play

import (
	"sync"
	"time"
)

// Player plays one clip along a film. Its methods are safe for several
// goroutines. The zero value plays silence by the clock until Load.
type Player struct {
	mu      sync.Mutex
	open    func(rate int) (device, error) // nil: the machine's device
	dev     device
	trouble error
	sound   Sound
	start   float64 // second of film at which its sample 0 sounds
	manner  Manner

	run   *run // nil while stopped
	scrub scrub
}

// run is one stretch of playing.
type run struct {
	plan   plan
	at     time.Time // it began, by the clock
	source *source
	voice  voice // nil: by the clock
	clock  clock
	reach  float64 // last position by the device
}

// clockRate is the rate of plans without a device, samples a second.
const clockRate = 48000

// Load sets the sound, of which sample 0 sounds at second start of the film;
// nil means a silent film. A player that runs goes on with the new sound from
// where it is. It opens the sound device when it is first needed, which can
// take seconds: call it off the window's goroutine. Where there was none,
// loading again looks again.
func (p *Player) Load(sound Sound, start float64) {
	var dev device
	var err error
	if sound != nil {
		open := openDevice
		if p.open != nil {
			open = p.open
		}
		dev, err = open(deviceRate(sound.Rate()))
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	at, runs := p.position(0), p.run != nil
	p.stop()
	p.sound, p.start, p.dev, p.trouble = sound, start, dev, err
	if runs {
		p.play(at)
	}
}

// deviceRate returns the rate every sound device takes that is nearest in
// kind to a song's: 44.1 kHz for it and its multiples, else 48 kHz.
func deviceRate(rate int) int {
	if rate%11025 == 0 {
		return 44100
	}
	return 48000
}

// Slide moves the sound to begin at second start of the film. It is heard
// from the next Play on.
func (p *Player) Slide(start float64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.start = start
}

// SetManner sets how the film is played, from the next Play on.
func (p *Player) SetManner(m Manner) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.manner = m
}

// Play starts at second from of the film. Playing already, it goes on from
// there.
func (p *Player) Play(from float64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.stop()
	p.play(from)
}

// play starts a run; callers hold the lock and have stopped the one before.
func (p *Player) play(from float64) {
	r := &run{plan: newPlan(p.manner, from, clockRate), at: time.Now()}
	if p.hasDevice() {
		r.plan = newPlan(p.manner, from, float64(p.dev.rate()))
		r.source = newPlanned(p.sound, p.start, r.plan)
		r.voice = p.dev.voice(r.source)
		r.clock.rate = r.plan.rate
		r.voice.Play()
	}
	r.reach = r.plan.start
	p.run = r
}

// hasDevice reports whether there is a device that sounds, and has one that
// was lost looked for. Callers hold the lock.
func (p *Player) hasDevice() bool {
	if p.dev == nil {
		return false
	}
	if p.dev.err() != nil {
		p.dev.look()
		return false
	}
	return true
}

// Stop stops at once.
func (p *Player) Stop() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.stop()
}

func (p *Player) stop() {
	if p.run != nil && p.run.voice != nil {
		p.run.voice.Close()
	}
	p.run = nil
	p.scrub.end()
}

// Playing reports whether the player runs.
func (p *Player) Playing() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.run != nil
}

// Position returns the second of film that is heard now: what the device was
// given less what it still holds. While the first sound is on its way it is
// the second playing began at. Stopped, it is 0.
func (p *Player) Position() float64 { return p.PositionIn(0) }

// PositionIn returns the second of film that is heard so many seconds from
// now, if playing goes on.
func (p *Player) PositionIn(lead float64) float64 {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.position(lead)
}

func (p *Player) position(lead float64) float64 {
	r := p.run
	if r == nil {
		return 0
	}
	now := time.Now()
	switch has := p.hasDevice(); {
	case r.voice != nil && !has:
		// The device went away: go on by the clock from where it stopped.
		r.voice.Close()
		r.voice, r.at = nil, now
		r.plan = newPlan(r.plan.Manner, r.reach, clockRate)
	case r.voice == nil && has:
		// It is back: the sound comes in where the clock is.
		at := r.plan.at(now.Sub(r.at).Seconds() * r.plan.rate)
		p.stop()
		p.play(at)
		r = p.run
	}
	heard := now.Sub(r.at).Seconds()
	if r.voice != nil {
		taken := r.source.read.Load() - int64(r.voice.BufferedSize()/frameBytes)
		heard = max(0, r.clock.observe(taken, now)-p.dev.latency().Seconds())
		r.reach = r.plan.at(heard * r.plan.rate)
	}
	return r.plan.at((heard + lead) * r.plan.rate)
}

// Trouble returns why nothing can be heard, nil if sound is fine or there is
// none to play.
func (p *Player) Trouble() error {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.dev != nil {
		return p.dev.err()
	}
	return p.trouble
}
