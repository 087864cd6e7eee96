package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"
)

func TestOneLine(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"plain", "tea for two", "tea for two"},
		{"line breaks", "one\ntwo\n", "one; two"},
		{"terminal commands", "a\x1b[31mb\tc\r", "a [31mb c"},
		{"text that turns direction", "a\u202eb", "a b"},
		{"joiners of letters stay", "می\u200cخواهم", "می\u200cخواهم"},
	}
	for _, tt := range tests {
		if got := oneLine(tt.text); got != tt.want {
			t.Errorf("%s: oneLine(%q) = %q, want %q", tt.name, tt.text, got, tt.want)
		}
	}
}

// Widths as in Unicode Standard Annex 11: W and F take two columns.
func TestCells(t *testing.T) {
	tests := []struct {
		text string
		want int
	}{
		{"", 0}, {"tea", 3}, {"чай", 3}, {"茶碗", 4}, {"ｔ", 2}, {"e\u0301", 1}, {"🫖", 2},
	}
	for _, tt := range tests {
		if got := cells(tt.text); got != tt.want {
			t.Errorf("cells(%q) = %d, want %d", tt.text, got, tt.want)
		}
	}
}

func TestShorten(t *testing.T) {
	tests := []struct {
		text string
		n    int
		want string
	}{
		{"kettle", 6, "kettle"}, {"kettle", 5, "kett…"}, {"茶碗茶碗", 6, "茶碗…"}, {"茶碗茶碗", 7, "茶碗茶…"},
	}
	for _, tt := range tests {
		if got := shorten(tt.text, tt.n); got != tt.want || cells(got) > tt.n {
			t.Errorf("shorten(%q, %d) = %q, want %q", tt.text, tt.n, got, tt.want)
		}
	}
}

func TestMeterLine(t *testing.T) {
	tests := []struct {
		name    string
		what    string
		done    float64
		elapsed time.Duration
		want    string
	}{
		{"just begun", "reading", 0, 0, "reading   0 %"},
		{"too early to tell", "reading", 0.5, 900 * time.Millisecond, "reading  50 %"},
		{"seconds left", "reading", 0.25, 4 * time.Second, "reading  25 %, 12 s left"},
		{"minutes left", "reading", 0.1, 30 * time.Second, "reading  10 %, 5 min left"},
		{"almost done", "reading", 0.999, 10 * time.Second, "reading 100 %, 1 s left"},
		{"done", "reading", 1, 10 * time.Second, "reading 100 %"},
	}
	for _, tt := range tests {
		if got := meterLine(tt.what, tt.done, tt.elapsed); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
	if line := meterLine(strings.Repeat("very long ", 20), 0.5, time.Minute); cells(line) > meterColumns {
		t.Errorf("a long name makes a line of %d columns", cells(line))
	}
}

// What is left on the screen after the meter is closed is nothing.
func TestMeterClearsItsLine(t *testing.T) {
	var screen bytes.Buffer
	m := &meter{w: &screen, begun: time.Now(), quit: make(chan struct{})}
	told := m.stage("reading a song with a long name")
	told(0.5)
	m.draw(time.Now())
	m.stage("writing")
	m.draw(time.Now())
	m.ended.Go(m.loop)
	m.close()
	m.close()
	if !strings.Contains(screen.String(), "reading a song with a long name  50 %") {
		t.Errorf("the screen got %q", &screen)
	}
	if left := strings.TrimSpace(screenLine(screen.String())); left != "" {
		t.Errorf("%q is left on the screen", left)
	}
}

// screenLine returns what a terminal shows of text that returns to the start
// of its line.
func screenLine(text string) string {
	var line []rune
	at := 0
	for _, r := range text {
		if r == '\r' {
			at = 0
			continue
		}
		if at == len(line) {
			line = append(line, r)
		}
		line[at] = r
		at++
	}
	return string(line)
}

// Nobody sees progress that goes to a file, and with --quiet nobody wants to.
func TestMeterOnlyOnTerminals(t *testing.T) {
	for _, a := range []*app{{terminal: false}, {terminal: true, quiet: true}} {
		if m := a.meter(); m != nil || m.stage("reading") != nil {
			t.Errorf("terminal %v, quiet %v: there is a meter", a.terminal, a.quiet)
		}
	}
	file, err := os.Create(t.TempDir() + "/file")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer null.Close()
	for _, f := range []*os.File{file, null} {
		if isTerminal(f) {
			t.Errorf("%s is taken for a terminal", f.Name())
		}
	}
}
