package picture

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"testing"
)

// tiffBlock returns the smallest TIFF block that notes a turn, behind another
// entry, in the byte order "II" or "MM" (TIFF 6.0, section 2).
func tiffBlock(mark string, o uint16) []byte {
	var order binary.AppendByteOrder = binary.LittleEndian
	if mark == "MM" {
		order = binary.BigEndian
	}
	b := order.AppendUint16([]byte(mark), 42)
	b = order.AppendUint32(b, 8) // where the directory begins
	b = order.AppendUint16(b, 2) // entries
	for _, e := range []struct{ tag, value uint16 }{{0x0103, 6}, {0x0112, o}} {
		b = order.AppendUint16(b, e.tag)
		b = order.AppendUint16(b, 3) // SHORT
		b = order.AppendUint32(b, 1)
		b = order.AppendUint16(b, e.value)
		b = append(b, 0, 0)
	}
	return order.AppendUint32(b, 0)
}

// segment returns one JPEG segment.
func segment(marker byte, body []byte) []byte {
	return append(binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(2+len(body))), body...)
}

// withEXIF puts a TIFF block into a JPEG, in a segment right after its first
// two bytes, where EXIF 2.3 (4.5.4) wants it.
func withEXIF(photo, block []byte) []byte {
	return withSegments(photo, segment(0xe1, append([]byte("Exif\x00\x00"), block...)))
}

func withSegments(photo []byte, segments ...[]byte) []byte {
	return append(append([]byte{0xff, 0xd8}, bytes.Join(segments, nil)...), photo[2:]...)
}

// sides says on which side of the upright picture the stored picture's row 0
// and column 0 lie: TIFF 6.0, page 36, "Orientation", tag 274 (0x0112), in its
// words; EXIF 2.3 takes the table over.
var sides = [9]struct{ row0, column0 string }{
	1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
	5: {"left", "top"}, 6: {"right", "top"}, 7: {"right", "bottom"}, 8: {"left", "bottom"},
}

// uprightQuarters works out from the table where the stored quarters end up.
func uprightQuarters(o int) [4]color.RGBA {
	opposite := map[string]string{"top": "bottom", "bottom": "top", "left": "right", "right": "left"}
	var out [4]color.RGBA
	for i, c := range quarters {
		row, column := sides[o].row0, sides[o].column0 // the sides this quarter touches
		if i >= 2 {
			row = opposite[row]
		}
		if i%2 == 1 {
			column = opposite[column]
		}
		at := 0
		for _, side := range []string{row, column} {
			switch side {
			case "right":
				at++
			case "bottom":
				at += 2
			}
		}
		out[at] = c
	}
	return out
}

func TestTurns(t *testing.T) {
	photo := asJPEG(t, quartered(48, 32))
	for _, mark := range []string{"II", "MM"} {
		for o := 1; o <= 8; o++ {
			t.Run(fmt.Sprintf("turn %d in %s", o, mark), func(t *testing.T) {
				data := withEXIF(photo, tiffBlock(mark, uint16(o)))
				want := image.Pt(48, 32)
				if o >= 5 {
					want = image.Pt(32, 48)
				}
				if w, h, err := Probe(data); image.Pt(w, h) != want || err != nil {
					t.Errorf("Probe = %d, %d, %v, want %v", w, h, err, want)
				}
				img, err := Decode(data)
				if err != nil {
					t.Fatal(err)
				}
				if img.Bounds() != (image.Rectangle{Max: want}) {
					t.Errorf("the picture is %v, want %v", img.Bounds(), want)
				}
				checkCorners(t, img, uprightQuarters(o), 8)

				// The cache turns after scaling and must come to the same.
				drawn, err := NewCache(&media{"photo": data}, 0).Draw(PictureShot("photo", 40, 30), 40, 30)
				if err != nil {
					t.Fatal(err)
				}
				if d := furthest(drawn, fitted(img, 40, 30)); d > 24 {
					t.Errorf("turned after scaling it differs by up to %d", d)
				}
				checkCorners(t, drawn.SubImage(Fit(want.X, want.Y, drawn.Bounds())), uprightQuarters(o), 8)
			})
		}
	}
}

