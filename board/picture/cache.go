package picture

import (
	"container/list"
	"fmt"
	"image"
	"sync"
	"sync/atomic"

	"stillbeat/board"
)

// Source gives the bytes of the pictures and sketches in a film.
type Source interface {
	Media(id board.MediaID) ([]byte, error)
}

// Cache draws pictures and keeps those drawn last, and what it drew them from.
// It is safe for several goroutines; two that ask for one picture wait for one
// drawing.
type Cache struct {
	source Source
	limit  int // bytes

	mu    sync.Mutex
	used  int
	items map[any]*list.Element
	order *list.List // front: used last

	last lastDecoded
}

// What is kept, by what it is made from.
type (
	drawnKey struct { // *image.RGBA: a shot in so many pixels
		shot Shot
		w, h int
	}
	cropKey struct { // scaled
		id board.MediaID
		crop
	}
	levelKey struct { // *image.RGBA
		id board.MediaID
		k  int
	}
	sizeKey   struct{ id board.MediaID } // image.Point
	sketchKey struct{ id board.MediaID } // *board.Sketch
)

type cached struct {
	key   any
	once  sync.Once
	ready atomic.Bool
	cost  int // bytes, 0 until it is made
	made  any
	err   error
}

// NewCache returns a cache that keeps about limit bytes of pixels; 0 means
// 256 MB.
func NewCache(s Source, limit int) *Cache {
	if limit <= 0 {
		limit = 256 << 20
	}
	return &Cache{source: s, limit: limit, items: map[any]*list.Element{}, order: list.New()}
}

// Draw returns a shot in w x h pixels. The result is shared: do not draw on
// it. An error is told to all who wait for it and is not kept.
func (c *Cache) Draw(s Shot, w, h int) (*image.RGBA, error) {
	return kept(c, drawnKey{s, w, h}, func() (*image.RGBA, error) { return c.drawShot(s, w, h) })
}

// Drawn returns the shot if it is drawn already, and nil if not (or if it
// cannot be drawn).
func (c *Cache) Drawn(s Shot, w, h int) *image.RGBA {
	img, _ := peek[*image.RGBA](c, drawnKey{s, w, h})
	return img
}

// PictureShot is a picture alone, fitted into w x h pixels; the empty id gives
// the blank card.
func PictureShot(id board.MediaID, w, h int) Shot {
	return Shot{aspect: board.Aspect{W: max(w, 1), H: max(h, 1)}, up: view{picture: id}}
}

func (c *Cache) drawShot(s Shot, w, h int) (*image.RGBA, error) {
	at := frameIn(s.aspect, w, h)
	if at.Dx() != w || at.Dy() != h {
		frame, err := c.Draw(s, at.Dx(), at.Dy())
		if err != nil {
			return nil, err
		}
		return mounted(frame, at, w, h), nil
	}
	if s.passage == board.Cut {
		return c.drawView(s, w, h)
	}
	alone := func(v view) (*image.RGBA, error) { return c.Draw(Shot{aspect: s.aspect, up: v}, w, h) }
	if s.passage == board.Fade {
		if s.done < 0.5 {
			return faded(alone, s.up, 2*s.done)
		}
		return faded(alone, s.next, 2-2*s.done)
	}
	up, err := alone(s.up)
	if err != nil {
		return nil, err
	}
	next, err := alone(s.next)
	if err != nil {
		return nil, err
	}
	if s.passage == board.Wipe {
		return wiped(up, next, s.done), nil
	}
	return mixed(up, next, s.done), nil
}

func (c *Cache) sketch(id board.MediaID) (*board.Sketch, error) {
	if id == "" {
		return &board.Sketch{}, nil
	}
	return kept(c, sketchKey{id}, func() (*board.Sketch, error) {
		data, err := c.source.Media(id)
		if err != nil {
			return nil, err
		}
		s, err := board.DecodeSketch(data)
		if err != nil {
			return nil, fmt.Errorf("sketch %.8s: %w", id, err)
		}
		return &s, nil
	})
}

