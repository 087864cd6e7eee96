package synth

import (
	"math"
	"testing"
)

func TestFrequency(t *testing.T) {
	// ISO 16:1975 sets A above middle C to 440 Hz; the others follow from twelve
	// equal semitones to the octave.
	for note, want := range map[int]float64{69: 440, 57: 220, 60: 261.6256, 81: 880} {
		if got := Frequency(note); math.Abs(got-want) > 1e-3 {
			t.Errorf("Frequency(%d) = %.4f Hz, want %.4f", note, got, want)
		}
	}
}

func TestKey(t *testing.T) {
	tests := []struct {
		name string
		want int
		ok   bool
	}{
		{"c4", 60, true}, {"a4", 69, true}, {"bb3", 58, true}, {"b3", 59, true}, {"f#5", 78, true}, {"db6", 85, true},
		{"h4", 0, false}, {"c", 0, false}, {"", 0, false}, {"c9", 0, false}, {"c-1", 0, false}, {"cx", 0, false},
	}
	for _, tt := range tests {
		got, err := Key(tt.name)
		if got != tt.want || (err == nil) != tt.ok {
			t.Errorf("Key(%q) = %d, %v; want %d, ok %v", tt.name, got, err, tt.want, tt.ok)
		}
	}
}

func TestRead(t *testing.T) {
	got, end, err := Read("c4:1 -:.5 | e4:.5 g4:2", 4)
	if err != nil {
		t.Fatal(err)
	}
	want := []Note{{4, 1, 60}, {5.5, 0.5, 64}, {6, 2, 67}}
	if end != 8 || len(got) != len(want) {
		t.Fatalf("got %v to beat %g, want %v to 8", got, end, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("note %d is %v, want %v", i, got[i], want[i])
		}
	}
	for _, bad := range []string{"c4", "c4:", "c4:0", "c4:-1", "x4:1", "c4:nan", "c4:inf"} {
		if _, _, err := Read(bad, 0); err == nil {
			t.Errorf("Read(%q) gives no error", bad)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add("c4:1 bb4:.5 | -:2")
	f.Add("f#5:0.25")
	f.Fuzz(func(t *testing.T, line string) {
		notes, end, err := Read(line, 0)
		if err != nil {
			return
		}
		last := 0.0
		for _, n := range notes {
			if n.Beat < last || n.Beat+n.Beats > end+1e-6*end {
				t.Fatalf("note %v is out of order or beyond the end %g", n, end)
			}
			last = n.Beat
		}
	})
}

// pitch finds the period of a sound by its autocorrelation and returns Hz.
func pitch(sound []float32, near float64) float64 {
	part := sound[Rate/20 : Rate/20+Rate/5]
	best, at := -1.0, 0
	corr := func(lag int) float64 {
		sum := 0.0
		for i := lag; i < len(part); i++ {
			sum += float64(part[i]) * float64(part[i-lag])
		}
		return sum / float64(len(part)-lag)
	}
	for lag := int(Rate / near * 0.9); lag <= int(Rate/near*1.1); lag++ {
		if c := corr(lag); c > best {
			best, at = c, lag
		}
	}
	a, b, c := corr(at-1), best, corr(at+1)
	return Rate / (float64(at) + 0.5*(a-c)/(a-2*b+c))
}

func TestInstrumentsAreInTune(t *testing.T) {
	for name, play := range map[string]func(int) []float32{"mallet": Mallet, "pluck": Pluck, "bass": Bass} {
		for _, note := range []int{48, 60, 69} {
			want := Frequency(note)
			got := pitch(play(note), want)
			if cents := 1200 * math.Log2(got/want); math.Abs(cents) > 8 {
				t.Errorf("%s %d sounds at %.2f Hz, %.1f cents from %.2f", name, note, got, cents, want)
			}
		}
	}
}

func TestSoundsStartAtOnceAndEndInSilence(t *testing.T) {
	for name, s := range map[string][]float32{
		"mallet": Mallet(69), "bell": Bell(81), "pluck": Pluck(60), "bass": Bass(41), "wood": Wood(79),
		"drum": Drum(43), "brush": Brush(), "shaker": Shaker(), "click": Click(1000), "thud": Thud(), "plop": Plop(),
	} {
		peak, early := 0.0, 0.0
		for i, v := range s {
			if v != v {
				t.Fatalf("%s: sample %d is not a number", name, i)
			}
			peak = max(peak, math.Abs(float64(v)))
			if i < Rate/50 {
				early = peak
			}
		}
		if early < 0.5*peak {
			t.Errorf("%s: after 20 ms only %.2f of its peak", name, early/peak)
		}
		if end := math.Abs(float64(s[len(s)-1])); end > 1e-3 {
			t.Errorf("%s breaks off at %.4f", name, end)
		}
	}
}

func TestMixerPlacesSoundsOnTheSample(t *testing.T) {
	m := NewMixer(1)
	m.Add(0.25, []float32{1, 0.5}, Place{Gain: 1, Pan: -1})
	m.Add(2, []float32{1}, Place{Gain: 1}) // beyond the end: dropped
	out := m.Stereo(0.5, 0)
	if out[0][Rate/4-1] != 0 || math.Abs(float64(out[0][Rate/4])-0.5) > 1e-6 {
		t.Errorf("left has %g then %g, want silence then the level 0.5", out[0][Rate/4-1], out[0][Rate/4])
	}
	for i, v := range out[1] {
		if math.Abs(float64(v)) > 1e-6 {
			t.Fatalf("right has %g at %d, want silence: the sound is all to the left", v, i)
		}
	}
}

func TestReverbDiesAway(t *testing.T) {
	m := NewMixer(3)
	m.Add(0, []float32{1}, Place{Gain: 1, Room: 1})
	out := m.Stereo(1, 0)
	peak := func(from, to float64) (p float32) {
		for _, v := range out[0][int(from*Rate):int(to*Rate)] {
			p = max(p, v, -v)
		}
		return p
	}
	if early, late := peak(0.03, 0.1), peak(2.5, 3); early < 0.01 || late > early/100 {
		t.Errorf("echo %g early, %g after 2.5 s: want some, then a hundred times less", early, late)
	}
}
