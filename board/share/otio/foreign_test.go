package otio

import (
	"fmt"
	"strings"
	"testing"

	"stillbeat/board"
)

// Pieces of timelines as others write them.
func rt(rate, value float64) string {
	return fmt.Sprintf(`{"OTIO_SCHEMA": "RationalTime.1", "rate": %v, "value": %v}`, rate, value)
}

func span(rate, start, length float64) string {
	return `{"OTIO_SCHEMA": "TimeRange.1", "start_time": ` + rt(rate, start) + `, "duration": ` + rt(rate, length) + `}`
}

func clip(name string, length float64, more ...string) string {
	return fmt.Sprintf(`{"OTIO_SCHEMA": "Clip.1", "name": %q, "source_range": %s%s}`, name, span(24, 100, length), and(more))
}

func gap(length float64) string {
	return `{"OTIO_SCHEMA": "Gap.1", "name": null, "source_range": ` + span(24, 0, length) + `}`
}

func dissolveOf(kind string, in, out float64) string {
	return `{"OTIO_SCHEMA": "Transition.1", "transition_type": "` + kind + `", "in_offset": ` + rt(24, in) + `, "out_offset": ` + rt(24, out) + `}`
}

func and(more []string) string {
	if len(more) == 0 {
		return ""
	}
	return ", " + strings.Join(more, ", ")
}

func track(kind string, children ...string) string {
	return `{"OTIO_SCHEMA": "Track.1", "kind": "` + kind + `", "source_range": null, "markers": null, "children": [` + strings.Join(children, ",") + `]}`
}

func stack(source string, children ...string) string {
	return `{"OTIO_SCHEMA": "Stack.1", "children": [` + strings.Join(children, ",") + `], "source_range": ` + source + `}`
}

func line(tracks ...string) string {
	return `{"OTIO_SCHEMA": "Timeline.1", "name": "cut", "global_start_time": ` + rt(24, 86400) + `, "tracks": ` + stack("null", tracks...) + `}`
}

// told writes a timing in a line: "cup 0 | - 12 dissolve 8 | 24", frames at 24.
func told(t board.Timing) string {
	rate := board.FrameRate{Num: 24, Den: 1}
	var out strings.Builder
	for _, c := range t.Cues {
		name := c.Number
		if c.Gap {
			name = "-"
		}
		fmt.Fprintf(&out, "%s %d", name, rate.Nearest(c.At))
		if c.Into.Kind != board.Cut {
			fmt.Fprintf(&out, " %s %d", c.Into.Kind, c.Into.Frames)
		}
		out.WriteString(" | ")
	}
	fmt.Fprint(&out, rate.Nearest(t.End.At))
	for _, m := range t.Markers {
		fmt.Fprintf(&out, ", %s at %d", m.Name, rate.Nearest(m.At))
	}
	return out.String()
}

// The minimal timeline of trade.md 1.5, whose fields are from the library's
// test baselines: a panel held 48 frames with a marker, a gap of 12.
const minimal = `{"OTIO_SCHEMA":"Timeline.1","name":"board","metadata":{},"global_start_time":null,
"tracks":{"OTIO_SCHEMA":"Stack.1","name":"tracks","metadata":{},"source_range":null,"effects":[],"markers":[],"enabled":true,"children":[
{"OTIO_SCHEMA":"Track.1","name":"V1","kind":"Video","metadata":{},"source_range":null,"effects":[],"markers":[],"enabled":true,"children":[
{"OTIO_SCHEMA":"Clip.2","name":"1A","metadata":{},"effects":[],"enabled":true,
"source_range":{"OTIO_SCHEMA":"TimeRange.1","start_time":{"OTIO_SCHEMA":"RationalTime.1","rate":24.0,"value":0.0},"duration":{"OTIO_SCHEMA":"RationalTime.1","rate":24.0,"value":48.0}},
"markers":[{"OTIO_SCHEMA":"Marker.2","name":"beat 3","color":"GREEN","comment":"","metadata":{},"marked_range":{"OTIO_SCHEMA":"TimeRange.1","start_time":{"OTIO_SCHEMA":"RationalTime.1","rate":24.0,"value":24.0},"duration":{"OTIO_SCHEMA":"RationalTime.1","rate":24.0,"value":0.0}}}],
"active_media_reference_key":"DEFAULT_MEDIA","media_references":{"DEFAULT_MEDIA":{"OTIO_SCHEMA":"ExternalReference.1","name":"","metadata":{},"available_range":null,"available_image_bounds":null,"target_url":"panels/1A.png"}}},
{"OTIO_SCHEMA":"Gap.1","name":"","metadata":{},"effects":[],"markers":[],"enabled":true,
"source_range":{"OTIO_SCHEMA":"TimeRange.1","start_time":{"OTIO_SCHEMA":"RationalTime.1","rate":24.0,"value":0.0},"duration":{"OTIO_SCHEMA":"RationalTime.1","rate":24.0,"value":12.0}}}]}]}}`

