package main

import (
	"encoding/binary"
	"fmt"
	"image/gif"
	"image/png"
	"os"
	"slices"
	"strings"
	"testing"
)

// Each kind of share is made as asked, under names of any script and with
// spaces in them.
func TestShareKinds(t *testing.T) {
	inTemp(t)
	fourPanels(t)
	r := runner{ear: knownEar{}}
	tests := []struct {
		name string
		args []string
		out  string // what is made
		told string // what it says besides what the film is
		look func(t *testing.T, path string)
	}{
		{"a part by frames", []string{"-o", "teil.mp4", "--from", "12", "--to", "36", "--height", "90"}, "teil.mp4", "; written from frame 12 up to 36",
			func(t *testing.T, path string) { film(t, path, 160, 90, 24, "video", "audio") }},
		{"a part by timecode, silent", []string{"-o", "tea time.mp4", "--from", "00:00:01:00", "--silent", "--size", "64x64"}, "tea time.mp4", "; written from frame 24 up to 102",
			func(t *testing.T, path string) { film(t, path, 64, 64, 78, "video") }},
		{"panels, with words", []string{"-o", "чашка.MP4", "--from", "panel:2", "--to", "PANEL:3", "--burn", "Panel, timecode,safe", "--mark", "نسخة", "--height", "90", "--silent"}, "чашка.MP4", "; written from frame ",
			func(t *testing.T, path string) { film(t, path, 160, 90, -1, "video") }},
		{"a size to keep to", []string{"-o", "mail.mp4", "--under", "0.2MB", "--height", "90"}, "mail.mp4", " of 0.2 MB",
			func(t *testing.T, path string) {
				if info, err := os.Stat(path); err != nil || info.Size() > 200000 {
					t.Errorf("%d bytes, %v", info.Size(), err)
				}
			}},
		{"a GIF", []string{"-o", "turn.gif", "--to", "24", "--height", "36"}, "turn.gif", "; written from frame 0 up to 24",
			func(t *testing.T, path string) {
				f, err := os.Open(path)
				if err != nil {
					t.Fatal(err)
				}
				defer f.Close()
				g, err := gif.DecodeAll(f)
				if err != nil || g.Config.Width != 64 {
					t.Fatalf("%d wide, %v", g.Config.Width, err)
				}
				long := 0
				for _, d := range g.Delay {
					long += d
				}
				if long != 100 { // 24 frames at 23.976 are 1.001 s
					t.Errorf("it lasts %d hundredths", long)
				}
			}},
		{"pictures of the panels", []string{"-o", "panels.png", "--height", "36"}, "panels", "",
			func(t *testing.T, path string) { pictures(t, path, 4, "001.png", 64, 36) }},
		{"pictures of frames", []string{"-o", "каждый кадр.png", "--each", "frame", "--from", "10", "--to", "15", "--size", "40x40"}, "каждый кадр", "; written from frame 10 up to 15",
			func(t *testing.T, path string) { pictures(t, path, 5, "00010.png", 40, 40) }},
		{"the sound with clicks", []string{"-o", "tune.wav", "--click", "--to", "24"}, "tune.wav", "; written from frame 0 up to 24",
			func(t *testing.T, path string) {
				data, err := os.ReadFile(path)
				if err != nil {
					t.Fatal(err)
				}
				rate := int64(binary.LittleEndian.Uint32(data[24:]))
				if want := (24*1001*rate + 23999) / 24000; int64(len(data)-44)/4 != want {
					t.Errorf("%d samples, want %d", (len(data)-44)/4, want)
				}
			}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			res := r.run(t, append([]string{"share", "film.stillbeat"}, tt.args...)...)
			if res.code != exitDone || !strings.HasPrefix(res.out, tt.out+": 4 panels") || !strings.Contains(res.out, tt.told) {
				t.Fatalf("exit status %d, %q, %q", res.code, res.out, res.err)
			}
			tt.look(t, tt.out)
			res = r.run(t, append([]string{"share", "film.stillbeat"}, tt.args...)...)
			if res.code != exitFailed || !strings.Contains(res.err, "it is there already; --force replaces it") {
				t.Errorf("once more: exit status %d, %q", res.code, res.err)
			}
			r.must(t, append([]string{"share", "film.stillbeat", "--force"}, tt.args...)...)
		})
	}
	if left := names(t); slices.ContainsFunc(left, func(n string) bool { return strings.HasPrefix(n, ".") }) {
		t.Errorf("left behind: %v", left)
	}
}

// film checks a film's size, frames (-1: any) and tracks.
func film(t *testing.T, path string, w, h, frames int, kinds ...string) {
	t.Helper()
	p := probe(t, path)
	v := p.Streams[0]
	if v.Width != w || v.Height != h || frames >= 0 && int(v.Frames) != frames || !slices.Equal(p.kinds(), kinds) {
		t.Errorf("%s is %+v with %v, want %dx%d, %d frames, %v", path, v, p.kinds(), w, h, frames, kinds)
	}
}

// pictures checks a folder of PNGs.
func pictures(t *testing.T, folder string, count int, first string, w, h int) {
	t.Helper()
	held, err := os.ReadDir(folder)
	if err != nil || len(held) != count || held[0].Name() != first {
		t.Fatalf("%s holds %v, %v; want %d from %s on", folder, held, err, count, first)
	}
	f, err := os.Open(folder + "/" + first)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if c, err := png.DecodeConfig(f); err != nil || c.Width != w || c.Height != h {
		t.Errorf("%s is %dx%d, %v", first, c.Width, c.Height, err)
	}
}

// What cannot be shared as asked is one line, and leaves nothing.
func TestShareFailures(t *testing.T) {
	inTemp(t)
	fourPanels(t)
	write(t, "taken", []byte("mine"))
	before := fmt.Sprint(names(t))
	for _, tt := range []struct{ args, says string }{
		{"-o a.mp4 --from 500", "there are no frames from 500 up to 102: the film has 102"},
		{"-o a.mp4 --from 30 --to 30", "there are no frames from 30 up to 30"},
		{"-o a.mp4 --from 00:99:00:00", `"00:99:00:00" is no timecode at 23.976 fps: they look like 00:01:02:04`},
		{"-o a.mp4 --to panel:9", `there is no panel "9"`},
		{"-o a.mp4 --under 0.01 --silent --height 720", "0.01 MB is too little for the film: at 1280x720 it takes about"},
		{"-o .png", "the name before .png is that of the folder"},
		{"-o nowhere/a.png", `there is no folder "nowhere"`},
		{"-o nowhere/a.wav", `there is no folder "nowhere"`},
		{"-o taken.png --force", "it is a file, not a folder"},
	} {
		res := runner{ear: knownEar{}}.run(t, append([]string{"share", "film.stillbeat"}, strings.Fields(tt.args)...)...)
		if res.code != exitFailed || res.out != "" || !strings.Contains(res.err, tt.says) {
			t.Errorf("%s: exit status %d, %q, %q; want %q", tt.args, res.code, res.out, res.err, tt.says)
		}
	}
	if after := fmt.Sprint(names(t)); after != before {
		t.Errorf("the folder holds %s, want %s", after, before)
	}
}
