package beat

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// pulses returns features of noise with a pulse at each frame given.
func pulses(frames int, at []int) *features {
	rng := rand.New(rand.NewPCG(3, 4))
	var f features
	for r := range f {
		f[r] = make([]float32, frames)
		for t := range f[r] {
			f[r][t] = float32(0.6 * rng.ExpFloat64())
		}
		for _, t := range at {
			f[r][t] += 3
		}
	}
	return &f
}

// byStates is the Viterbi algorithm in its plain form, one state for each
// frame of each interval and one step a frame.
func byStates(ev *evidence, tg tempogram) []int {
	type state struct{ interval, position int }
	var states []state
	var last [intervals]int // index of the last state of each interval
	for i := range last {
		for p := range shortest + i {
			last[i] = len(states)
			states = append(states, state{i, p})
		}
	}
	to := transitions(shortest, longest)
	var segs [intervals][]segment
	for i := range segs {
		segs[i] = segments(shortest + i)
	}
	score := make([]float64, len(states)) // before frame 0 all are as likely
	var back [][]int
	for t := range ev.frames() {
		next, from := make([]float64, len(states)), make([]int, len(states))
		for n, s := range states {
			next[n] = math.Inf(-1)
			try := func(m int, v float64) {
				if v > next[n] {
					next[n], from[n] = v, m
				}
			}
			if s.position > 0 {
				try(n-1, score[n-1])
			} else {
				for k, v := range to[s.interval].logp {
					m := last[to[s.interval].first+k]
					try(m, score[m]+v)
				}
			}
			k := classAt(segs[s.interval], s.position)
			next[n] += ev[k][t+1] - ev[k][t]
			next[n] += (tempoPrior(shortest+s.interval) + repeatWeight*tg.at(t-s.position, s.interval)) / temper
		}
		score, back = next, append(back, from)
	}
	best := 0
	for n := range score {
		if score[n] > score[best] {
			best = n
		}
	}
	var beats []int
	for t := len(back) - 1; t >= 0; t-- {
		if states[best].position == 0 {
			beats = append(beats, t)
		}
		best = back[t][best]
	}
	slices.Reverse(beats)
	return beats
}

func TestDecodingByBeatsEqualsDecodingByStates(t *testing.T) {
	for name, at := range map[string][]int{
		"slowing down": {10, 50, 91, 133, 176, 220, 265},
		"noise alone":  nil,
		"uneven":       {33, 71, 120, 155, 210, 247},
	} {
		t.Run(name, func(t *testing.T) {
			f := pulses(300, at)
			ev, tg := newEvidence(f), newTempogram(f)
			got, err := decode(context.Background(), ev, tg)
			if err != nil {
				t.Fatal(err)
			}
			if want := byStates(ev, tg); !slices.Equal(got, want) {
				t.Errorf("decode = %v, want %v", got, want)
			}
		})
	}
}

func TestDecodeFollowsPulses(t *testing.T) {
	var at []int
	for frame, step := 15.0, 46.0; frame < 1190; frame, step = frame+step, step*1.004 {
		at = append(at, int(frame+0.5))
	}
	f := pulses(1200, at)
	got, err := decode(context.Background(), newEvidence(f), newTempogram(f))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range at {
		if !slices.ContainsFunc(got, func(b int) bool { return b >= want-3 && b <= want+3 }) {
			t.Errorf("no beat near frame %d: %v", want, got)
		}
	}
	if len(got) > len(at)+1 {
		t.Errorf("%d beats for %d pulses", len(got), len(at))
	}
}

func TestTempogramPeaksAtTheInterval(t *testing.T) {
	var at []int
	for frame := 5; frame < 1500; frame += 60 {
		at = append(at, frame)
	}
	for second, row := range newTempogram(pulses(1500, at)) {
		best := 0
		for i, v := range row {
			if v > row[best] {
				best = i
			}
			if v > 1 {
				t.Errorf("repetition %v is above 1", v)
			}
		}
		if got := shortest + best; got != 60 {
			t.Errorf("second %d: best interval %d frames, want 60", second, got)
		}
	}
}

func BenchmarkDecode(b *testing.B) {
	var at []int
	for frame := 5; frame < 6000; frame += 50 {
		at = append(at, frame)
	}
	f := pulses(6000, at) // one minute
	ev, tg := newEvidence(f), newTempogram(f)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := decode(context.Background(), ev, tg); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTempogram(b *testing.B) {
	f := pulses(6000, nil)
	b.ReportAllocs()
	for b.Loop() {
		newTempogram(f)
	}
}
