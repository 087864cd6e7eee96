package file

import (
	"bytes"
	"compress/flate"
	"strings"
	"testing"
)

func FuzzPatch(f *testing.F) {
	f.Add([]byte(`{"a":1,"b":2,"c":3}`), []byte(`{"a":1,"b":20,"c":30}`))
	f.Add([]byte(`{"panels":[{},{}]}`), []byte(`{"panels":[{},{"note":"tea"},{}]}`))
	f.Add([]byte(""), []byte("tea"))
	f.Add([]byte("aaaa"), []byte("aa"))
	f.Add(bytes.Repeat([]byte("spoon,"), 3000), bytes.Repeat([]byte("spoon,"), 3001))
	f.Fuzz(func(t *testing.T, before, after []byte) {
		patch := makePatch(before, after)
		if got, err := applyPatch(before, patch, false, 1<<20); err != nil || !bytes.Equal(got, after) {
			t.Errorf("forth: %q, %v, want %q", got, err, after)
		}
		if got, err := applyPatch(after, patch, true, 1<<20); err != nil || !bytes.Equal(got, before) {
			t.Errorf("back: %q, %v, want %q", got, err, before)
		}
		if got, err := applyPatch(before, after, false, 100); err == nil && len(got) > 100 { // no patch at all
			t.Errorf("%d bytes, more than the limit", len(got))
		}
		if got, err := unpack(pack(after)); err != nil || !bytes.Equal(got, after) {
			t.Errorf("packed: %q, %v", got, err)
		}
	})
}

// TestPatchesAreSmall changes every panel of a board as an edit that moves
// them all does.
func TestPatchesAreSmall(t *testing.T) {
	b := longBoard(500, 1500, 3000)
	before, err := newText(b, text{})
	if err != nil {
		t.Fatal(err)
	}
	for i := range b.Panels {
		b.Panels[i].Start.Time += 1. / 24
	}
	after, err := newText(b, before)
	if err != nil {
		t.Fatal(err)
	}
	if got := len(before.patchTo(after)); got > len(after.board)/5 {
		t.Errorf("the patch takes %d bytes, the board %d", got, len(after.board))
	}
	if got := len(after.patchTo(after)); got > 20 {
		t.Errorf("a patch that changes nothing takes %d bytes", got)
	}
}

func TestPackedBombs(t *testing.T) {
	for _, text := range []string{"", "tea", strings.Repeat("w", 1<<18), strings.Repeat("spoon", 1<<18)} {
		packed := pack([]byte(text))
		if len(text) > unpacked(len(packed)) {
			t.Errorf("%d bytes are packed into %d", len(text), len(packed))
		}
		if got, err := unpack(packed); err != nil || string(got) != text {
			t.Errorf("%d bytes came back as %d, %v", len(text), len(got), err)
		}
	}
	bomb := deflate(make([]byte, 4<<20), flate.BestCompression)
	if got, err := unpack(bomb); err == nil || got != nil {
		t.Errorf("%d packed bytes gave %d, %v", len(bomb), len(got), err)
	}
}
