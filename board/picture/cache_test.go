package picture

import (
	"errors"
	"fmt"
	"image"
	"io/fs"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"stillbeat/board"
)

// media is a film's pictures by id.
type media map[board.MediaID][]byte

func (m media) Media(id board.MediaID) ([]byte, error) {
	if data, ok := m[id]; ok {
		return data, nil
	}
	return nil, fs.ErrNotExist
}

// counted counts what is asked of a source and can hold answers back or fail.
type counted struct {
	media
	asked atomic.Int32
	gate  chan struct{} // nil: open
	fails atomic.Bool
}

var errBusy = errors.New("the disk is busy")

func (c *counted) Media(id board.MediaID) ([]byte, error) {
	c.asked.Add(1)
	if c.gate != nil {
		<-c.gate
	}
	if c.fails.Load() {
		return nil, errBusy
	}
	return c.media.Media(id)
}

func TestCacheDrawsOnceForAll(t *testing.T) {
	source := &counted{media: media{"cup": asPNG(t, quartered(64, 36))}, gate: make(chan struct{})}
	c := NewCache(source, 0)
	if c.Drawn(PictureShot("cup", 32, 18), 32, 18) != nil {
		t.Error("ready before it was asked for")
	}
	var all sync.WaitGroup
	got := make([]*image.RGBA, 8)
	for i := range got {
		all.Go(func() {
			img, err := c.Draw(PictureShot("cup", 32, 18), 32, 18)
			if err != nil {
				t.Error(err)
			}
			got[i] = img
		})
	}
	if c.Drawn(PictureShot("cup", 32, 18), 32, 18) != nil {
		t.Error("ready before it was drawn")
	}
	close(source.gate)
	all.Wait()
	for i, img := range got {
		if img != got[0] {
			t.Errorf("goroutine %d has a drawing of its own", i)
		}
	}
	if n := source.asked.Load(); n != 1 {
		t.Errorf("the picture was read %d times, want once", n)
	}
	if c.Drawn(PictureShot("cup", 32, 18), 32, 18) != got[0] {
		t.Error("not ready after it was drawn")
	}
	if c.Drawn(PictureShot("cup", 64, 36), 64, 36) != nil {
		t.Error("ready in a size nobody asked for")
	}
	checkCorners(t, got[0], quarters, 0)
}

// checkUsed fails unless the cache knows what it keeps and keeps to its limit.
func checkUsed(t *testing.T, c *Cache) {
	t.Helper()
	sum := 0
	for el := c.order.Front(); el != nil; el = el.Next() {
		sum += el.Value.(*cached).cost
	}
	if c.used > c.limit || c.used != sum || len(c.items) != c.order.Len() {
		t.Fatalf("%d of %d bytes used by %d things of %d bytes", c.used, c.limit, c.order.Len(), sum)
	}
}

func TestCacheKeepsToItsLimit(t *testing.T) {
	source := &counted{media: media{}}
	for i := range 10 {
		source.media[board.MediaID(fmt.Sprint(i))] = asPNG(t, quartered(16, 16))
	}
	// A drawing, and beside it the size of its picture.
	const one = 4*16*16 + 2*256
	c := NewCache(source, 3*one)
	draw := func(id int) {
		t.Helper()
		if _, err := c.Draw(PictureShot(board.MediaID(fmt.Sprint(id)), 16, 16), 16, 16); err != nil {
			t.Fatal(err)
		}
	}
	kept := func() (out string) {
		for i := range 10 {
			c.mu.Lock()
			_, ok := c.items[drawnKey{PictureShot(board.MediaID(fmt.Sprint(i)), 16, 16), 16, 16}]
			c.mu.Unlock()
			if ok {
				out += fmt.Sprint(i)
			}
		}
		return out
	}
	for i := range 10 {
		draw(i)
		checkUsed(t, c)
	}
	if got := kept(); got != "789" {
		t.Errorf("pictures %s are kept, want the last three", got)
	}
	draw(7)
	draw(1)
	if got := kept(); got != "179" {
		t.Errorf("pictures %s are kept, want those used last: 179", got)
	}
	c.Drawn(PictureShot("9", 16, 16), 16, 16) // looking at it is use too
	draw(2)
	if got := kept(); got != "129" {
		t.Errorf("pictures %s are kept, want those used last: 129", got)
	}
	if img, err := c.Draw(PictureShot("3", 64, 64), 64, 64); err != nil || img.Rect.Dx() != 64 {
		t.Errorf("a picture larger than the limit: %v", err)
	}
	if c.order.Len() != 1 || c.Drawn(PictureShot("3", 64, 64), 64, 64) == nil {
		t.Errorf("a picture larger than the limit is not alone: %d are kept", c.order.Len())
	}
}

