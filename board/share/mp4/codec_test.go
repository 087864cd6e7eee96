package mp4

import (
	"bytes"
	"image"
	"image/color"
	"math/rand/v2"
	"testing"

	"github.com/Eyevinn/mp4ff/avc"
)

// TestLevel checks levels against the table of ISO/IEC 14496-10, A-1, as worked
// out for common sizes.
func TestLevel(t *testing.T) {
	tests := []struct {
		w, h     int
		num, den int64
		want     int
	}{
		{64, 48, 24, 1, 30},
		{640, 480, 24, 1, 30},
		{640, 480, 60, 1, 31},
		{1280, 720, 24, 1, 31},
		{1280, 720, 30, 1, 31},
		{1280, 720, 30000, 1001, 31},
		{1280, 720, 31, 1, 32},
		{720, 1280, 24, 1, 31},
		{1080, 1080, 24, 1, 32},
		{1920, 804, 24, 1, 40},
		{1920, 1080, 24, 1, 40},
		{1920, 1080, 25, 1, 40},
		{1920, 1080, 30, 1, 40},
		{1080, 1920, 24, 1, 40},
		{1920, 1080, 60, 1, 42},
		{2048, 1088, 24, 1, 42},
		{2560, 1440, 24, 1, 50},
		{3840, 2160, 24, 1, 51},
		{3840, 2160, 60, 1, 52},
		{3840, 2160, 64, 1, 52},
		{3840, 2160, 65, 1, 0},
		{4096, 2304, 24, 1, 51},
		{4096, 2320, 24, 1, 0},
		{1824, 16, 24, 1, 31}, // 114 macroblocks across, past the root of 8 x 1620
		{16, 8704, 1, 1, 0},
	}
	for _, tt := range tests {
		got, err := levelFor(tt.w, tt.h, tt.num, tt.den, 0)
		if got != tt.want || (err == nil) != (tt.want > 0) {
			t.Errorf("levelFor(%d, %d, %d/%d) = %d, %v; want %d", tt.w, tt.h, tt.num, tt.den, got, err, tt.want)
		}
	}
}

// TestColour checks flat colours against 100 % colour bars in 8-bit BT.709
// limited range, from the formulas of ITU-R BT.709-6.
func TestColour(t *testing.T) {
	for name, tt := range map[string]struct {
		in        color.RGBA
		y, cb, cr uint8
	}{
		"black":   {color.RGBA{0, 0, 0, 255}, 16, 128, 128},
		"white":   {color.RGBA{255, 255, 255, 255}, 235, 128, 128},
		"grey":    {color.RGBA{128, 128, 128, 255}, 126, 128, 128},
		"red":     {color.RGBA{255, 0, 0, 255}, 63, 102, 240},
		"green":   {color.RGBA{0, 255, 0, 255}, 173, 42, 26},
		"blue":    {color.RGBA{0, 0, 255, 255}, 32, 240, 118},
		"yellow":  {color.RGBA{255, 255, 0, 255}, 219, 16, 138},
		"cyan":    {color.RGBA{0, 255, 255, 255}, 188, 154, 16},
		"magenta": {color.RGBA{255, 0, 255, 255}, 78, 214, 230},
	} {
		dst := newPicture(8, 6)
		toYCbCr(dst, flat(7, 5, tt.in), nil)
		for i, plane := range [][]uint8{dst.Y, dst.Cb, dst.Cr} {
			for _, v := range plane {
				if want := []uint8{tt.y, tt.cb, tt.cr}[i]; v != want {
					t.Errorf("%s, plane %d: %d, want %d", name, i, v, want)
					break
				}
			}
		}
	}
}