// lastDecoded is the picture that was decoded last, whole: the window asks for
// a thumbnail and a large one of a picture in a row, and moves for several
// sizes. Those that ask for one while it is being decoded wait for that.
type lastDecoded struct {
	sync.Mutex
	id board.MediaID
	stored
	under map[board.MediaID]*decoding
}

// decoding is a picture that is being decoded.
type decoding struct {
	done chan struct{}
	stored
	err error
}

// decoded returns a picture of the film, whole.
func (c *Cache) decoded(id board.MediaID) (stored, error) {
	c.last.Lock()
	if c.last.id == id {
		defer c.last.Unlock()
		return c.last.stored, nil
	}
	if d := c.last.under[id]; d != nil {
		c.last.Unlock()
		<-d.done
		return d.stored, d.err
	}
	d := &decoding{done: make(chan struct{})}
	if c.last.under == nil {
		c.last.under = map[board.MediaID]*decoding{}
	}
	c.last.under[id] = d
	c.last.Unlock()

	d.stored, d.err = c.decode(id)
	c.last.Lock()
	defer c.last.Unlock()
	delete(c.last.under, id)
	close(d.done)
	if d.err == nil && 4*d.img.Bounds().Dx()*d.img.Bounds().Dy() <= c.limit { // a colour of 8 bits takes at most 4 bytes a pixel
		c.last.id, c.last.stored = id, d.stored
	}
	return d.stored, d.err
}

func (c *Cache) decode(id board.MediaID) (stored, error) {
	data, err := c.source.Media(id)
	if err != nil {
		return stored{}, err
	}
	img, o, err := decode(data)
	if err != nil {
		return stored{}, fmt.Errorf("picture %.8s: %w", id, err)
	}
	return stored{img, o}, nil
}

// kept returns what the cache has by a key, made if it is not there.
func kept[T any](c *Cache, key any, make func() (T, error)) (T, error) {
	e := c.entry(key)
	e.once.Do(func() {
		made, err := make()
		e.made, e.err = made, err
		e.ready.Store(true)
		if err != nil {
			c.forget(e)
		} else {
			c.charge(e, costOf(made))
		}
	})
	if e.err != nil {
		var none T
		return none, e.err
	}
	return e.made.(T), nil
}

// costOf returns about how many bytes what is kept takes.
func costOf(made any) int {
	const small = 256
	switch v := made.(type) {
	case *image.RGBA:
		return len(v.Pix) + small
	case scaled:
		return len(v.Pix) + small
	case *board.Sketch:
		n := small
		for _, k := range v.Strokes {
			n += small/4 + 12*len(k.Dots)
		}
		return n
	}
	return small
}

func (c *Cache) entry(key any) *cached {
	c.mu.Lock()
	defer c.mu.Unlock()
	if el, ok := c.items[key]; ok {
		c.order.MoveToFront(el)
		return el.Value.(*cached)
	}
	e := &cached{key: key}
	c.items[key] = c.order.PushFront(e)
	return e
}

// charge notes what an entry takes and drops those not used for longest.
func (c *Cache) charge(e *cached, cost int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	el, ok := c.items[e.key]
	if !ok || el.Value != e {
		return // it was dropped while it was made
	}
	c.order.MoveToFront(el) // what it was made from was used before it
	e.cost = cost
	c.used += cost
	for c.used > c.limit && c.order.Len() > 1 {
		c.remove(c.order.Back())
	}
}

// forget drops what could not be made: the next to ask tries again.
func (c *Cache) forget(e *cached) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if el, ok := c.items[e.key]; ok && el.Value == e {
		c.remove(el)
	}
}

func (c *Cache) remove(el *list.Element) {
	e := el.Value.(*cached)
	c.order.Remove(el)
	delete(c.items, e.key)
	c.used -= e.cost
}