func TestReadOthers(t *testing.T) {
	const range2 = `"media_references": {"proxy": {"available_range": null}, "full": {"OTIO_SCHEMA": "ExternalReference.1", "available_range": `
	tests := []struct{ name, text, want, note string }{
		{"the minimal file", minimal, "1A 0 | - 48 | 60, beat 3 at 24", ""},
		{"dissolves before, between and after", line(track("Video", dissolveOf(dissolve, 0, 10), clip("A", 50), dissolveOf(dissolve, 10, 10), clip("B", 50), dissolveOf(dissolve, 10, 10))),
			"A 0 dissolve 10 | B 50 dissolve 20 | 100", "a transition after the last picture"},
		{"another transition", line(track("Video", clip("A", 50), dissolveOf("Iris", 3, 4), clip("B", 50))), "A 0 | B 50 dissolve 7 | 100", `the kind "Iris" of a transition: it is a dissolve now`},
		{"a transition that is too long", line(track("Video", clip("A", 400), dissolveOf(dissolve, 200, 200), clip("B", 400))), "A 0 | B 400 dissolve 255 | 800", "a transition of 400 frames"},
		{"no range: what there is of the picture", line(track("Video", `{"OTIO_SCHEMA": "Clip.1", "name": "A", "source_range": null, "media_reference": {"available_range": `+span(24, 0, 30)+`}}`, clip("B", 10))), "A 0 | B 30 | 40", ""},
		{"no range: that of the reference in use", line(track("Video", `{"OTIO_SCHEMA": "Clip.2", "name": "A", "active_media_reference_key": "full", `+range2+span(24, 0, 30)+`}}}`, clip("B", 10))), "A 0 | B 30 | 40", ""},
		{"no length at all", line(track("Video", `{"OTIO_SCHEMA": "Clip.1", "name": "A", "media_reference": null}`, clip("B", 10))), "B 0 | 10", "does not say how long it is"},
		{"a nested stack is trimmed", line(track("Video", clip("A", 10), stack(span(24, 5, 20), track("Video", clip("B", 15), clip("C", 20))), clip("D", 5))), "A 0 | B 10 | C 20 | D 30 | 35", ""},
		{"a nested track shorter than its range", line(track("Video", stack(span(24, 0, 20), clip("B", 15)), clip("D", 5))), "B 0 | - 15 | D 20 | 25", ""},
		{"a frozen nested stack fills its range", line(track("Video", strings.Replace(stack(span(24, 0, 20), clip("B", 1)), "{", `{"effects": [{"OTIO_SCHEMA": "FreezeFrame.1"}],`, 1), clip("D", 5))), "B 0 | D 20 | 25", "a change of speed"},
		{"an upper track covers", line(track("Video", clip("A", 30), clip("B", 30)), track("Video", gap(10), clip("C", 10), gap(50))), "A 0 | C 10 | A 20 | B 30 | - 60 | 70", ""},
		{"an upper track that goes on", line(track("Video", clip("A", 30)), track("Video", gap(40), clip("C", 10))), "A 0 | - 30 | C 40 | 50", ""},
		{"a track that is off", line(track("Video", clip("A", 30)), strings.Replace(track("Video", clip("C", 10)), "{", `{"enabled": false, `, 1)), "A 0 | 30", ""},
		{"a clip that is off", line(track("Video", clip("A", 30), clip("B", 10, `"enabled": false`), clip("C", 1))), "A 0 | - 30 | C 40 | 41", ""},
		{"gaps in a row are one", line(track("Video", gap(3), gap(4), clip("A", 30))), "- 0 | A 7 | 37", ""},
		{"sound is left out", line(track("Audio", clip("S", 90)), track("Video", clip("A", 30))), "A 0 | 30", ""},
		{"a track of another kind", line(track("Captions", clip("S", 90)), track("Video", clip("A", 30))), "A 0 | 30", `a track of the kind "Captions"`},
		{"unknown objects keep their time", line(track("Video", clip("A", 30), strings.Replace(clip("X", 12), "Clip.1", "Puppet.4", 1), clip("B", 1))), "A 0 | - 30 | B 42 | 43", `of the kind "Puppet"`},
		{"older names", strings.NewReplacer("Track.1", "Sequence.1", "Gap.1", "Filler.1").Replace(line(track("Video", gap(3), clip("A", 30)))), "- 0 | A 3 | 33", ""},
		{"rates side by side", line(track("Video", clip("A", 24), `{"OTIO_SCHEMA": "Clip.2", "name": "B", "source_range": `+span(48000, 0, 24000)+`}`, clip("C", 12))), "A 0 | B 24 | C 36 | 48", ""},
		{"markers of three versions", line(track("Video", clip("A", 30, `"markers": [`+
			`{"OTIO_SCHEMA": "Marker.1", "name": "one", "marked_range": `+span(24, 110, 0)+`},`+
			`{"OTIO_SCHEMA": "Marker.2", "name": "two", "color": "RED", "marked_range": `+span(24, 120, 5)+`},`+
			`{"OTIO_SCHEMA": "Marker.3", "comment": "three", "color": {"OTIO_SCHEMA": "Color.1", "r": 1}, "marked_range": `+span(24, 99, 0)+`}]`))), "A 0 | 30, one at 10, two at 20", ""},
		{"a single track", track("Video", clip("A", 30)), "A 0 | 30", ""},
		{"a collection", `{"OTIO_SCHEMA": "SerializableCollection.1", "children": [` + clip("X", 1) + "," + line(track("Video", clip("A", 30))) + `]}`, "A 0 | 30", `besides the timeline "cut"`},
		{"fields in any order, others among them", `{"tracks": {"children": [{"children": [` + clip("A", 3, `"odd": {"children": [1, {"name": []}]}`) + `], "kind": "Video", "OTIO_SCHEMA": "Track.1"}], "OTIO_SCHEMA": "Stack.1"}, "OTIO_SCHEMA": "Timeline.1"}`, "A 0 | 3", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			timing, notes, err := Read([]byte(tt.text))
			must(t, err)
			if got := told(timing); got != tt.want {
				t.Errorf("it is read as\n%s, want\n%s", got, tt.want)
			}
			if all := strings.Join(notes, "\n"); !strings.Contains(all, tt.note) || (tt.note == "") != (all == "") {
				t.Errorf("notes %q, want %q", notes, tt.note)
			}
		})
	}
}

