package main

import (
	"context"
	"errors"
	"image/color"
	"os"
	"strings"
	"testing"

	"stillbeat/board/desk"
)

func TestHelp(t *testing.T) {
	inTemp(t)
	golden(t, "help.txt", must(t, "--help"))
	for _, name := range []string{"demo", "listen", "new", "info", "snap", "beats", "spacing", "share", "sheet", "timing", "check", "plan", "notes", "unpack", "pack", "version", "help"} {
		golden(t, "help-"+name+".txt", must(t, name, "--help"))
		if by := must(t, "help", name); by != must(t, name, "-h") {
			t.Errorf("help %s differs from %s -h", name, name)
		}
	}
}

func TestVersion(t *testing.T) {
	if out := must(t, "version"); !strings.HasPrefix(out, "stillbeat "+version+" (go") {
		t.Errorf("it prints %q", out)
	}
}

// The version is the newest one in the changelog and that of the package.
func TestVersionIsTheSameEverywhere(t *testing.T) {
	log, err := os.ReadFile("../../CHANGELOG.md")
	if err != nil {
		t.Fatal(err)
	}
	_, after, _ := strings.Cut(string(log), "\n## ")
	if head, _, _ := strings.Cut(after, "\n"); !strings.HasPrefix(head, version) {
		t.Errorf("the changelog begins with %q, the program is %s", head, version)
	}
	sheet, err := os.ReadFile("../../FyneApp.toml")
	if err != nil {
		t.Fatal(err)
	}
	if want := `Version = "` + version + `"`; !strings.Contains(string(sheet), want) {
		t.Errorf("FyneApp.toml has no line %s", want)
	}
}

