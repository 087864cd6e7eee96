package beat

import (
	"math"
	"testing"
)

// The state space and its transitions at 55 to 215 BPM, 100 frames a second:
// figures worked out with madmom's BeatStateSpace and
// BeatTransitionModel(lambda 100).
func TestStateSpaceHasThePublishedSize(t *testing.T) {
	states := 0
	for l := shortest; l <= longest; l++ {
		states += l
	}
	if intervals != 82 || states != 5617 {
		t.Errorf("%d intervals, %d states; want 82 and 5617", intervals, states)
	}
	if got := count(transitions(shortest, longest)); got != 3399 {
		t.Errorf("%d tempo transitions, want 3399", got)
	}
}

func count(to []steps) int {
	n := 0
	for _, s := range to {
		n += len(s.logp)
	}
	return n
}

// logp returns the log-probability of a step between two intervals.
func logp(to []steps, lo, from, into int) float64 {
	s := to[into-lo]
	if k := from - lo - s.first; k >= 0 && k < len(s.logp) {
		return s.logp[k]
	}
	return math.Inf(-1)
}

func TestTempoTransitionsAgreeWithMadmom(t *testing.T) {
	to := transitions(shortest, longest)
	for _, tt := range []struct {
		from, into int
		want       float64
	}{
		{50, 50, 0.76159}, {50, 49, 0.10307}, {50, 51, 0.10307}, {50, 48, 0.01395}, {50, 52, 0.01395},
		{28, 28, 0.97188}, {28, 29, 0.02733},
	} {
		if got := math.Exp(logp(to, shortest, tt.from, tt.into)); math.Abs(got-tt.want) > 5e-6 {
			t.Errorf("p(%d to %d) = %.6f, want %.5f", tt.from, tt.into, got, tt.want)
		}
	}
	for from := shortest; from <= longest; from++ {
		sum := 0.0
		for into := shortest; into <= longest; into++ {
			sum += math.Exp(logp(to, shortest, from, into))
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Errorf("steps from %d sum to %v", from, sum)
		}
	}
}

// The tiny space of intervals 1 to 4 in madmom's tests: 13 transitions, of
// which 6 lie within beats.
func TestTinySpaceAgreesWithMadmom(t *testing.T) {
	to := transitions(1, 4)
	if got := count(to); got != 7 {
		t.Errorf("%d tempo transitions, want 7", got)
	}
	for _, tt := range []struct {
		from, into int
		want       float64
	}{
		{2, 1, math.Inf(-1)}, {3, 4, -100.0 / 3}, {4, 3, -25},
	} {
		got := logp(to, 1, tt.from, tt.into)
		if got != tt.want && math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("log p(%d to %d) = %v, want %v", tt.from, tt.into, got, tt.want)
		}
	}
}

// W(b) = exp(-0.5 (log2(b/120)/s)^2), with s = 1 as in librosa and 1.4 as in
// Ellis 2007.
func TestTempoPriorAgreesWithTheTable(t *testing.T) {
	for _, tt := range []struct{ bpm, one, ellis float64 }{
		{30, 0.1353, 0.3604}, {60, 0.6065, 0.7748}, {80, 0.8427, 0.9164}, {90, 0.9175, 0.9570},
		{100, 0.9660, 0.9825}, {120, 1, 1}, {144, 0.9660, 0.9825}, {160, 0.9175, 0.9570},
		{180, 0.8427, 0.9164}, {240, 0.6065, 0.7748},
	} {
		for spread, want := range map[float64]float64{1: tt.one, 1.4: tt.ellis} {
			if got := math.Exp(logTempo(tt.bpm, 120, spread)); math.Abs(got-want) > 5e-5 {
				t.Errorf("prior of %v BPM, %v octaves = %.5f, want %.4f", tt.bpm, spread, got, want)
			}
		}
	}
}

func TestSegmentsCutABeatCompletelyAtEveryLength(t *testing.T) {
	for l := shortest; l <= longest; l++ {
		segs := segments(l)
		if len(segs) != len(segmentClasses)+1 {
			t.Fatalf("length %d: %d segments, want %d", l, len(segs), len(segmentClasses)+1)
		}
		for i, s := range segs {
			if i > 0 && s.end < segs[i-1].end {
				t.Errorf("length %d: segment %d ends before the one before", l, i)
			}
			if i < len(segmentClasses) && s.class != segmentClasses[i] {
				t.Errorf("length %d: segment %d is of class %d, want %d", l, i, s.class, segmentClasses[i])
			}
		}
		if last := segs[len(segs)-1]; last.end != l || last.class != otherBeat {
			t.Errorf("length %d: last segment %v", l, last)
		}
	}
}

func TestSegmentsPutPulsesWhereTheyBelong(t *testing.T) {
	segs := segments(48)
	for frame, want := range map[int]class{
		0: otherBeat, 2: otherBeat, 3: between, 12: quarter, 16: third, 20: between, 22: halfway,
		24: halfway, 26: halfway, 32: lastThird, 36: lastQuarter, 45: between, 46: otherBeat, 47: otherBeat,
	} {
		if got := classAt(segs, frame); got != want {
			t.Errorf("frame %d of 48 is of class %d, want %d", frame, got, want)
		}
	}
}

// classAt returns the class of a frame of a beat.
func classAt(segs []segment, frame int) class {
	for _, s := range segs {
		if frame < s.end {
			return s.class
		}
	}
	panic("frame outside the beat")
}