// The rate is that of most pictures, exactly however it is rounded.
func TestRates(t *testing.T) {
	for written, want := range map[float64]board.FrameRate{
		24: {Num: 24, Den: 1}, 23.976: {Num: 24000, Den: 1001}, 23.98: {Num: 24000, Den: 1001}, 23.976023976023978: {Num: 24000, Den: 1001},
		29.97: {Num: 30000, Den: 1001}, 59.94: {Num: 60000, Den: 1001}, 12.5: {Num: 25, Den: 2}, 15: {Num: 15, Den: 1}, 120: {Num: 120, Den: 1},
	} {
		text := line(track("Video", `{"OTIO_SCHEMA": "Clip.2", "name": "A", "source_range": `+span(written, 0, 1)+`}`))
		timing, _, err := Read([]byte(text))
		if err != nil || timing.Rate != want {
			t.Errorf("%v is read as %v, %v; want %v", written, timing.Rate, err, want)
		}
	}
}

func TestReadRefuses(t *testing.T) {
	deep := strings.Repeat(`{"OTIO_SCHEMA": "Stack.1", "children": [`, 100)
	tests := []struct{ name, text, says string }{
		{"nothing", "", "line 1: it ends too early"},
		{"half of it", minimal[:len(minimal)/2], "it ends too early"},
		{"no JSON", "TITLE: CUT\n", "line 1: this is not JSON"},
		{"no text", "\xff\xfe{", "not text in UTF-8"},
		{"JSON of something else", `{"name": "cup"}`, "has no OTIO_SCHEMA"},
		{"a list", `[1]`, "no object where one should be"},
		{"null", `null`, "has no OTIO_SCHEMA"},
		{"more after the end", minimal + "x", "line 9: this is not JSON"},
		{"no pictures", line(track("Video")), "there are no pictures in it"},
		{"sound alone", line(track("Audio", clip("S", 9))), "there are no pictures in it"},
		{"a collection of nothing", `{"OTIO_SCHEMA": "SerializableCollection.1", "children": []}`, "no timeline in it"},
		{"a rate of nothing", line(track("Video", `{"OTIO_SCHEMA": "Clip.2", "source_range": `+span(0, 0, 1)+`}`)), "at the rate 0 is no time"},
		{"a negative length", line(track("Video", clip("A", -1))), "a range has a negative length"},
		{"a time in words", `{"OTIO_SCHEMA": "Clip.2", "source_range": {"start_time": "now"}}`, "a time is no object"},
		{"a range without its length", `{"OTIO_SCHEMA": "Clip.2", "source_range": {}}`, "no start or no duration"},
		{"children that are no list", `{"OTIO_SCHEMA": "Stack.1", "children": 4}`, "no list where one should be"},
		{"a name that is a number", `{"OTIO_SCHEMA": "Stack.1", "name": 4}`, "a value does not fit (number)"},
		{"too deep", deep, "more than 40 stacks and tracks in each other"},
		{"too many objects", line(track("Video", strings.TrimSuffix(strings.Repeat("null,", maxNodes+1), ","))), "objects in its tracks"},
		{"too many pictures", line(track("Video", strings.TrimSuffix(strings.Repeat(clip("A", 1)+",", board.MaxPanels+1), ","))), "it has 20001 pictures"},
	}
	for _, tt := range tests {
		timing, notes, err := Read([]byte(tt.text))
		if err == nil || !strings.Contains(err.Error(), tt.says) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want %q", tt.name, err, tt.says)
		}
		if notes != nil || timing.Cues != nil {
			t.Errorf("%s: refused, yet something came back", tt.name)
		}
	}
}