// Wrong use is told with exit status 2, one line that says what is wrong, and
// how to get help; nothing is done.
func TestWrongUse(t *testing.T) {
	inTemp(t)
	tests := []struct {
		name, args string // args are split at spaces
		says       string
		help       string
	}{
		{"unknown command", "frobnicate", `"frobnicate" is neither a command nor a film`, ""},
		{"misspelt command", "lisen song.wav", "did you mean listen?", ""},
		{"two films", "a.stillbeat b.stillbeat", `"b.stillbeat" is one too many`, ""},
		{"unknown option", "--loud", "unknown flag: --loud", ""},
		{"unknown option of a command", "info --loud film.stillbeat", "unknown flag: --loud", " info"},
		{"unknown short option", "info -z film.stillbeat", "unknown shorthand flag: 'z'", " info"},
		{"listen without a song", "listen", "listen needs one SONG", " listen"},
		{"listen to two songs", "listen a.wav b.wav", `"b.wav" is one too many`, " listen"},
		{"two formats at once", "listen a.wav --json --csv", "exclude each other", " listen"},
		{"new without pictures", "new a.stillbeat", "at least one PICTURE", " new"},
		{"new without a film's name", "new a.png b.png", "must end in .stillbeat", " new"},
		{"unknown rate", "new a.stillbeat --fps quick a.png", `--fps: "quick" is not a frame rate`, " new"},
		{"rate out of range", "new a.stillbeat --fps 0 a.png", "--fps: the frame rate 0 is outside 1 to 120", " new"},
		{"every none", "new a.stillbeat --every 0 a.png", `--every: "0" is not a whole number from 1`, " new"},
		{"step too coarse", "new a.stillbeat --step 13 a.png", `--step: "13" is not a whole number from 1 to 12`, " new"},
		{"option without its value", "new a.stillbeat a.png --song", "flag needs an argument: --song", " new"},
		{"info without a film", "info", "info needs one FILM", " info"},
		{"snap to nothing", "snap a.stillbeat", "--to beat, bar, half, third, quarter, onset or marker", " snap"},
		{"snap to the unknown", "snap a.stillbeat --to fifth", `--to: "fifth" is not something to snap to`, " snap"},
		{"negative hold", "snap a.stillbeat --to beat --shortest -1", `--shortest: "-1" is not a whole number from 0`, " snap"},
		{"spacing without a film", "spacing", "spacing needs one FILM", " spacing"},
		{"spacing in two formats", "spacing a.stillbeat --json --csv", "exclude each other", " spacing"},
		{"a step in words", "spacing a.stillbeat --largest far", `--largest: "far" is not a length`, " spacing"},
		{"a step of nothing", "spacing a.stillbeat --smallest 0", `--smallest: "0" is not a length`, " spacing"},
		{"share to nowhere", "share a.stillbeat", "-o OUT", " share"},
		{"check without a film", "check", "check needs one FILM", " check"},
		{"check by a negative limit", "check a.stillbeat --late -1", `--late: "-1" is not a number from 0 to 10000`, " check"},
		{"check by no number", "check a.stillbeat --reading NaN", `--reading: "NaN" is not a number from 0 to 100`, " check"},
		{"share as the unknown", "share a.stillbeat -o a.avi", `"a.avi" is nothing that can be written`, " share"},
		{"size in words", "share a.stillbeat -o a.mp4 --size big", `--size: "big" is not a size`, " share"},
		{"size too small", "share a.stillbeat -o a.mp4 --size 8x720", `--size: "8x720" is not a size`, " share"},
		{"a part by a word", "share a.stillbeat -o a.mp4 --from soon", `--from: "soon" is no place in a film`, " share"},
		{"a part before the film", "share a.stillbeat -o a.mp4 --from -1", `--from: "-1" is no place in a film`, " share"},
		{"a panel without a number", "share a.stillbeat -o a.mp4 --to panel:", `--to: "panel:" is no place in a film`, " share"},
		{"height in words", "share a.stillbeat -o a.mp4 --height tall", `--height: "tall" is not a whole number from 16 to 4096`, " share"},
		{"two sizes", "share a.stillbeat -o a.mp4 --height 720 --size 64x36", "--size and --height exclude each other", " share"},
		{"unknown quality", "share a.stillbeat -o a.mp4 --quality best", `--quality: "best" is not small or standard or fine`, " share"},
		{"quality and a size to keep to", "share a.stillbeat -o a.mp4 --quality fine --under 10", "--quality and --under exclude each other", " share"},
		{"under nothing", "share a.stillbeat -o a.mp4 --under 0", `--under: "0" is not a size of a file`, " share"},
		{"under no number", "share a.stillbeat -o a.mp4 --under NaN", `--under: "NaN" is not a size of a file`, " share"},
		{"burning the unknown", "share a.stillbeat -o a.mp4 --burn frame,date", `--burn: "date" is nothing to burn in: there are frame, timecode`, " share"},
		{"a GIF with clicks", "share a.stillbeat -o a.gif --click", "--click is nothing for .gif", " share"},
		{"a GIF that keeps to a size", "share a.stillbeat -o a.gif --under 1", "--under is nothing for .gif", " share"},
		{"a film of panels", "share a.stillbeat -o a.mp4 --each panel", "--each is nothing for .mp4", " share"},
		{"pictures of beats", "share a.stillbeat -o a.png --each beat", `--each: "beat" is not panel or frame`, " share"},
		{"a sound with words", "share a.stillbeat -o a.wav --mark tea", "--mark is nothing for .wav", " share"},
		{"a part of a list", "share a.stillbeat -o a.otio --from 12", "--from is nothing for .otio", " share"},
		{"a silent table", "share a.stillbeat -o a.csv --silent", "--silent is nothing for .csv", " share"},
		{"sheet to nowhere", "sheet a.stillbeat", "-o OUT.pdf or OUT.csv", " sheet"},
		{"sheet as the unknown", "sheet a.stillbeat -o a.doc", `"a.doc" is nothing that can be written`, " sheet"},
		{"sheet on a wall", "sheet a.stillbeat -o a.pdf --paper a0", `--paper: "a0" is not a4 or letter`, " sheet"},
		{"a row for each beat", "sheet a.stillbeat -o a.pdf --each beat", `--each: "beat" is not frame or exposure`, " sheet"},
		{"a sheet of few rows", "sheet a.stillbeat -o a.pdf --rows 5", `--rows: "5" is not a whole number from 24 to 120`, " sheet"},
		{"a table on paper", "sheet a.stillbeat -o a.csv --paper a4", `--paper is for paper, and "a.csv" is a table`, " sheet"},
		{"plan without a film", "plan", "plan needs one FILM", " plan"},
		{"plan in two formats", "plan a.stillbeat --json -o a.pdf", "--json and -o exclude each other", " plan"},
		{"plan as the unknown", "plan a.stillbeat -o a.csv", `"a.csv" is nothing that can be written`, " plan"},
		{"a plan printed nowhere", "plan a.stillbeat --paper letter", "--paper is for paper: say where with -o", " plan"},
		{"a session of no time", "plan a.stillbeat --session 5", `--session: "5" is not a number from 10 to 1440`, " plan"},
		{"a pace in words", "plan a.stillbeat --pace fast", `--pace: "fast" is not a pace`, " plan"},
		{"no pace at all", "plan a.stillbeat --pace 0", `--pace: "0" is not a pace`, " plan"},
		{"a contingency beyond all", "plan a.stillbeat --contingency 900", `--contingency: "900" is not a number from 0 to 500`, " plan"},
		{"notes of nothing", "notes", "notes needs one FILM", " notes"},
		{"notes of two films", "notes a.stillbeat b.stillbeat", `"b.stillbeat" is one too many`, " notes"},
		{"notes taken as JSON", "notes a.stillbeat --take a.notes.json --json", "--json is for the list", " notes"},
		{"anyway without notes", "notes a.stillbeat --anyway", "--anyway is for --take", " notes"},
		{"unpack to nowhere", "unpack a.stillbeat", "unpack needs a FILM and the DIR", " unpack"},
		{"pack nothing", "pack", "pack needs a DIR and the FILM", " pack"},
		{"pack into what is no film", "pack a b", `"b" is no name for a film`, " pack"},
		{"pack two folders", "pack a b c.stillbeat", `"c.stillbeat" is one too many`, " pack"},
		{"two folders", "demo a b", `"b" is one too many`, " demo"},
		{"version of something", "version 2", `"2" is one too many`, " version"},
		{"help on the unknown", "help frobnicate", `no command "frobnicate"`, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			res := runner{}.run(t, strings.Fields(tt.args)...)
			if res.code != exitUsage || res.out != "" {
				t.Errorf("exit status %d and output %q, want %d and none", res.code, res.out, exitUsage)
			}
			lines := strings.SplitAfter(res.err, "\n")
			if len(lines) != 3 || !strings.HasPrefix(lines[0], "stillbeat: ") || !strings.Contains(lines[0], tt.says) {
				t.Errorf("it says\n%s\nwant one line with %q and how to get help", res.err, tt.says)
			} else if want := "To get help: stillbeat" + tt.help + " --help\n"; lines[1] != want {
				t.Errorf("the second line is %q, want %q", lines[1], want)
			}
		})
	}
	if left := names(t); len(left) > 0 {
		t.Errorf("wrong use made %v", left)
	}
}

