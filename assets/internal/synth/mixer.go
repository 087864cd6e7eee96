package synth

import "math"

// Mixer adds sounds up in stereo. The zero value is not usable; see NewMixer.
type Mixer struct {
	left, right, send []float32
}

// NewMixer returns a silent mixer of the given length in seconds.
func NewMixer(seconds float64) *Mixer {
	n := samples(seconds)
	return &Mixer{make([]float32, n), make([]float32, n), make([]float32, n)}
}

// Place says where in the mix a sound goes.
type Place struct {
	Gain float64 // 1 is as it is
	Pan  float64 // -1 left to 1 right
	Room float64 // share sent to the reverb, 0..1
}

// Add lays sound into the mix so that its first sample falls at seconds.
func (m *Mixer) Add(seconds float64, sound []float32, p Place) {
	angle := (p.Pan + 1) * math.Pi / 4
	l, r := float32(p.Gain*math.Cos(angle)*math.Sqrt2), float32(p.Gain*math.Sin(angle)*math.Sqrt2)
	room := float32(p.Gain * p.Room)
	start := samples(seconds)
	for i, v := range sound {
		k := start + i
		if k >= len(m.left) {
			return
		}
		m.left[k] += v * l
		m.right[k] += v * r
		m.send[k] += v * room
	}
}

// drive is how far the mix is pushed into the rounding; 1 would round all of it.
const drive = 0.55

// Stereo returns the mix with its reverb as two channels: peaks above about
// half of full scale rounded off as tape does, faded out over the last tail
// seconds, scaled so that the highest peak is at level (1 is full scale).
func (m *Mixer) Stereo(level, tail float64) [][]float32 {
	reverb(m.send, m.left, combsLeft)
	reverb(m.send, m.right, combsRight)
	out := [][]float32{m.left, m.right}
	peak := float32(0)
	for _, ch := range out {
		fade(ch, tail)
		for i, v := range ch {
			ch[i] = float32(math.Tanh(drive * float64(v)))
			peak = max(peak, ch[i], -ch[i])
		}
	}
	if peak > 0 {
		gain := float32(level) / peak
		for _, ch := range out {
			for i := range ch {
				ch[i] *= gain
			}
		}
	}
	return out
}

// Delay lengths in samples, without common factors; the two sides differ so
// that the room is wide.
var (
	combsLeft  = [4]int{1117, 1277, 1427, 1579}
	combsRight = [4]int{1151, 1301, 1451, 1613}
)

// reverb adds a small room to out: four damped comb filters side by side and
// two all-pass filters (Schroeder, J. Audio Eng. Soc. 10(3), 1962; the damping
// as in Moorer, Computer Music Journal 3(2), 1979).
func reverb(send, out []float32, combs [4]int) {
	wet := make([]float32, len(send))
	for _, n := range combs {
		line := make([]float32, n)
		var damp float32
		k := 0
		for i, v := range send {
			d := line[k]
			damp += 0.6 * (d - damp)
			line[k] = v + 0.85*damp
			wet[i] += d * 0.25
			if k++; k == n {
				k = 0
			}
		}
	}
	for _, n := range [2]int{347, 113} {
		line := make([]float32, n)
		k := 0
		for i, v := range wet {
			d := line[k]
			y := d - 0.5*v
			line[k] = v + 0.5*y
			wet[i] = y
			if k++; k == n {
				k = 0
			}
		}
	}
	for i, v := range wet {
		out[i] += v
	}
}
