package board

import (
	"slices"
	"strings"
	"testing"
)

func TestDismissedFindingsAreKept(t *testing.T) {
	b := do(t, atFrames(0, 10, 20), Dismiss([]string{"gap:1", "off-beat:2"}))
	b = do(t, b, Dismiss([]string{"off-beat:2", "loud:0"}))
	if want := []string{"gap:1", "off-beat:2", "loud:0"}; !slices.Equal(b.Dismissed, want) {
		t.Errorf("dismissed are %q, want %q", b.Dismissed, want)
	}
	if !b.IsDismissed("loud:0") || b.IsDismissed("gap:2") {
		t.Error("what is dismissed is not found, or what is not is")
	}
	undoes(t, b, Dismiss([]string{"reading:1"}))
	undoes(t, b, Recall([]string{"gap:1"}))
	if got := do(t, b, Recall([]string{"gap:1", "gap:9"})).Dismissed; !slices.Equal(got, []string{"off-beat:2", "loud:0"}) {
		t.Errorf("one brought back, there are %q", got)
	}
	if got := do(t, b, Recall(nil)).Dismissed; got != nil {
		t.Errorf("all brought back, there are %q", got)
	}
	for _, bad := range []string{"", "a b", "a\nb", "ä", strings.Repeat("x", 81)} {
		refused(t, b, Dismiss([]string{bad}), "dismissed finding")
	}
	full := b
	full.Dismissed = make([]string, MaxDismissed+1)
	refused(t, full, SetTitle("tea"), "at most 20000")
}

func TestPutOnBeat(t *testing.T) {
	b := withSong(t, frameRate24, 120, 10) // a beat every 12 frames
	b = do(t, b, Insert(0, make([]Panel, 3), 2))
	b = do(t, b, SetStart(1, Free(b.Rate.Seconds(29))))
	starts := b.Starts()
	if ms, ok := b.OffBeat(starts, 1); !ok || ms < 208 || ms > 209 { // 5 frames
		t.Errorf("the start is %g ms off, %v", ms, ok)
	}
	if ms, ok := b.OffBeat(starts, 3); !ok || ms != 0 {
		t.Errorf("the end is %g ms off, %v", ms, ok)
	}
	wantStarts(t, do(t, b, PutOnBeat(1)), 0, 24, 48, 72)
	late := do(t, b, SetStart(3, Free(b.Rate.Seconds(77))))
	wantStarts(t, do(t, late, PutOnBeat(3)), 0, 29, 48, 72)
	undoes(t, b, PutOnBeat(1))
	narrow := do(t, do(t, b, SetStart(1, Free(b.Rate.Seconds(25)))), SetStart(2, Free(b.Rate.Seconds(35))))
	narrow = do(t, narrow, Split(1, 28))
	refused(t, narrow, PutOnBeat(2), "no beat between")
	refused(t, b, PutOnBeat(0), "no such panel")
	if _, ok := atFrames(0, 5, 10).OffBeat([]Frame{0, 5, 10}, 1); ok {
		t.Error("without beats there is a distance to one")
	}
}
