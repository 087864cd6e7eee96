package ui

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"math"
	"os"
	"runtime"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// A colour written down elsewhere, or a line not made by written, would stay
// as it is when the look changes.
func TestColoursAndTextsFollowTheLook(t *testing.T) {
	files := token.NewFileSet()
	parsed := 0
	err := fs.WalkDir(os.DirFS("."), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") || strings.Contains(name, "/") {
			return err
		}
		file, err := parser.ParseFile(files, name, nil, 0)
		if err != nil {
			return err
		}
		parsed++
		is := func(e ast.Expr, pkg string, names ...string) bool {
			s, ok := e.(*ast.SelectorExpr)
			if !ok {
				return false
			}
			x, ok := s.X.(*ast.Ident)
			return ok && x.Name == pkg && strings.Contains(" "+strings.Join(names, " ")+" ", " "+s.Sel.Name+" ")
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CompositeLit:
				if name != "look.go" && len(n.Elts) > 0 && is(n.Type, "color", "RGBA", "NRGBA", "RGBA64", "Gray") {
					t.Errorf("%s: a colour of its own; it belongs into the palette", files.Position(n.Pos()))
				}
			case *ast.CallExpr:
				if name != "look_text.go" && is(n.Fun, "canvas", "NewText") {
					t.Errorf("%s: use written, which follows look and size of text", files.Position(n.Pos()))
				}
			}
			return true
		})
		return nil
	})
	if err != nil || parsed < 30 {
		t.Fatalf("%d files parsed: %v", parsed, err)
	}
}

func TestSizeOfText(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4)
	do := func(name string) { w.keys.named[name].run() }
	w.timeline.ZoomBy(2)
	from, to := w.timeline.view.from, w.timeline.view.to()
	before := w.deck.clock.MinSize()
	do("Larger text")
	do("Larger text")
	if textPercent != 125 {
		t.Fatalf("two steps up lead to %d %%, want 125", textPercent)
	}
	if got, want := w.deck.clock.TextSize, float32(20); got != want {
		t.Errorf("the clock's text is %g high, want %g", got, want)
	}
	if got := w.deck.clock.MinSize(); got.Width < 1.2*before.Width {
		t.Errorf("the clock is %v, before it was %v", got, before)
	}
	v := &w.timeline.view
	if math.Abs(v.from-from) > 1e-6 || math.Abs(v.to()-to) > 0.02 {
		t.Errorf("in sight are %g to %g s, before it was %g to %g", v.from, v.to(), from, to)
	}
	if got := float64(w.timeline.Size().Width); math.Abs(v.width*1.25-got) > 0.01 {
		t.Errorf("the view is %g wide in a timeline of %g", v.width, got)
	}
	// A clip is grabbed where it is seen.
	press(w, 1.25*v.frameX(w.starts[1]), 1.25*v.lineY())
	if w.timeline.drag.mode != dragStart || w.timeline.drag.start != 1 {
		t.Errorf("a press on the clip of panel 2 begins %+v", w.timeline.drag)
	}
	w.timeline.MouseUp(nil)
	w.wear(worn, 140)
	do("Larger text")
	do("Larger text")
	if textPercent != 150 || w.keys.named["Larger text"].can() {
		t.Errorf("the largest text is %d %%", textPercent)
	}
	do("Usual size of text")
	do("Smaller text")
	do("Smaller text")
	if textPercent != 85 {
		t.Errorf("the smallest text is %d %%, want 85", textPercent)
	}
}

func TestLargerTextFitsASmallWindow(t *testing.T) {
	w := openWindow(t)
	// 1100 x 700 less the window manager's border and a menu in larger text.
	fits := func(when string) {
		t.Helper()
		if least := w.body.MinSize(); least.Width > 1090 || least.Height > 610 {
			t.Errorf("%s the window needs %v, want at most 1090 x 610 below its menu", when, least)
		}
	}
	w.wear(looks[2], 125)
	fits("empty")
	bringIn(t, w, 3)
	w.wear(looks[2], 125)
	fits("with a film")
	w.wear(looks[0], 150)
	if least := w.win.Content().MinSize(); least.Width > 500 || least.Height > 400 {
		t.Errorf("at 150 %% the window cannot be smaller than %v", least)
	}
	if got := w.welcome.root.MinSize(); got.Height > 200 {
		t.Errorf("the welcome does not scroll: it needs %v", got)
	}
}

func TestTextsThatAreGoneAreForgotten(t *testing.T) {
	runtime.GC()
	pruneAt = 0
	keep := written("kept", ink, 12, false)
	others := len(dressed) // those of windows of tests before may be in use yet
	for range 8 {
		for range 2000 {
			written("gone", ink, 12, false)
		}
		runtime.GC()
	}
	if n := len(dressed); n > 2*others+4000 {
		t.Errorf("%d texts are remembered, %d of them in use", n, others)
	}
	dressFor(t, looks[1], 150)
	redress()
	if keep.TextSize != 18 || rgbaOf(keep.Color) != looks[1].palette[ink] {
		t.Errorf("the text still there is %g high in %v", keep.TextSize, keep.Color)
	}
	tinted(keep, red)
	worn = looks[2]
	redress()
	if rgbaOf(keep.Color) != looks[2].palette[red] {
		t.Errorf("with another tint it is %v", keep.Color)
	}
}

func TestWallGrowsWithTheText(t *testing.T) {
	w := onWall(t, 6)
	usual := w.wall.wall.view.width
	w.wear(worn, 125)
	l := w.wall.wall
	if got := l.view.width; math.Abs(got*1.25-usual) > 0.01 {
		t.Errorf("at 125 %% the wall is %g units of text wide, want %g", got, usual/1.25)
	}
	// A card is chosen where it is seen.
	at := onCard(w, 3, 0.5)
	l.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary,
		PointEvent: fyne.PointEvent{Position: fyne.NewPos(1.25*at.X, 1.25*at.Y)}})
	l.MouseUp(nil)
	if w.chosen != 3 {
		t.Errorf("a press on the card of panel 4 chooses panel %d", w.chosen+1)
	}
	x, _ := l.view.card(3)
	if got := l.renderer.line.Position().X; math.Abs(float64(got)+0.75-1.25*x) > 0.1 {
		t.Errorf("the playhead is at %g, want %g", got, 1.25*x)
	}
}
