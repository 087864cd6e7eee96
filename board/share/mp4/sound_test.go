package mp4

import (
	"fmt"
	"math"
	"testing"
)

// TestClicks checks that a click in the sound is heard at its time in the film.
func TestClicks(t *testing.T) {
	t.Parallel()
	tests := []struct {
		rate, channels int
		start          float64   // of the sound in the film, s
		seconds        float64   // of sound
		clicks         []float64 // in the sound, s
	}{
		{44100, 2, 0, 4, []float64{0.002, 0.5, 1.25, 3.0}},
		{48000, 1, 0, 4, []float64{0.002, 0.5, 1.25, 3.98}},
		{48000, 2, 0.75, 3, []float64{0.1, 1.2}},
		{44100, 2, -1.0001, 9, []float64{1.1, 2.5, 4.9}},
		{22050, 1, 0, 4, []float64{0.25, 1.5}},
		{96000, 2, 0.1, 2, []float64{0.25, 1.5}},
		{11025, 1, -0.5, 4, []float64{1, 2.2}},
		{37800, 1, 0, 4, []float64{0.3, 3.3}},
	}
	for _, tt := range tests {
		t.Run(fmt.Sprintf("%d Hz x %d from %v s", tt.rate, tt.channels, tt.start), func(t *testing.T) {
			film := flatFilm(64, 48, 24, 1, 96)
			sound := plain{rate: tt.rate}
			for range tt.channels {
				ch := make([]float32, int(tt.seconds*float64(tt.rate)))
				for _, c := range tt.clicks {
					ch[int(math.Round(c*float64(tt.rate)))] = 0.9
				}
				sound.samples = append(sound.samples, ch)
			}
			film.Sound = &Sound{Samples: sound, Start: tt.start}
			got := heard(t, written(t, film, Options{}))
			rate := float64(film.Sound.codedRate())
			if n := float64(len(got)); n < 4*rate || n > 4*rate+aacFrame {
				t.Errorf("%v samples are heard, want those of 4 s at %v Hz", n, rate)
			}
			for _, c := range tt.clicks {
				want := c + tt.start
				// The peak must be the loudest within 50 ms.
				from, to := max(0, int((want-0.05)*rate)), min(len(got), int((want+0.05)*rate))
				at, peak := from, 0.0
				for i := from; i < to; i++ {
					if a := math.Abs(got[i]); a > peak {
						at, peak = i, a
					}
				}
				if off := float64(at)/rate - want; math.Abs(off) > 0.001 || peak < 0.05 {
					t.Errorf("click at %v s: heard %.2f ms off, peak %.2f", want, 1000*off, peak)
				}
			}
		})
	}
}

// TestLongSound: pictures and sound run together to the end.
func TestLongSound(t *testing.T) {
	t.Parallel()
	film := flatFilm(64, 48, 24000, 1001, 45*24)
	ch := make([]float32, 44100*50)
	const click = 44100*45 + 441
	ch[click] = 0.9
	film.Sound = &Sound{Samples: plain{44100, [][]float32{ch}}}
	got := heard(t, written(t, film, Options{}))
	at := 0
	for i, v := range got {
		if math.Abs(v) > math.Abs(got[at]) {
			at = i
		}
	}
	if at < click-22 || at > click+22 {
		t.Errorf("the click at sample %d is heard at %d", click, at)
	}
}

// TestSoundLevel checks that a tone keeps its level and that there is silence
// before and after it.
func TestSoundLevel(t *testing.T) {
	film := flatFilm(64, 48, 24, 1, 96)
	film.Sound = &Sound{Start: 1, Samples: plain{48000, [][]float32{tone(48000, 48000, 997)}}}
	got := heard(t, written(t, film, Options{}))
	for _, part := range []struct {
		name     string
		from, to float64
		want     float64
	}{
		{"before", 0, 0.95, 0},
		{"tone", 1.1, 1.9, 0.5 / math.Sqrt2},
		{"after", 2.05, 4, 0},
	} {
		if level := rms(got[int(part.from*48000):int(part.to*48000)]); math.Abs(level-part.want) > 0.005 {
			t.Errorf("%s: level %.4f, want %.4f", part.name, level, part.want)
		}
	}
}

