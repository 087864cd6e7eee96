// Makebeats writes the small sounds with known beats that the tests of the
// beat finder use, and beside each the times of its beats. It needs the
// encoders lame and oggenc.
//
//	go run ./assets/makebeats testdata/beats
package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"stillbeat/assets/internal/synth"
)

// sound is one file to write.
type sound struct {
	name    string
	samples []float32 // mono
	beats   []float64 // seconds
}

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: makebeats DIR")
		os.Exit(2)
	}
	for _, s := range []sound{clicks(), tuneStart(), waltz(), slowing()} {
		if err := s.write(os.Args[1]); err != nil {
			fmt.Fprintln(os.Stderr, "makebeats:", err)
			os.Exit(1)
		}
	}
}

// write encodes the sound by the ending of its name and lists its beats.
func (s sound) write(dir string) error {
	out := filepath.Join(dir, s.name)
	rate := fmt.Sprint(synth.Rate)
	cmd := exec.Command("oggenc", "--quiet", "--raw", "--raw-chan", "1", "--raw-rate", rate, "--serial", "1", "-q", "0", "-o", out, "-")
	if strings.HasSuffix(s.name, ".mp3") {
		cmd = exec.Command("lame", "--quiet", "-r", "-s", "44.1", "-m", "m", "-b", "56", "-", out)
	}
	cmd.Stdin = bytes.NewReader(pcm(s.samples))
	if msg, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %w: %s", cmd.Path, err, msg)
	}
	var list strings.Builder
	for _, t := range s.beats {
		fmt.Fprintf(&list, "%.6f\n", t)
	}
	base := strings.TrimSuffix(s.name, filepath.Ext(s.name))
	return os.WriteFile(filepath.Join(dir, base+".beats.txt"), []byte(list.String()), 0o644)
}

// pcm turns samples into 16-bit little-endian integers.
func pcm(samples []float32) []byte {
	out := make([]byte, 0, 2*len(samples))
	for _, v := range samples {
		out = binary.LittleEndian.AppendUint16(out, uint16(int16(v*32767)))
	}
	return out
}
