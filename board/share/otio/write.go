package otio

import (
	"bytes"
	"encoding/json"
	"fmt"

	"stillbeat/board"
	"stillbeat/board/share/lists"
)

// Options sets what is written. The zero value is ready to use.
type Options struct {
	Pictures string // folder of the panels' pictures, relative to the list; "" means "panels"
	Silent   bool   // leave the track of the song out
}

// Write returns the film as a timeline: a track of the panels, each a clip of
// the picture that lists.PictureNames names or a gap if there is nothing to be
// seen on it, and a track of the song as far as it lies under the film. Film
// markers and beats are markers of the whole, notes markers of their panels.
func Write(b board.Board, opts Options) ([]byte, error) {
	if len(b.Panels) == 0 {
		return nil, lists.ErrEmpty
	}
	if opts.Pictures == "" {
		opts.Pictures = "panels"
	}
	w := writer{b: b, rate: b.Rate.Float(), starts: b.Starts(), opts: opts}
	whole := w.composition("Stack.1", "tracks", "")
	whole.Markers = w.markers()
	whole.Children = append(whole.Children, w.pictures())
	if track, sounds := w.song(); sounds && !opts.Silent {
		whole.Children = append(whole.Children, track)
	}
	kept, err := w.film()
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	err = e.Encode(timeline{"Timeline.1", b.Title, own[ownFilm]{kept}, nil, whole})
	return out.Bytes(), err
}

type writer struct {
	b      board.Board
	rate   float64
	starts []board.Frame
	opts   Options
}

// nothing is what an object has that has none.
type nothing struct{}

func (w *writer) composition(schema, name, kind string) composition {
	return composition{schema, name, kind, nothing{}, nil, []any{}, []marker{}, true, []any{}}
}

func (w *writer) time(f board.Frame) rationalTime {
	return rationalTime{"RationalTime.1", number(w.rate), number(f)}
}

func (w *writer) frames(from, length board.Frame) timeRange {
	return timeRange{"TimeRange.1", w.time(from), w.time(length)}
}

// film returns what the timeline keeps. Onsets are left out: they are found in
// the song again.
func (w *writer) film() (ownFilm, error) {
	b := w.b
	kept := ownFilm{Rate: b.Rate, Step: b.Step, End: b.End, Song: b.Song}
	if len(b.Grid.Beats) > 0 {
		beats, err := json.Marshal(b.Grid.Beats)
		if err != nil {
			return kept, err
		}
		kept.Grid = &ownGrid{b.Grid.Tempo, b.Grid.Confidence, b.Grid.Metre, beats}
	}
	return kept, nil
}

// pictures returns the track of the panels.
func (w *writer) pictures() composition {
	track := w.composition("Track.1", "Pictures", "Video")
	files, numbers, passings := lists.PictureNames(w.b), w.b.Numbers(), w.b.Passings(w.starts)
	for i, p := range w.b.Panels {
		kept := ownPanel{p.ID, numbers[i], p.Start, p.Words, nil, p.Opens, p.Heading, p.Fixed, p.Step}
		if p.Into.Kind != board.Cut {
			if pass := passings[i]; pass.Len() > 0 {
				track.Children = append(track.Children, w.transition(p.Into, w.starts[i]-pass.Start, pass.End-w.starts[i]))
			} else {
				kept.Into = &p.Into
			}
		}
		span := w.frames(0, w.starts[i+1]-w.starts[i])
		it := item{Schema: "Gap.1", Name: numbers[i], Metadata: own[ownPanel]{kept}, Source: &span,
			Effects: []any{}, Markers: []marker{}, Enabled: true}
		if !lists.Blank(p) {
			it.Schema, it.Key = "Clip.2", "DEFAULT_MEDIA"
			it.Media = map[string]reference{it.Key: {"ExternalReference.1", files[i], nothing{}, nil, nil, lists.URL(w.opts.Pictures, files[i])}}
		}
		if p.Note != "" {
			it.Markers = append(it.Markers, marker{"Marker.2", "note", own[ownMarker]{ownMarker{Kind: noteMarker}}, w.frames(0, 0), noteColour, p.Note})
		}
		track.Children = append(track.Children, it)
	}
	return track
}

func (w *writer) transition(t board.Transition, in, out board.Frame) transition {
	kind := custom
	if t.Kind == board.Dissolve {
		kind = dissolve
	}
	return transition{"Transition.1", string(t.Kind), own[ownTransition]{ownTransition{t, in, out}}, kind, w.time(in), w.time(out)}
}

// markers returns the film's markers and the beats that lie in it.
func (w *writer) markers() []marker {
	out := []marker{}
	for _, m := range w.b.Markers {
		out = append(out, marker{"Marker.2", m.Name, own[ownMarker]{ownMarker{filmMarker, m.Start}}, w.frames(w.b.Frame(m.Start), 0), markerColour, ""})
	}
	if !w.b.OnGrid() {
		return out
	}
	bar, place := 0, 0
	for k, beat := range w.b.Grid.Beats {
		name, colour := "", beatColour
		if place++; beat.Bar {
			bar, place, colour = bar+1, 1, barColour
		}
		if name = fmt.Sprintf("beat %d", place); bar > 0 {
			name = fmt.Sprintf("bar %d, %s", bar, name)
		}
		if f := w.b.BeatFrame(k); f >= 0 && f < w.starts[len(w.starts)-1] {
			out = append(out, marker{"Marker.2", name, own[ownMarker]{ownMarker{Kind: beatMarker}}, w.frames(f, 0), colour, ""})
		}
	}
	return out
}

// soundRate is what places in the song are counted in, each to the second: a
// usual sample rate. Songs begin between frames.
const soundRate = 48000

// song returns the track of the song, if any of it lies under the film.
func (w *writer) song() (composition, bool) {
	track := w.composition("Track.1", "Song", "Audio")
	s := w.b.Song
	if s == nil {
		return track, false
	}
	rate := board.FrameRate{Num: soundRate, Den: 1}
	in, out := s.Sounding()
	from, to := rate.Nearest(s.Offset+in), rate.Nearest(s.Offset+out)
	at := rate.Nearest(in)
	if from < 0 {
		at, from = at-from, 0
	}
	to = min(to, rate.Nearest(w.b.Rate.Seconds(w.starts[len(w.starts)-1])))
	if to <= from {
		return track, false
	}
	samples := func(start, length board.Frame) *timeRange {
		t := func(f board.Frame) rationalTime { return rationalTime{"RationalTime.1", soundRate, number(f)} }
		return &timeRange{"TimeRange.1", t(start), t(length)}
	}
	if from > 0 {
		track.Children = append(track.Children, item{Schema: "Gap.1", Metadata: nothing{}, Source: samples(0, from),
			Effects: []any{}, Markers: []marker{}, Enabled: true})
	}
	const key = "DEFAULT_MEDIA"
	track.Children = append(track.Children, item{Schema: "Clip.2", Name: s.Name, Metadata: nothing{}, Source: samples(at, to-from),
		Effects: []any{}, Markers: []marker{}, Enabled: true, Key: key,
		Media: map[string]reference{key: {"ExternalReference.1", s.Name, nothing{}, samples(0, rate.Nearest(s.Seconds)), nil, lists.URL("", s.Name)}}})
	return track, true
}
