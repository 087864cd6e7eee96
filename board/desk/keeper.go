package desk

import (
	"sync"

	"stillbeat/board"
)

// keeper writes the film with its history in the background, always as it is
// at the time; a burst of edits (a drag, typing) costs few writes and the
// caller never waits.
type keeper struct {
	store saver
	told  func(error) // of each failure, and with nil when all is written again

	mu      sync.Mutex
	idle    *sync.Cond
	next    *board.Past // not yet begun
	busy    bool
	stopped bool
	failed  *board.Past // newest that could not be written
	err     error       // why
}

type saver interface{ Save(board.Past) error }

func newKeeper(s saver, told func(error)) *keeper {
	k := &keeper{store: s, told: told}
	k.idle = sync.NewCond(&k.mu)
	return k
}

// keep has p written soon.
func (k *keeper) keep(p board.Past) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.stopped {
		return
	}
	k.begin(&p)
}

// begin has p written next; callers hold the lock.
func (k *keeper) begin(p *board.Past) {
	k.next = p
	if !k.busy {
		k.busy = true
		go k.work()
	}
}

func (k *keeper) work() {
	k.mu.Lock()
	defer k.mu.Unlock()
	for k.next != nil {
		p, had := k.next, k.err
		k.next = nil
		k.mu.Unlock()
		err := k.store.Save(*p)
		k.mu.Lock()
		k.failed, k.err = nil, err
		if err != nil {
			k.failed = p
		}
		if err != nil || had != nil {
			k.mu.Unlock()
			k.told(err)
			k.mu.Lock()
		}
	}
	k.busy = false
	k.idle.Broadcast()
}

// flush waits until everything handed to keep is written. What could not be
// written before is tried once more; the error is that of the last write.
func (k *keeper) flush() error {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.wait()
	if k.failed != nil && !k.stopped {
		k.begin(k.failed)
		k.wait()
	}
	return k.err
}

// trouble returns why what was handed to keep is not on disk; nil if it is, or
// will be in a moment.
func (k *keeper) trouble() error {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.err
}

// wait returns when no write is under way; callers hold the lock.
func (k *keeper) wait() {
	for k.busy {
		k.idle.Wait()
	}
}

// stop lets the write under way end and takes no more.
func (k *keeper) stop() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.stopped = true
	k.wait()
}
