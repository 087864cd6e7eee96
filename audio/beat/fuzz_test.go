package beat

import (
	"context"
	"encoding/binary"
	"math"
	"testing"
)

// FuzzAnalyse takes four bytes a sample, any float among them, and repeats
// them to five seconds.
func FuzzAnalyse(f *testing.F) {
	f.Add([]byte{0, 0, 0, 0}, 8000)
	f.Add([]byte{0, 0, 128, 63, 0, 0, 128, 191}, 44100)
	f.Add([]byte{255, 255, 127, 127, 0, 0, 192, 127, 1, 0, 0, 0}, 11025)
	f.Fuzz(func(t *testing.T, data []byte, rate int) {
		if rate < 8000 || rate > 192000 || len(data) < 4 {
			return
		}
		x := make([]float32, 5*rate)
		for i := range x {
			at := 4 * (i % (len(data) / 4))
			x[i] = math.Float32frombits(binary.LittleEndian.Uint32(data[at:]))
		}
		r, err := Analyse(context.Background(), x, rate, Options{})
		if err != nil {
			t.Fatal(err)
		}
		checkShape(t, r, 5)
	})
}