// What fails is told with exit status 1 and one line that names the file and
// the cause; nothing is left behind.
func TestFailures(t *testing.T) {
	inTemp(t)
	writePicture(t, "good.png", color.White)
	write(t, "bad.png", []byte("this is no picture"))
	write(t, "empty.png", nil)
	write(t, "noise.wav", []byte("noise"))
	write(t, "not-a-film.stillbeat", []byte("some other file"))
	if err := os.Mkdir("folder.stillbeat", 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll("full/of/things", 0o755); err != nil {
		t.Fatal(err)
	}
	known := runner{ear: knownEar{}}
	known.must(t, "new", "silent.stillbeat", "good.png")
	known.must(t, "new", "full.stillbeat", "--song", "good.png", "good.png", "good.png")
	before := strings.Join(names(t), " ")
	tests := []struct {
		name string
		args []string
		says []string
	}{
		{"no display", []string{}, []string{"there is no display"}},
		{"no display for the demo", []string{"demo"}, []string{"there is no display"}},
		{"song is missing", []string{"listen", "gone.wav"}, []string{`"gone.wav"`, "no such file"}},
		{"song is a folder", []string{"listen", "folder.stillbeat"}, []string{`"folder.stillbeat"`, "folder"}},
		{"song is something else", []string{"listen", "noise.wav"}, []string{`"noise.wav"`, "not a sound"}},
		{"film is missing", []string{"info", "gone.stillbeat"}, []string{`"gone.stillbeat"`, "no such file"}},
		{"film is a folder", []string{"info", "folder.stillbeat"}, []string{`"folder.stillbeat"`, "folder"}},
		{"film is something else", []string{"info", "not-a-film.stillbeat"}, []string{`"not-a-film.stillbeat"`, "not a Stillbeat film"}},
		{"all pictures are bad", []string{"new", "x.stillbeat", "bad.png", "gone.png", "empty.png"},
			[]string{`"bad.png": not a PNG`, `"gone.png": there is no such file`, `"empty.png": the file is empty`}},
		{"song of a new film is bad", []string{"new", "x.stillbeat", "--song", "noise.wav", "good.png"}, []string{`"noise.wav"`, "not a sound"}},
		{"title is not text", []string{"new", "x.stillbeat", "--title", "a\xffb", "good.png"}, []string{`"x.stillbeat"`, "title"}},
		{"film is there already", []string{"new", "silent.stillbeat", "good.png"}, []string{`"silent.stillbeat"`, "--force"}},
		{"folder of the film is missing", []string{"new", "nowhere/x.stillbeat", "good.png"}, []string{`no folder "nowhere"`}},
		{"film would replace a folder", []string{"new", "folder.stillbeat", "--force", "good.png"}, []string{`"folder.stillbeat"`, "folder"}},
		{"nothing to snap to", []string{"snap", "silent.stillbeat", "--to", "beat"}, []string{`"silent.stillbeat"`, "no beats"}},
		{"too many panels to snap", []string{"snap", "full.stillbeat", "--to", "bar", "--shortest", "1000"}, []string{`"full.stillbeat"`, "do not fit"}},
		{"animatic is there already", []string{"share", "silent.stillbeat", "-o", "there.mp4"}, []string{`"there.mp4"`, "--force"}},
		{"sheet is there already", []string{"sheet", "silent.stillbeat", "-o", "there.pdf"}, []string{`"there.pdf"`, "--force"}},
		{"folder of the sheet is missing", []string{"sheet", "silent.stillbeat", "-o", "nowhere/x.pdf"}, []string{`no folder "nowhere"`}},
		{"sheet of an unknown shot", []string{"sheet", "silent.stillbeat", "-o", "x.pdf", "--shots", "9"}, []string{`sheet of "silent.stillbeat": there is no shot "9"`}},
		{"plan is there already", []string{"plan", "silent.stillbeat", "-o", "there.pdf"}, []string{`"there.pdf"`, "--force"}},
		{"a plan that cannot be", []string{"plan", "silent.stillbeat", "--pace", "90min", "--session", "60"}, []string{`plan of "silent.stillbeat": an exposure takes 108 minutes`}},
		{"folder of the animatic is missing", []string{"share", "silent.stillbeat", "-o", "nowhere/x.mp4"}, []string{`no folder "nowhere"`}},
		{"folder is there already", []string{"unpack", "silent.stillbeat", "full"}, []string{`"full"`, "with something in it"}},
		{"folder would replace a film", []string{"unpack", "silent.stillbeat", "full.stillbeat"}, []string{`"full.stillbeat"`, "already a file"}},
		{"folder above is missing", []string{"unpack", "silent.stillbeat", "nowhere/x"}, []string{`"x"`, "no folder"}},
		{"film to unpack is missing", []string{"unpack", "gone.stillbeat", "x"}, []string{`"gone.stillbeat"`, "no such file"}},
		{"folder to pack is missing", []string{"pack", "gone", "x.stillbeat"}, []string{`"gone"`, "no such file or folder"}},
		{"folder to pack is no film", []string{"pack", "full", "x.stillbeat"}, []string{`"full"`, "no film.json"}},
		{"film to pack into is there already", []string{"pack", "full", "silent.stillbeat"}, []string{`"silent.stillbeat"`, "--force"}},
		{"demo into a file", []string{"demo", "good.png"}, []string{`"good.png"`, "not a directory"}},
	}
	write(t, "there.mp4", []byte("mine"))
	write(t, "there.pdf", []byte("mine"))
	before += " there.mp4 there.pdf"
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			res := known.run(t, tt.args...)
			oneLineOf(t, res)
			for _, want := range tt.says {
				if !strings.Contains(res.err, want) {
					t.Errorf("it says %q, want %q in it", res.err, want)
				}
			}
		})
	}
	if after := strings.Join(names(t), " "); after != before {
		t.Errorf("the folder holds\n%s\nwant\n%s", after, before)
	}
}