// TestResample compares resampled tones with the tones themselves, and checks
// that what the new rate cannot hold is gone.
func TestResample(t *testing.T) {
	tests := []struct {
		rate int
		hz   float64
		kept bool
	}{
		{22050, 997, true}, {22050, 9000, true}, {11025, 4000, true}, {96000, 15000, true},
		{192000, 997, true}, {32000, 13000, true}, {44056, 10000, true},
		{96000, 26000, false}, {192000, 30000, false},
	}
	for _, tt := range tests {
		t.Run(fmt.Sprintf("%v Hz at %d", tt.hz, tt.rate), func(t *testing.T) {
			track := newSoundtrack(&Sound{Samples: plain{tt.rate, [][]float32{tone(tt.rate, tt.rate, tt.hz)}}}, 48000)
			pcm := make([]int16, 2*48000)
			track.read(pcm, 0)
			want := tone(48000, 48000, tt.hz)
			diff := make([]float64, 0, 44000)
			for i := 2000; i < 46000; i++ {
				v := float64(pcm[2*i]) / math.MaxInt16
				if tt.kept {
					v -= float64(want[i])
				}
				diff = append(diff, v)
			}
			if db := 20 * math.Log10(rms(diff)/(0.5/math.Sqrt2)); db > -70 {
				t.Errorf("%.1f dB of error, want -70", db)
			}
		})
	}
}

func TestStereo(t *testing.T) {
	one := func(channels, c int) [][]float32 {
		out := make([][]float32, channels)
		for i := range out {
			out[i] = []float32{0}
		}
		out[c][0] = 1
		return out
	}
	tests := []struct {
		name        string
		in          [][]float32
		left, right float64
	}{
		{"mono goes to both", one(1, 0), 1, 1},
		{"left", one(2, 0), 1, 0},
		{"right", one(2, 1), 0, 1},
		// ITU-R BS.775-3: centre and surround at -3 dB; the sum 1 + 2 x 0.7071
		// is scaled to 1.
		{"front left of 5.1", one(6, 0), 0.4142, 0},
		{"centre of 5.1", one(6, 2), 0.2929, 0.2929},
		{"low effects of 5.1", one(6, 3), 0, 0},
		{"surround right of 5.1", one(6, 5), 0, 0.2929},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l, r := stereo(tt.in)
			if math.Abs(float64(l[0])-tt.left) > 1e-4 || math.Abs(float64(r[0])-tt.right) > 1e-4 {
				t.Errorf("got %v and %v, want %v and %v", l[0], r[0], tt.left, tt.right)
			}
		})
	}
	for n := 3; n <= 8; n++ { // full scale on every channel does not clip
		all := make([][]float32, n)
		for i := range all {
			all[i] = []float32{1}
		}
		if l, r := stereo(all); math.Abs(float64(l[0])-1) > 1e-5 || math.Abs(float64(r[0])-1) > 1e-5 {
			t.Errorf("%d full channels mix to %v and %v, want 1", n, l[0], r[0])
		}
	}
}

func TestPCM16(t *testing.T) {
	nan := float32(math.NaN())
	for in, want := range map[float32]int16{0: 0, 1: 32767, -1: -32767, 7: 32767, -7: -32767, 0.5: 16384,
		float32(math.Inf(1)): 32767, float32(math.Inf(-1)): -32767} {
		if got := pcm16(in); got != want {
			t.Errorf("pcm16(%v) = %d, want %d", in, got, want)
		}
	}
	if got := pcm16(nan); got != 0 {
		t.Errorf("pcm16(NaN) = %d, want 0", got)
	}
}

// tone is a sine of amplitude 0.5.
func tone(rate, n int, hz float64) []float32 {
	out := make([]float32, n)
	for i := range out {
		out[i] = float32(0.5 * math.Sin(2*math.Pi*hz*float64(i)/float64(rate)))
	}
	return out
}

func rms(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x * x
	}
	return math.Sqrt(sum / float64(len(v)))
}
