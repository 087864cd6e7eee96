package assets

import (
	"bytes"
	"image/png"
	"testing"

	"stillbeat/assets/internal/icon"
)

// The embedded file must be what the code draws; go generate rewrites it.
func TestIconIsWhatTheCodeDraws(t *testing.T) {
	file, err := png.Decode(bytes.NewReader(Icon))
	if err != nil {
		t.Fatal(err)
	}
	drawn := icon.Draw()
	if file.Bounds() != drawn.Bounds() || file.Bounds().Dx() != 512 || file.Bounds().Dy() != 512 {
		t.Fatalf("icon is %v, drawn %v, want 512 by 512", file.Bounds(), drawn.Bounds())
	}
	// One or two steps of rounding may differ between machines.
	const near = 0x0300
	for y := range 512 {
		for x := range 512 {
			r, g, b, a := file.At(x, y).RGBA()
			p, q, s, o := drawn.At(x, y).RGBA()
			for i, d := range [4]int{int(r) - int(p), int(g) - int(q), int(b) - int(s), int(a) - int(o)} {
				if d > near || d < -near {
					t.Fatalf("pixel (%d, %d) differs in channel %d by %d: run go generate ./assets", x, y, i, d)
				}
			}
		}
	}
	if _, _, _, a := drawn.At(0, 0).RGBA(); a != 0 {
		t.Error("the corner is not transparent")
	}
	if _, _, _, a := drawn.At(256, 384).RGBA(); a != 0xffff {
		t.Error("the middle is not opaque")
	}
}