// oneLineOf checks that a failure printed one line and nothing else.
func oneLineOf(t *testing.T, res result) {
	t.Helper()
	if res.code != exitFailed || res.out != "" {
		t.Errorf("exit status %d and output %q, want %d and none", res.code, res.out, exitFailed)
	}
	if !strings.HasPrefix(res.err, "stillbeat: ") || strings.Count(res.err, "\n") != 1 || !strings.HasSuffix(res.err, "\n") {
		t.Errorf("it says %q, want one line", res.err)
	}
}

// earFunc is an ear that does something else than hear.
type earFunc func() error

func (f earFunc) Hear(context.Context, desk.SongFile, desk.Wish, desk.Progress) (*desk.Heard, error) {
	return nil, f()
}

func TestPanicIsOneLine(t *testing.T) {
	inTemp(t)
	write(t, "song.wav", []byte("x"))
	res := runner{ear: earFunc(func() error { panic("a bug\nin two lines") })}.run(t, "listen", "song.wav")
	oneLineOf(t, res)
	if !strings.Contains(res.err, "internal error at usage_test.go:") || !strings.Contains(res.err, "a bug; in two lines") {
		t.Errorf("it says %q", res.err)
	}
}

// Stopping a command leaves no files, half written or whole.
func TestStopped(t *testing.T) {
	inTemp(t)
	writePicture(t, "a.png", color.White)
	write(t, "song.wav", []byte("x"))
	runner{ear: knownEar{}}.must(t, "new", "film.stillbeat", "--song", "song.wav", "a.png")
	before := strings.Join(names(t), " ")
	for _, args := range [][]string{
		{"listen", "song.wav"},
		{"new", "x.stillbeat", "--song", "song.wav", "a.png"},
		{"share", "film.stillbeat", "-o", "film.mp4"},
		{"demo", "deep/down/here"},
	} {
		t.Run(args[0], func(t *testing.T) {
			ctx, cancel := context.WithCancel(t.Context())
			stopped := earFunc(func() error { cancel(); return ctx.Err() })
			res := runner{ear: stopped, ctx: ctx}.run(t, args...)
			oneLineOf(t, res)
			if !strings.Contains(res.err, "stopped") {
				t.Errorf("it says %q", res.err)
			}
			if after := strings.Join(names(t), " "); after != before {
				t.Errorf("the folder holds %s, want %s", after, before)
			}
		})
	}
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left") }

func TestUnwrittenResultFails(t *testing.T) {
	inTemp(t)
	write(t, "song.wav", []byte("x"))
	for _, format := range []string{"--json", "--csv", "--quiet"} {
		res := runner{ear: knownEar{}, out: fullDisk{}}.run(t, "listen", "song.wav", format)
		oneLineOf(t, res)
	}
}

func TestWindowOpens(t *testing.T) {
	inTemp(t)
	writePicture(t, "a.png", color.White)
	must(t, "new", "film.stillbeat", "a.png")
	r := runner{display: true}
	for _, tt := range []struct {
		name string
		args []string
		want string
	}{
		{"empty", nil, ""},
		{"on a film", []string{"film.stillbeat"}, "film.stillbeat"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			res := r.run(t, tt.args...)
			if res.code != exitDone || len(res.opened) != 1 || res.opened[0] != tt.want {
				t.Errorf("exit status %d, opened %q, want %q", res.code, res.opened, tt.want)
			}
		})
	}
	res := r.run(t, "gone.stillbeat")
	oneLineOf(t, res)
	if len(res.opened) > 0 {
		t.Error("a window was opened on a film that is not there")
	}
}

func TestSettleLocale(t *testing.T) {
	tests := []struct{ all, messages, lang, want string }{
		{"", "", "", "en_GB.UTF-8"},
		{"", "", "C", "en_GB.UTF-8"},
		{"", "", "POSIX", "en_GB.UTF-8"},
		{"", "", "C.UTF-8", "en_GB.UTF-8"},
		{"C", "", "de_DE.UTF-8", "en_GB.UTF-8"},
		{"", "", "de_DE.UTF-8", ""},
		{"", "fr_FR.UTF-8", "C", ""},
		{"nb_NO", "", "C", "nb_NO"},
	}
	for _, tt := range tests {
		t.Setenv("LC_ALL", tt.all)
		t.Setenv("LC_MESSAGES", tt.messages)
		t.Setenv("LANG", tt.lang)
		settleLocale()
		if got := os.Getenv("LC_ALL"); got != tt.want {
			t.Errorf("LC_ALL=%q LC_MESSAGES=%q LANG=%q: LC_ALL becomes %q, want %q", tt.all, tt.messages, tt.lang, got, tt.want)
		}
	}
}
