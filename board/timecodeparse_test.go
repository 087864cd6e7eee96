package board

import "testing"

// Each label that is written is read as its frame, at every rate offered.
func TestParseTimecodeReadsWhatIsWritten(t *testing.T) {
	for _, r := range append([]FrameRate{{60000, 1001}, {25, 2}, {48, 1}}, Rates...) {
		for f := Frame(0); f < 200000; f += 1 + f/50 {
			got, err := r.ParseTimecode(r.Timecode(f))
			if err != nil || got != f {
				t.Fatalf("at %s fps %s is frame %d, %v; want %d", r, r.Timecode(f), got, err, f)
			}
		}
	}
}

func TestParseTimecode(t *testing.T) {
	for _, tt := range []struct {
		name string
		rate FrameRate
		text string
		want Frame // -1: refused
	}{
		{"plain", FrameRate{24, 1}, "00:00:02:05", 53},
		{"few digits", FrameRate{24, 1}, " 0:0:2:5 ", 53},
		{"drop frame, the last before a gap", FrameRate{30000, 1001}, "00:00:59;29", 1799},
		{"drop frame, the first after it", FrameRate{30000, 1001}, "00:01:00;02", 1800},
		{"drop frame with colons", FrameRate{30000, 1001}, "00:01:00:02", 1800},
		{"drop frame, a label left out", FrameRate{30000, 1001}, "00:01:00;01", -1},
		{"drop frame, a tenth minute", FrameRate{30000, 1001}, "00:10:00;00", 17982},
		{"a plain count", FrameRate{12, 1}, "1:02+03", 747},
		{"a count past its second", FrameRate{12, 1}, "0:02+12", -1},
		{"a count at a rate with timecode", FrameRate{24, 1}, "0:02+05", -1},
		{"a frame past its second", FrameRate{24, 1}, "00:00:02:24", -1},
		{"sixty seconds", FrameRate{24, 1}, "00:00:60:00", -1},
		{"a number", FrameRate{24, 1}, "48", -1},
		{"negative", FrameRate{24, 1}, "-00:00:01:00", -1},
		{"nothing", FrameRate{24, 1}, "", -1},
	} {
		got, err := tt.rate.ParseTimecode(tt.text)
		if (err != nil) != (tt.want < 0) || err == nil && got != tt.want {
			t.Errorf("%s: %q is frame %d, %v; want %d", tt.name, tt.text, got, err, tt.want)
		}
	}
}

func FuzzParseTimecode(f *testing.F) {
	for _, s := range []string{"00:00:02:05", "00:01:00;02", "1:02+03", "", "9:9:9:9"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, r := range Rates {
			n, err := r.ParseTimecode(s)
			if err != nil {
				continue
			}
			if back, err := r.ParseTimecode(r.Timecode(n)); err != nil || back != n {
				t.Fatalf("%q at %s fps is frame %d, and %s is %d, %v", s, r, n, r.Timecode(n), back, err)
			}
		}
	})
}