// TestChromaSite: chroma weighs the columns around each even one 1, 2, 1.
func TestChromaSite(t *testing.T) {
	blue := color.RGBA{0, 0, 255, 255} // Cb 240, 112 above black's
	for x, want := range [][4]uint8{
		{128 + 84, 128, 128, 128}, // the first column stands for the one left of it too
		{128 + 28, 128 + 28, 128, 128},
		{128, 128 + 56, 128, 128},
		{128, 128 + 28, 128 + 28, 128},
	} {
		src := flat(8, 2, color.RGBA{A: 255})
		src.SetRGBA(x, 0, blue)
		src.SetRGBA(x, 1, blue)
		dst := newPicture(8, 2)
		toYCbCr(dst, src, nil)
		if got := [4]uint8(dst.Cb[:4]); got != want {
			t.Errorf("blue in column %d: Cb %v, want %v", x, got, want)
		}
	}
}

// TestSubImage converts a part of a larger picture.
func TestSubImage(t *testing.T) {
	big := drawing(64, 64, 5)
	part := big.SubImage(image.Rect(9, 7, 41, 39)).(*image.RGBA)
	copied := image.NewRGBA(image.Rect(0, 0, 32, 32))
	for y := range 32 {
		for x := range 32 {
			copied.SetRGBA(x, y, big.RGBAAt(9+x, 7+y))
		}
	}
	a, b := newPicture(32, 32), newPicture(32, 32)
	toYCbCr(a, part, nil)
	toYCbCr(b, copied, nil)
	if !bytes.Equal(a.Y, b.Y) || !bytes.Equal(a.Cb, b.Cb) || !bytes.Equal(a.Cr, b.Cr) {
		t.Error("a part of a picture converts otherwise than its copy")
	}
}

// TestParameterSets reads ours back with another reader.
func TestParameterSets(t *testing.T) {
	film := flatFilm(1920, 1080, 30000, 1001, 30)
	p, err := newPlan(film, Options{})
	if err != nil {
		t.Fatal(err)
	}
	sps, err := avc.ParseSPSNALUnit(sequenceParams(p), true)
	if err != nil {
		t.Fatal(err)
	}
	v := sps.VUI
	if sps.Width != 1920 || sps.Height != 1080 || sps.Level != 40 || sps.Profile != 66 || sps.ProfileCompatibility != 0xc0 ||
		sps.PicOrderCntType != 2 || sps.NumRefFrames != 1 {
		t.Errorf("sequence parameters %+v", sps)
	}
	if v.NumUnitsInTick != 1001 || v.TimeScale != 60000 || !v.FixedFrameRateFlag || v.ColourPrimaries != 1 ||
		v.TransferCharacteristics != 1 || v.MatrixCoefficients != 1 || v.VideoFullRangeFlag ||
		!v.BitstreamRestrictionFlag || v.MaxNumReorderFrames != 0 || v.MaxDecFrameBuffering != 1 {
		t.Errorf("usability information %+v", v)
	}
	pps, err := avc.ParsePPSNALUnit(pictureParams(), map[uint32]*avc.SPS{0: sps})
	if err != nil {
		t.Fatal(err)
	}
	if err := checkSource(sps, pps); err != nil {
		t.Errorf("our own picture parameters %+v: %v", pps, err)
	}
}

