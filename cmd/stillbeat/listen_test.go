package main

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestListenForPeople(t *testing.T) {
	inTemp(t)
	write(t, "Чайник 水.wav", []byte("x"))
	golden(t, "listen.txt", runner{ear: knownEar{}}.must(t, "listen", "Чайник 水.wav"))
}

func TestListenCSV(t *testing.T) {
	inTemp(t)
	write(t, "song.wav", []byte("x"))
	golden(t, "listen.csv", runner{ear: knownEar{}}.must(t, "listen", "song.wav", "--csv"))
}

func TestListenJSON(t *testing.T) {
	inTemp(t)
	write(t, "-song.wav", []byte("x"))
	out := runner{ear: knownEar{}}.must(t, "listen", "--json", "--", "-song.wav")
	var doc struct {
		File       string    `json:"file"`
		Seconds    float64   `json:"seconds"`
		SampleRate int       `json:"sample_rate"`
		Channels   int       `json:"channels"`
		Tempo      float64   `json:"tempo_bpm"`
		Confidence float64   `json:"confidence"`
		Metre      int       `json:"metre"`
		Beats      []float64 `json:"beats"`
		Downbeats  []float64 `json:"downbeats"`
		Onsets     []float64 `json:"onsets"`
	}
	decodeStrict(t, out, &doc)
	keys(t, out, "", "file", "seconds", "sample_rate", "channels", "tempo_bpm", "confidence", "metre", "beats", "downbeats", "onsets")
	if doc.File != "-song.wav" || doc.Seconds != 12 || doc.SampleRate != 8000 || doc.Channels != 2 ||
		doc.Tempo != 120 || doc.Confidence != 0.875 || doc.Metre != 3 {
		t.Errorf("it says %+v", doc)
	}
	if len(doc.Beats) != 23 || len(doc.Downbeats) != 8 || doc.Beats[0] != 0.25 || doc.Downbeats[0] != 0.75 {
		t.Errorf("beats %v, downbeats %v", doc.Beats, doc.Downbeats)
	}
	if fmt.Sprint(doc.Onsets) != "[0.123457 0.25 3.5 7.2 11.9]" {
		t.Errorf("onsets %v", doc.Onsets)
	}
}

// A song without a steady beat, here silence, has empty lists, not null.
func TestListenToSilence(t *testing.T) {
	inTemp(t)
	writeSong(t, "silence.wav", 5, nil, nil)
	out := must(t, "listen", "silence.wav", "--json")
	for _, list := range []string{`"beats":[]`, `"downbeats":[]`, `"onsets":[]`} {
		if !strings.Contains(out, list) {
			t.Errorf("%s has no %s", out, list)
		}
	}
	if text := must(t, "listen", "silence.wav"); !strings.Contains(text, "no steady beat was found") {
		t.Errorf("it says\n%s", text)
	}
	if list := must(t, "listen", "silence.wav", "--csv"); list != "time_s,kind,bar,beat\n" {
		t.Errorf("the list is %q", list)
	}
}

// Our own ear hears the clicks of a click song where they are, within the
// 70 ms that beat tracking is commonly judged by.
func TestListenToClicks(t *testing.T) {
	inTemp(t)
	truth := clicks(0.5, 0.6, 36) // 100 beats a minute
	writeSong(t, "clicks.wav", 23, truth, everyNth(truth, 4))
	var doc songReport
	decodeStrict(t, must(t, "listen", "clicks.wav", "--json"), &doc)
	if math.Abs(doc.TempoBPM-100) > 1 {
		t.Errorf("%.2f beats a minute, want 100", doc.TempoBPM)
	}
	for _, want := range truth {
		if got := nearest(doc.Beats, want); math.Abs(got-want) > 0.07 {
			t.Errorf("the click at %.2f s is heard at %.3f s", want, got)
		}
	}
	if len(doc.Beats) > len(truth)+2 {
		t.Errorf("%d beats are heard in %d clicks", len(doc.Beats), len(truth))
	}
}

func nearest(times []float64, t float64) float64 {
	best := math.Inf(1)
	for _, v := range times {
		if math.Abs(v-t) < math.Abs(best-t) {
			best = v
		}
	}
	return best
}

func TestBarCount(t *testing.T) {
	tests := []struct {
		name  string
		metre int
		bars  string // one letter a beat, B where a bar starts
		want  string
	}{
		{"bars are not known", 0, "bbb", " . . ."},
		{"from the first beat", 2, "BbBb", " 1.1 1.2 2.1 2.2"},
		{"an upbeat ends its bar", 4, "bbBbbbB", " 0.3 0.4 1.1 1.2 1.3 1.4 2.1"},
		{"a bar's worth of upbeat", 3, "bbbB", " 0.1 0.2 0.3 1.1"},
		{"an upbeat longer than a bar", 3, "bbbbB", " 0.3 0.1 0.2 0.3 1.1"},
		{"a bar longer than the metre", 2, "BbbB", " 1.1 1.2 1.3 2.1"},
		{"an upbeat without a metre", 0, "bbB", " 0.1 0.2 1.1"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			g := board.Grid{Metre: tt.metre}
			for i, c := range tt.bars {
				g.Beats = append(g.Beats, board.Beat{Time: float64(i), Bar: c == 'B'})
			}
			got := ""
			count := newBarCount(g)
			for _, b := range g.Beats {
				bar, beat := count.next(b)
				got += " " + bar + "." + beat
			}
			if got != tt.want {
				t.Errorf("%s in %d: got%s, want%s", tt.bars, tt.metre, got, tt.want)
			}
		})
	}
}

// decodeStrict decodes one document and nothing else.
func decodeStrict(t *testing.T, text string, into any) {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	if rest := strings.TrimSpace(text[d.InputOffset():]); rest != "" {
		t.Fatalf("after the document comes %q", rest)
	}
}

// keys checks that the object at path (names divided by dots, "0" the first
// of a list) has exactly these keys.
func keys(t *testing.T, text, path string, want ...string) {
	t.Helper()
	var at any
	if err := json.Unmarshal([]byte(text), &at); err != nil {
		t.Fatal(err)
	}
	for _, step := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' }) {
		if list, ok := at.([]any); ok {
			var i int
			fmt.Sscan(step, &i)
			at = list[i]
			continue
		}
		at = at.(map[string]any)[step]
	}
	object, ok := at.(map[string]any)
	if !ok {
		t.Fatalf("%q is no object but %v", path, at)
	}
	for _, key := range want {
		if _, ok := object[key]; !ok {
			t.Errorf("%q has no key %q", path, key)
		}
	}
	if len(object) != len(want) {
		t.Errorf("%q has %d keys, want %v", path, len(object), want)
	}
}
