package printed

import (
	"bytes"
	"fmt"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// TestEstimateAgainstTheFile holds what is told before against what is
// written.
func TestEstimateAgainstTheFile(t *testing.T) {
	drawn := many(t, 24)
	for i := range drawn.Panels {
		drawn.Panels[i].Picture = ring(i + 1)
	}
	scripts := many(t, 40)
	for i := range scripts.Panels {
		scripts.Panels[i].Action = []string{"茶壶跳向糖罐", "إبريق الشاي يقفز", "Чайник прыгает"}[i%3] + fmt.Sprint(i)
	}
	for name, tt := range map[string]struct {
		b board.Board
		o Options
	}{
		"a few panels":         {teaTable(t), Options{Wave: hum}},
		"many pictures":        {drawn, Options{PerPage: 4, Landscape: true}},
		"twelve a page":        {drawn, Options{PerPage: 12, Paper: "letter"}},
		"words in any script":  {scripts, Options{PerPage: 2}},
		"pages without a note": {many(t, 100), Options{}},
	} {
		pics := picture.NewCache(rings{}, 0)
		g, err := Estimate(t.Context(), tt.b, pics, tt.o)
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := Board(t.Context(), &out, tt.b, pics, tt.o); err != nil {
			t.Fatal(err)
		}
		within := g.Within + int64(out.Len())/50
		if off := int64(out.Len()) - g.Bytes; max(off, -off) > within {
			t.Errorf("%s: %d bytes, guessed %d within %d", name, out.Len(), g.Bytes, g.Within)
		}
		if g.Within > g.Bytes/3 {
			t.Errorf("%s: a guess of %d within %d says little", name, g.Bytes, g.Within)
		}
	}
	if _, err := Estimate(t.Context(), board.New(), nil, Options{}); err != ErrEmpty {
		t.Errorf("a film without panels: %v", err)
	}
}