// TestSliceHeaders reads the headers of coded and held pictures with another
// reader: frame_num counts from each IDR picture on, and neighbouring IDR
// pictures differ in idr_pic_id (ISO/IEC 14496-10, 7.4.3).
func TestSliceHeaders(t *testing.T) {
	p, err := newPlan(flatFilm(64, 48, 24, 1, 24), Options{})
	if err != nil {
		t.Fatal(err)
	}
	c, err := newCoder(p)
	if err != nil {
		t.Fatal(err)
	}
	defer c.close()
	sps, err := avc.ParseSPSNALUnit(sequenceParams(p), true)
	if err != nil {
		t.Fatal(err)
	}
	pps, err := avc.ParsePPSNALUnit(pictureParams(), map[uint32]*avc.SPS{0: sps})
	if err != nil {
		t.Fatal(err)
	}
	img, frameNum, idrID := newPicture(64, 48), uint32(0), uint32(99)
	for n := range 700 {
		toYCbCr(img, flat(64, 48, flatColour(int64(n/2))), nil)
		isKey := n%300 == 0 || n == 1
		var sample []byte
		if isKey || n%3 == 0 {
			if sample, err = c.picture(img, isKey); err != nil {
				t.Fatal(err)
			}
		} else {
			sample = c.held()
		}
		h, err := avc.ParseSliceHeader(sample[4:], map[uint32]*avc.SPS{0: sps}, map[uint32]*avc.PPS{0: pps})
		if err != nil {
			t.Fatalf("picture %d: %v", n, err)
		}
		if isKey {
			if h.IDRPicID == idrID {
				t.Errorf("picture %d: idr_pic_id %d as the IDR picture before", n, idrID)
			}
			frameNum, idrID = 0, h.IDRPicID
		}
		if kind := avc.GetNaluType(sample[4]); h.FrameNum != frameNum || (kind == avc.NALU_IDR) != isKey {
			t.Errorf("picture %d: frame_num %d, %v; want %d, key %v", n, h.FrameNum, kind, frameNum, isKey)
		}
		frameNum = (frameNum + 1) % 256
	}
}

// TestBits writes values and reads them again.
func TestBits(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	var w bitWriter
	type value struct {
		kind, n int
		v       int64
	}
	var values []value
	for range 5000 {
		x := value{kind: rnd.IntN(3), n: 1 + rnd.IntN(32)}
		switch x.kind {
		case 0:
			x.v = rnd.Int64N(1 << x.n)
			w.u(x.n, uint64(x.v))
		case 1:
			x.v = rnd.Int64N(1 << 30)
			w.ue(uint64(x.v))
		case 2:
			x.v = rnd.Int64N(1<<20) - 1<<19
			w.se(x.v)
		}
		values = append(values, x)
	}
	nalUnit := nal(nalIDR, w.end())
	for i := range nalUnit[:len(nalUnit)-2] {
		if bytes.Equal(nalUnit[i:i+2], []byte{0, 0}) && nalUnit[i+2] < 3 {
			t.Fatalf("a start code at byte %d", i)
		}
	}
	r := bitReader{buf: unescape(nalUnit), at: 8}
	for i, x := range values {
		var got int64
		switch x.kind {
		case 0:
			got = int64(r.u(x.n))
		case 1:
			got = int64(r.ue())
		case 2:
			got = r.se()
		}
		if got != x.v {
			t.Fatalf("value %d: read %d, wrote %+v", i, got, x)
		}
	}
	if r.short {
		t.Error("the reader ran short")
	}
}

// TestExpGolomb checks codes against ISO/IEC 14496-10, tables 9-2 and 9-3.
func TestExpGolomb(t *testing.T) {
	for _, tt := range []struct {
		ue   uint64
		se   int64
		want string
	}{{0, 0, "1"}, {1, 1, "010"}, {2, -1, "011"}, {3, 2, "00100"}, {4, -2, "00101"}, {8, -4, "0001001"}} {
		for name, write := range map[string]func(*bitWriter){
			"ue": func(w *bitWriter) { w.ue(tt.ue) }, "se": func(w *bitWriter) { w.se(tt.se) },
		} {
			var w bitWriter
			write(&w)
			r := bitReader{buf: w.end()}
			got := ""
			for range tt.want {
				got += string('0' + rune(r.u(1)))
			}
			if got != tt.want {
				t.Errorf("%s of %d or %d: %s, want %s", name, tt.ue, tt.se, got, tt.want)
			}
		}
	}
}

