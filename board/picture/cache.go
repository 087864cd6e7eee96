package picture

import (
	"container/list"
	"fmt"
	"image"
	"sync"
	"sync/atomic"

	"stillbeat/board"
)

// Source gives the bytes of the pictures in a film.
type Source interface {
	Media(id board.MediaID) ([]byte, error)
}

// Cache draws pictures and keeps those drawn last. It is safe for several
// goroutines; two that ask for one picture wait for one drawing.
type Cache struct {
	source Source
	limit  int // bytes

	mu    sync.Mutex
	used  int
	items map[cacheKey]*list.Element
	order *list.List // front: used last
}

type cacheKey struct {
	id   board.MediaID
	w, h int
}

type cached struct {
	key   cacheKey
	once  sync.Once
	ready atomic.Bool
	img   *image.RGBA
	err   error
}

// NewCache returns a cache that keeps about limit bytes of pixels; 0 means
// 256 MB.
func NewCache(s Source, limit int) *Cache {
	if limit <= 0 {
		limit = 256 << 20
	}
	return &Cache{source: s, limit: limit, items: map[cacheKey]*list.Element{}, order: list.New()}
}

// Frame returns the film's picture id fitted into w x h pixels; the empty id
// gives the blank card. The result is shared: do not draw on it. An error is
// told to all who wait for it and is not kept.
func (c *Cache) Frame(id board.MediaID, w, h int) (*image.RGBA, error) {
	e := c.entry(cacheKey{id, w, h})
	e.once.Do(func() {
		e.img, e.err = c.draw(e.key)
		e.ready.Store(true)
		if e.err != nil {
			c.forget(e)
		}
	})
	return e.img, e.err
}

// Ready returns the picture if it is drawn already, and nil if not (or if it
// cannot be drawn).
func (c *Cache) Ready(id board.MediaID, w, h int) *image.RGBA {
	c.mu.Lock()
	defer c.mu.Unlock()
	el, ok := c.items[cacheKey{id, w, h}]
	if !ok {
		return nil
	}
	e := el.Value.(*cached)
	if !e.ready.Load() {
		return nil
	}
	c.order.MoveToFront(el)
	return e.img
}

func (c *Cache) draw(k cacheKey) (*image.RGBA, error) {
	if k.id == "" {
		return Frame(nil, k.w, k.h), nil
	}
	data, err := c.source.Media(k.id)
	if err != nil {
		return nil, err
	}
	img, o, err := decode(data)
	if err != nil {
		return nil, fmt.Errorf("picture %.8s: %w", k.id, err)
	}
	return frame(img, o, k.w, k.h), nil
}

func (c *Cache) entry(k cacheKey) *cached {
	c.mu.Lock()
	defer c.mu.Unlock()
	if el, ok := c.items[k]; ok {
		c.order.MoveToFront(el)
		return el.Value.(*cached)
	}
	e := &cached{key: k}
	c.items[k] = c.order.PushFront(e)
	c.used += 4 * k.w * k.h
	for c.used > c.limit && c.order.Len() > 1 {
		c.remove(c.order.Back())
	}
	return e
}

// forget drops a picture that could not be drawn: the next to ask tries again.
func (c *Cache) forget(e *cached) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if el, ok := c.items[e.key]; ok && el.Value == e {
		c.remove(el)
	}
}

func (c *Cache) remove(el *list.Element) {
	key := el.Value.(*cached).key
	c.order.Remove(el)
	delete(c.items, key)
	c.used -= 4 * key.w * key.h
}
