package desk

import (
	"sync"

	"stillbeat/board"
)

// keeper writes boards to the film in the background, always the newest; a
// burst of edits (a drag, typing) costs few writes and the caller never waits.
type keeper struct {
	store   saver
	trouble func(error)

	mu      sync.Mutex
	idle    *sync.Cond
	next    *board.Board // not yet begun
	busy    bool
	stopped bool
	failed  *board.Board // newest that could not be written
	err     error        // why
}

type saver interface{ SaveBoard(board.Board) error }

func newKeeper(s saver, trouble func(error)) *keeper {
	k := &keeper{store: s, trouble: trouble}
	k.idle = sync.NewCond(&k.mu)
	return k
}

// keep has b written soon.
func (k *keeper) keep(b board.Board) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.stopped {
		return
	}
	k.begin(&b)
}

// begin has b written next; callers hold the lock.
func (k *keeper) begin(b *board.Board) {
	k.next = b
	if !k.busy {
		k.busy = true
		go k.work()
	}
}

func (k *keeper) work() {
	k.mu.Lock()
	defer k.mu.Unlock()
	for k.next != nil {
		b := k.next
		k.next = nil
		k.mu.Unlock()
		err := k.store.SaveBoard(*b)
		if err != nil {
			k.trouble(err)
		}
		k.mu.Lock()
		k.failed, k.err = nil, err
		if err != nil {
			k.failed = b
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