// TestEscape checks emulation prevention (ISO/IEC 14496-10, 7.4.1).
func TestEscape(t *testing.T) {
	for _, tt := range []struct{ in, want []byte }{
		{[]byte{0, 0, 0}, []byte{0, 0, 3, 0}},
		{[]byte{0, 0, 1}, []byte{0, 0, 3, 1}},
		{[]byte{0, 0, 3}, []byte{0, 0, 3, 3}},
		{[]byte{0, 0, 4}, []byte{0, 0, 4}},
		{[]byte{0, 0, 0, 0, 0}, []byte{0, 0, 3, 0, 0, 3, 0}},
		{[]byte{1, 0, 2, 0, 0, 9}, []byte{1, 0, 2, 0, 0, 9}},
	} {
		got := escape(nil, tt.in)
		if !bytes.Equal(got, tt.want) {
			t.Errorf("escape(%v) = %v, want %v", tt.in, got, tt.want)
		}
		if back := unescape(got); !bytes.Equal(back, tt.in) {
			t.Errorf("unescape(%v) = %v, want %v", got, back, tt.in)
		}
	}
}

// FuzzRewrite: whatever stands in a slice, rewriting refuses it or returns a
// slice of about its length; it does not panic.
func FuzzRewrite(f *testing.F) {
	p, err := newPlan(flatFilm(64, 48, 24, 1, 24), Options{})
	if err != nil {
		f.Fatal(err)
	}
	enc, err := openEncoder(64, 48, 24, 26)
	if err != nil {
		f.Fatal(err)
	}
	defer enc.close()
	var sps *avc.SPS
	var pps *avc.PPS
	img := newPicture(64, 48)
	for n := range 3 {
		toYCbCr(img, drawing(64, 48, int64(n)), nil)
		stream, err := enc.encode(img, n == 0)
		if err != nil {
			f.Fatal(err)
		}
		for _, unit := range avc.ExtractNalusFromByteStream(stream) {
			switch avc.GetNaluType(unit[0]) {
			case avc.NALU_SPS:
				sps, err = avc.ParseSPSNALUnit(unit, false)
			case avc.NALU_PPS:
				pps, err = avc.ParsePPSNALUnit(unit, map[uint32]*avc.SPS{0: sps})
			default:
				f.Add(unit)
			}
			if err != nil {
				f.Fatal(err)
			}
		}
	}
	f.Add([]byte{0x65})
	f.Fuzz(func(t *testing.T, unit []byte) {
		if len(unit) == 0 {
			return
		}
		c := &coder{sps: sps, pps: pps, macroblocks: macroblocks(p.width) * macroblocks(p.height)}
		sample, err := c.rewrite(unit, false)
		if err == nil && len(sample) > 2*len(unit)+16 {
			t.Errorf("%d bytes became %d", len(unit), len(sample))
		}
	})
}

func TestSplitADTS(t *testing.T) {
	frame := func(payload ...byte) []byte {
		n := 7 + len(payload)
		return append([]byte{0xff, 0xf1, 0x4c, 0x80 | byte(n>>11), byte(n >> 3), byte(n<<5) | 0x1f, 0xfc}, payload...)
	}
	t.Run("packets cut anywhere", func(t *testing.T) {
		out := make(chan []byte, 2)
		s := &adtsSplitter{out: out, left: 2}
		for _, b := range append(frame(1, 2, 3), frame(4)...) {
			if _, err := s.Write([]byte{b}); err != nil {
				t.Fatal(err)
			}
		}
		if a, b := <-out, <-out; !bytes.Equal(a, []byte{1, 2, 3}) || !bytes.Equal(b, []byte{4}) || s.left != 0 {
			t.Errorf("packets %v and %v", a, b)
		}
	})
	for name, in := range map[string][]byte{
		"noise":         {1, 2, 3, 4, 5, 6, 7},
		"empty frame":   frame(),
		"one too many":  append(frame(1), frame(2)...),
		"wrong in sync": {0xff, 0xe1, 0, 0, 0, 0, 0},
	} {
		t.Run(name, func(t *testing.T) {
			s := &adtsSplitter{out: make(chan []byte, 2), left: 1}
			if _, err := s.Write(in); err == nil {
				t.Error("taken without an error")
			}
		})
	}
}
