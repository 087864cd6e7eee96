package main

import (
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"stillbeat/assets/internal/synth"
)

const dir = "../../testdata/beats"

// sounds are made once for all tests.
var sounds = sync.OnceValue(func() []sound { return []sound{clicks(), tuneStart(), waltz(), slowing()} })

// The lists beside the sounds must be the beats the code plays.
func TestListsAreUpToDate(t *testing.T) {
	for _, s := range sounds() {
		name := strings.TrimSuffix(s.name, filepath.Ext(s.name)) + ".beats.txt"
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		var want strings.Builder
		for _, b := range s.beats {
			fmt.Fprintf(&want, "%.6f\n", b)
		}
		if string(data) != want.String() {
			t.Errorf("%s is not what makebeats writes: run go run ./assets/makebeats testdata/beats", name)
		}
	}
}

// The encoded files, decoded by ffmpeg, must have something struck on every
// listed beat.
func TestEncodedSoundsStrikeOnTheBeats(t *testing.T) {
	for _, s := range sounds() {
		t.Run(s.name, func(t *testing.T) {
			file := filepath.Join(dir, s.name)
			if info, err := os.Stat(file); err != nil || info.Size() > 100_000 {
				t.Fatalf("want a file of at most 100 kB: %v, %v", info, err)
			}
			heard := decode(t, file)
			for i, at := range s.beats {
				// The encoders smear a strike over some milliseconds before it.
				before, after := power(heard, at-0.035, at-0.01), power(heard, at-0.005, at+0.03)
				if rise := 10 * math.Log10((after+1e-10)/(before+1e-10)); rise < 3 {
					t.Errorf("beat %d at %.3f s: energy rises by %.1f dB, want at least 3", i, at, rise)
				}
			}
		})
	}
}

// decode returns a sound file as mono samples at synth.Rate.
func decode(t *testing.T, file string) []float64 {
	t.Helper()
	out, err := exec.Command("ffmpeg", "-v", "error", "-i", file, "-f", "f32le", "-ac", "1", "-ar", fmt.Sprint(synth.Rate), "-").Output()
	if err != nil {
		t.Fatalf("this test needs ffmpeg: %v", err)
	}
	heard := make([]float64, len(out)/4)
	for i := range heard {
		heard[i] = float64(math.Float32frombits(binary.LittleEndian.Uint32(out[4*i:])))
	}
	return heard
}

// power is the mean square between two times in seconds.
func power(heard []float64, from, to float64) float64 {
	sum, n := 0.0, 0
	for i := int(from * synth.Rate); i < int(to*synth.Rate) && i < len(heard); i++ {
		sum += heard[i] * heard[i]
		n++
	}
	return sum / float64(max(n, 1))
}

func TestSlowingGoesFrom110To84(t *testing.T) {
	b := slowing().beats
	n := len(b)
	if first, last := 60/(b[1]-b[0]), 60/(b[n-1]-b[n-2]); math.Abs(first-110) > 0.01 || math.Abs(last-84) > 0.01 {
		t.Errorf("tempo goes from %.2f to %.2f, want 110 to 84", first, last)
	}
}