func TestCacheDoesNotKeepErrors(t *testing.T) {
	source := &counted{media: media{"cup": asPNG(t, quartered(16, 16)), "text": []byte("a list of props")}}
	c := NewCache(source, 0)
	source.fails.Store(true)
	if img, err := c.Draw(PictureShot("cup", 16, 16), 16, 16); !errors.Is(err, errBusy) || img != nil {
		t.Errorf("Frame = %v, %v, want %v", img, err, errBusy)
	}
	if c.Drawn(PictureShot("cup", 16, 16), 16, 16) != nil {
		t.Error("a picture that could not be read is ready")
	}
	if c.used != 0 || c.order.Len() != 0 {
		t.Errorf("the error takes %d bytes", c.used)
	}
	source.fails.Store(false)
	if _, err := c.Draw(PictureShot("cup", 16, 16), 16, 16); err != nil {
		t.Errorf("the second try: %v", err)
	}
	_, err := c.Draw(PictureShot("text", 16, 16), 16, 16)
	if !errors.Is(err, ErrFormat) || !strings.HasPrefix(err.Error(), "picture text: ") {
		t.Errorf("text: %v", err)
	}
	if _, err := c.Draw(PictureShot("gone", 16, 16), 16, 16); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a picture the film does not hold: %v", err)
	}
}

// TestForgetLeavesTheNext lets a failing drawing end after its place was
// given to a new one.
func TestForgetLeavesTheNext(t *testing.T) {
	c := NewCache(media{}, 0)
	old := c.entry(sizeKey{"cup"})
	c.forget(old)
	next := c.entry(sizeKey{"cup"})
	c.forget(old)
	c.charge(old, 100)
	c.charge(next, 10)
	if c.entry(sizeKey{"cup"}) != next || c.used != 10 {
		t.Error("the new drawing was dropped with the old one")
	}
}

func TestCacheBlankCard(t *testing.T) {
	source := &counted{media: media{}}
	img, err := NewCache(source, 0).Draw(PictureShot("", 20, 10), 20, 10)
	if err != nil || img.RGBAAt(10, 5) != Blank || source.asked.Load() != 0 {
		t.Errorf("the blank card: %v, asked %d times", err, source.asked.Load())
	}
}

// TestCacheFromAllSides is for the race detector.
func TestCacheFromAllSides(t *testing.T) {
	source := &counted{media: media{"text": []byte("a list of props")}}
	for i := range 4 {
		source.media[board.MediaID(fmt.Sprint(i))] = asPNG(t, quartered(20+i, 12))
	}
	c := NewCache(source, 3*4*16*9)
	var all sync.WaitGroup
	for g := range 4 {
		all.Go(func() {
			for i := range 60 {
				id := board.MediaID(fmt.Sprint((i*7 + g) % 4))
				if img, err := c.Draw(PictureShot(id, 16, 9), 16, 9); err != nil || img.Rect.Dx() != 16 {
					t.Errorf("picture %s: %v", id, err)
				}
				c.Drawn(PictureShot(id, 16, 9), 16, 9)
				if _, err := c.Draw(PictureShot("text", 16, 9), 16, 9); !errors.Is(err, ErrFormat) {
					t.Errorf("text: %v", err)
				}
			}
		})
	}
	all.Wait()
	checkUsed(t, c)
}