// TestTurnOfEachPixel compares a turn with itself done over: each turn but 6
// and 8 is its own inverse, and those undo each other.
func TestTurnOfEachPixel(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 5, 3))
	for i := range img.Pix {
		img.Pix[i] = byte(i)
	}
	for o := turn(1); o <= 8; o++ {
		back := o
		if o == 6 || o == 8 {
			back = 14 - o
		}
		got := back.apply(o.apply(img)).(*image.RGBA)
		if got.Rect != img.Rect || !bytes.Equal(got.Pix, img.Pix) {
			t.Errorf("turn %d and back is another picture", o)
		}
	}
}

func TestOrientation(t *testing.T) {
	photo := asJPEG(t, quartered(16, 8))
	plain := func(b []byte) []byte { return segment(0xe1, append([]byte("Exif\x00\x00"), b...)) }
	xmp := segment(0xe1, []byte("http://ns.adobe.com/xap/1.0/\x00<x/>"))
	cut := tiffBlock("II", 6)
	far := bytes.Clone(tiffBlock("II", 6))
	binary.LittleEndian.PutUint32(far[4:], 0xffffffff)
	many := bytes.Clone(tiffBlock("MM", 6))
	binary.BigEndian.PutUint16(many[8:], 0xffff)
	for _, c := range []struct {
		name string
		data []byte
		want turn
	}{
		{"no segment", photo, 1},
		{"a turn", withEXIF(photo, tiffBlock("II", 6)), 6},
		{"behind another APP1", withSegments(photo, xmp, plain(tiffBlock("MM", 8))), 8},
		{"behind JFIF and a comment", withSegments(photo, segment(0xe0, []byte("JFIF\x00")), segment(0xfe, []byte("cup")), plain(tiffBlock("MM", 3))), 3},
		{"behind fill bytes (ITU-T T.81, B.1.1.2)", withSegments(photo, []byte{0xff, 0xff}, plain(tiffBlock("II", 6))), 6},
		{"a turn of 0", withEXIF(photo, tiffBlock("II", 0)), 1},
		{"a turn of 9", withEXIF(photo, tiffBlock("MM", 9)), 1},
		{"no byte order", withEXIF(photo, append([]byte("XX"), tiffBlock("II", 6)[2:]...)), 1},
		{"byte order mixed up", withEXIF(photo, append([]byte("MM"), tiffBlock("II", 6)[2:]...)), 1},
		{"directory far away", withEXIF(photo, far), 1},
		{"more entries than bytes", withEXIF(photo, many), 6},
		{"cut in the entry", withEXIF(photo, cut[:28]), 1},
		{"empty block", withEXIF(photo, nil), 1},
		{"segment longer than the file", withEXIF(photo, tiffBlock("II", 6))[:20], 1},
		{"segment of length 0", withSegments(photo, []byte{0xff, 0xe1, 0, 0}), 1},
		{"only the start of a JPEG", []byte{0xff, 0xd8}, 1},
		{"not a JPEG", asPNG(t, quartered(4, 4)), 1},
	} {
		if got := orientation(c.data); got != c.want {
			t.Errorf("%s: orientation = %d, want %d", c.name, got, c.want)
		}
	}
}

func FuzzOrientation(f *testing.F) {
	photo := asJPEG(f, quartered(16, 8))
	f.Add(photo)
	for o := range uint16(10) {
		f.Add(withEXIF(photo, tiffBlock("II", o)))
		f.Add(withEXIF(photo, tiffBlock("MM", o)))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if o := orientation(data); o < 1 || o > 8 {
			t.Fatalf("orientation = %d", o)
		}
		tiffTags(data)
	})
}
