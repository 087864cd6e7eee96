package mp4

import (
	"bytes"
	"context"
	"errors"
	"fmt"
)

// WriteSound returns what is heard of a film as an .m4a file that lasts as long
// as the film does. Of the film only Num, Den, Frames and Sound count.
func WriteSound(ctx context.Context, film Film) ([]byte, error) {
	p, err := soundPlan(film)
	if err != nil {
		return nil, fmt.Errorf("share sound: %w", err)
	}
	count := aacPackets(p.audioSamples)
	ctx, stop := context.WithCancel(ctx)
	coded := codeSound(ctx, newSoundtrack(film.Sound, p.audioRate), p)
	defer func() { // leave no goroutine behind
		stop()
		for range coded.ch {
		}
	}()
	sound := newTrack([]uint32{uint32(count)})
	gap, err := head(p, nil, sound, 0)
	if err != nil {
		return nil, fmt.Errorf("share sound: %w", err)
	}
	var media bytes.Buffer
	for i := range count {
		packet, err := coded.next()
		if err != nil {
			return nil, fmt.Errorf("share sound: %w", err)
		}
		sound.add(packet, int64(len(gap)+media.Len()), i == 0)
		media.Write(packet)
	}
	index, err := head(p, nil, sound, int64(media.Len()))
	if err == nil && len(index) != len(gap) {
		err = errors.New("the index does not fit its gap")
	}
	if err != nil {
		return nil, fmt.Errorf("share sound: %w", err)
	}
	return append(index, media.Bytes()...), nil
}

// soundPlan is newPlan for the sound alone.
func soundPlan(film Film) (*plan, error) {
	num, den, err := film.clock()
	if err != nil {
		return nil, err
	}
	if film.Sound == nil {
		return nil, errors.New("there is no sound")
	}
	if err := film.Sound.check(); err != nil {
		return nil, err
	}
	p := &plan{timescale: uint32(num), tick: uint32(den), steps: make([]step, film.Frames), audioRate: film.Sound.codedRate(), audioBits: aacBitRate}
	p.audioSamples = samplesIn(film.Frames*den, num, p.audioRate)
	return p, nil
}
