package ui

import (
	"image"
	"runtime"
	"slices"
	"sync"

	"stillbeat/board/picture"
)

// loader draws pictures off the window's goroutine. The latest wish is
// granted first, be it a new one or one repeated: it is what is being looked at.
type loader struct {
	cache  *picture.Cache
	post   func(func()) // has something done on the window's goroutine
	loaded func()       // on the window's goroutine, after some pictures came in

	mu      sync.Mutex
	wishes  []wish
	wanted  map[wish]bool
	failed  map[picture.Shot]error
	workers int
	told    bool // loaded is on its way
}

type wish struct {
	shot picture.Shot
	w, h int
}

func newLoader(c *picture.Cache, post func(func()), loaded func()) *loader {
	return &loader{cache: c, post: post, loaded: loaded, wanted: map[wish]bool{}, failed: map[picture.Shot]error{}}
}

// Shot returns what is on the screen in a shot if it is drawn, else nil and has
// it drawn.
func (l *loader) Shot(s picture.Shot, w, h int) *image.RGBA {
	if w < 1 || h < 1 {
		return nil
	}
	if img := l.cache.Drawn(s, w, h); img != nil {
		return img
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	x := wish{s, w, h}
	if l.failed[s] != nil {
		return nil
	}
	if l.wanted[x] {
		if i := slices.Index(l.wishes, x); i >= 0 { // else it is being drawn
			l.wishes = append(slices.Delete(l.wishes, i, i+1), x)
		}
		return nil
	}
	l.wanted[x] = true
	l.wishes = append(l.wishes, x)
	if l.workers < max(1, runtime.NumCPU()-1) {
		l.workers++
		go l.work()
	}
	return nil
}

// Failed returns why a shot cannot be shown, nil if it can or was not tried.
func (l *loader) Failed(s picture.Shot) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.failed[s]
}

func (l *loader) work() {
	l.mu.Lock()
	defer l.mu.Unlock()
	for len(l.wishes) > 0 {
		x := l.wishes[len(l.wishes)-1]
		l.wishes = l.wishes[:len(l.wishes)-1]
		l.mu.Unlock()
		_, err := l.cache.Draw(x.shot, x.w, x.h)
		l.mu.Lock()
		delete(l.wanted, x)
		if err != nil {
			l.failed[x.shot] = err
		}
		l.tell()
	}
	l.workers--
}

// tell has loaded called once for all pictures that come in until it runs.
func (l *loader) tell() {
	if l.told {
		return
	}
	l.told = true
	go l.post(func() {
		l.mu.Lock()
		l.told = false
		l.mu.Unlock()
		l.loaded()
	})
}
