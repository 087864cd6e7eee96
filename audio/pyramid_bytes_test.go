package audio

import (
	"bytes"
	"encoding/binary"
	"math"
	"testing"

	"stillbeat/audio/clip"
)

func marshalled(t testing.TB, c *clip.Clip) []byte {
	t.Helper()
	p := &Pyramid{}
	feed(t, c, p)
	data, err := p.MarshalBinary()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestPyramidComesBackFromItsBytes(t *testing.T) {
	loud, soft := noise(8000, 2, 50_000), noise(8000, 1, 777)
	for i := range loud.Samples[0] {
		loud.Samples[0][i] *= 200
	}
	for i := range soft.Samples[0] {
		soft.Samples[0][i] *= 1e-6
	}
	full := &clip.Clip{Rate: 8000, Samples: [][]float32{{1, -1, 1, 1}}}
	for _, c := range []struct {
		name string
		clip *clip.Clip
	}{
		{"noise", noise(44100, 2, 100_001)}, {"louder than full scale", loud}, {"soft", soft}, {"full scale", full},
		{"silence", &clip.Clip{Rate: 8000, Samples: [][]float32{make([]float32, 1000)}}},
		{"one sample", &clip.Clip{Rate: 8000, Samples: [][]float32{{0.25}}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			want := &Pyramid{}
			feed(t, c.clip, want)
			data := marshalled(t, c.clip)
			var got Pyramid
			if err := got.UnmarshalBinary(data); err != nil {
				t.Fatal(err)
			}
			again, err := got.MarshalBinary()
			if err != nil || !bytes.Equal(again, data) {
				t.Errorf("written again it differs, %v", err)
			}
			seconds := float64(c.clip.Len()) / float64(c.clip.Rate)
			peak := want.Columns(make([]Column, 1), 0, seconds)[0]
			step := float64(max(peak.Max, -peak.Min)) / (1 << 14)
			a, b := want.Columns(make([]Column, 50), -0.1, seconds+0.1), got.Columns(make([]Column, 50), -0.1, seconds+0.1)
			for i := range a {
				for _, d := range []float32{a[i].Min - b[i].Min, a[i].Max - b[i].Max, a[i].RMS - b[i].RMS} {
					if math.Abs(float64(d)) > step {
						t.Fatalf("column %d is %+v, want %+v", i, b[i], a[i])
					}
				}
			}
		})
	}
}

// TestPyramidBytesAreFew: 300 kB for three minutes is what a film may spend.
func TestPyramidBytesAreFew(t *testing.T) {
	const seconds = 18
	if n := len(marshalled(t, noise(44100, 2, seconds*44100))); n*180/seconds > 300_000 {
		t.Errorf("%d bytes for %d s", n, seconds)
	}
}

func TestPyramidBytesRefused(t *testing.T) {
	good := marshalled(t, noise(8000, 1, 1000))
	change := func(f func(b []byte)) []byte {
		b := bytes.Clone(good)
		f(b)
		return b
	}
	le := binary.LittleEndian
	for name, data := range map[string][]byte{
		"empty":              nil,
		"head only":          good[:waveHead],
		"cut":                good[:len(good)-1],
		"a byte more":        append(bytes.Clone(good), 0),
		"other magic":        change(func(b []byte) { b[0] = 'W' }),
		"newer version":      change(func(b []byte) { b[4]++ }),
		"absurd loudness":    change(func(b []byte) { b[5] = 17 }),
		"no rate":            change(func(b []byte) { le.PutUint32(b[6:], 0) }),
		"no samples":         change(func(b []byte) { le.PutUint64(b[10:], 0) })[:waveHead],
		"samples not there":  change(func(b []byte) { le.PutUint64(b[10:], 1<<40) }),
		"absurd length":      change(func(b []byte) { le.PutUint64(b[10:], math.MaxUint64) }),
		"least above most":   change(func(b []byte) { le.PutUint16(b[waveHead:], 0x7FFF); le.PutUint16(b[waveHead+2:], 0) }),
		"mean above extreme": change(func(b []byte) { copy(b[waveHead:], []byte{0, 0, 1, 0, 9, 0}) }),
	} {
		p := pyramid(t, noise(8000, 1, 300))
		if err := p.UnmarshalBinary(data); err == nil || p.length != 300 {
			t.Errorf("%s: error %v, %d samples", name, err, p.length)
		}
	}
	if _, err := new(Pyramid).MarshalBinary(); err == nil {
		t.Error("the waveform of nothing has bytes")
	}
}

func FuzzPyramidBytes(f *testing.F) {
	f.Add(marshalled(f, noise(8000, 1, 1000)))
	f.Add(marshalled(f, &clip.Clip{Rate: 8000, Samples: [][]float32{{0.25}}}))
	f.Fuzz(func(t *testing.T, data []byte) {
		var p Pyramid
		if p.UnmarshalBinary(data) != nil {
			return
		}
		if n := len(p.levels[0]); n > len(data)/waveBucket {
			t.Fatalf("%d buckets of %d bytes", n, len(data))
		}
		for i, c := range p.Columns(make([]Column, 20), -1, 30) {
			if c.Min > c.Max || c.RMS != c.RMS || c.RMS < 0 {
				t.Fatalf("column %d is %+v", i, c)
			}
		}
		if _, err := p.MarshalBinary(); err != nil {
			t.Fatal(err)
		}
	})
}