// What an editor changes in a list of our own is what changes in the film.
func TestEditedList(t *testing.T) {
	b := teaFilm(t)
	text, err := Write(b, Options{})
	must(t, err)
	edited := strings.Replace(string(text), `"value": 6.0`, `"value": 4.0`, 1) // the dissolve's frames before the cut
	edited = strings.Replace(edited, `"note": "slowly"`, `"note": "fast"`, 1)
	if edited == string(text) {
		t.Fatal("nothing was edited")
	}
	timing, _, err := Read([]byte(edited))
	must(t, err)
	got, _, err := b.Take(timing)
	must(t, err)
	if p := got.Panels[1]; p.Note != "fast" || p.Into != (board.Transition{Kind: board.Dissolve, Frames: 11}) || p.Picture != "p" || p.Start != b.Panels[1].Start {
		t.Errorf("the panel is %+v", p)
	}
}

func FuzzRead(f *testing.F) {
	own, err := Write(teaFilm(f), Options{})
	must(f, err)
	for _, text := range []string{string(own), minimal,
		line(track("Video", clip("A", 30), dissolveOf(dissolve, 3, 3), clip("B", 30)), track("Video", gap(10), clip("C", 10), gap(50))),
		line(track("Video", clip("A", 10), stack(span(24, 5, 20), track("Video", clip("B", 15), clip("C", 20))), clip("D", 5)))} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		timing, _, err := Read(data)
		if err != nil {
			if strings.Contains(err.Error(), "\n") {
				t.Errorf("more than a sentence: %q", err)
			}
			return
		}
		last := -1.0
		for _, c := range timing.Cues {
			if c.At < last {
				t.Fatalf("a picture at %g comes after one at %g", c.At, last)
			}
			last = c.At
		}
		b, err := board.NewFromTiming(timing)
		if err != nil {
			return // too long, for instance
		}
		must(t, b.Check())
		again, err := Write(b, Options{})
		must(t, err)
		back, _, err := Read(again)
		must(t, err)
		fresh, err := board.NewFromTiming(back)
		must(t, err)
		comesBack(t, fresh, b)
	})
}
