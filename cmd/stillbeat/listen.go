package main

import (
	"context"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"stillbeat/board"
	"stillbeat/board/desk"
)

func (a *app) listenCommand() *cobra.Command {
	var asJSON, asCSV bool
	cmd := &cobra.Command{
		Use:   "listen SONG [--json|--csv]",
		Short: "Find the tempo, beats, bars and onsets of a song",
		Long: `Listen to a song (MP3, WAV, FLAC or Ogg Vorbis) and tell its tempo, beats,
bars and onsets, and how well each frame rate meets the beats. Times are
seconds from the first sample.

--csv writes one line for each moment, in order of time, with the columns
  time_s  seconds
  kind    downbeat (a beat that starts a bar), beat or onset
  bar     the bar, counted from 1; 0 is the upbeat before the first bar
  beat    the beat in its bar, counted from 1
Onsets have no bar and beat; beats have none if the bars are not known.`,
		Example: `  stillbeat listen waltz.mp3
  stillbeat listen waltz.mp3 --csv > beats.csv
  stillbeat listen waltz.mp3 --json | jq .tempo_bpm`,
		Args: takes(1, 1, "one SONG"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if asJSON && asCSV {
				return wrong(cmd, "--json and --csv exclude each other")
			}
			a.quiet = a.quiet || asJSON || asCSV
			song, err := a.listen(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			switch {
			case asJSON:
				return a.printJSON(newSongReport(args[0], song))
			case asCSV:
				return a.print(beatList(song.Grid))
			}
			return a.print([]byte(songSummary(song)))
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON document")
	cmd.Flags().BoolVar(&asCSV, "csv", false, "print the moments as a table")
	return cmd
}

// listen listens to the song at path, with progress.
func (a *app) listen(ctx context.Context, path string) (*desk.ReadSong, error) {
	m := a.meter()
	defer m.close()
	return desk.Listen(ctx, path, a.ear, m.stage("listening to %s", filepath.Base(path)))
}

// hear reads the song at path, to be laid on a film, with progress.
func (a *app) hear(ctx context.Context, path string) (*desk.ReadSong, error) {
	m := a.meter()
	defer m.close()
	return desk.NewSong(ctx, path, a.ear, desk.Wish{}, m.stage("listening to %s", filepath.Base(path)))
}

// songReport is the document of listen --json.
type songReport struct {
	File       string    `json:"file"`
	Seconds    float64   `json:"seconds"`
	SampleRate int       `json:"sample_rate"`
	Channels   int       `json:"channels"`
	TempoBPM   float64   `json:"tempo_bpm"`
	Confidence float64   `json:"confidence"`
	Metre      int       `json:"metre"`
	Beats      []float64 `json:"beats"`
	Downbeats  []float64 `json:"downbeats"`
	Onsets     []float64 `json:"onsets"`
}

func newSongReport(path string, song *desk.ReadSong) songReport {
	g := song.Grid
	r := songReport{
		File: path, Seconds: micro(song.Seconds),
		SampleRate: song.Rate, Channels: song.Channels,
		TempoBPM: micro(g.Tempo), Confidence: micro(g.Confidence), Metre: g.Metre,
		Beats: []float64{}, Downbeats: []float64{}, Onsets: []float64{},
	}
	for _, b := range g.Beats {
		r.Beats = append(r.Beats, micro(b.Time))
		if b.Bar {
			r.Downbeats = append(r.Downbeats, micro(b.Time))
		}
	}
	for _, o := range g.Onsets {
		r.Onsets = append(r.Onsets, micro(o.Time))
	}
	return r
}

// songSummary tells a person what was heard.
func songSummary(song *desk.ReadSong) string {
	var t table
	t.add("Song", song.Name)
	if song.Title != "" {
		t.add("Title", song.Title)
	}
	t.add("Length", clock(song.Seconds))
	t.add("Sound", fmt.Sprintf("%d Hz, %s", song.Rate, channels(song.Channels)))
	g := song.Grid
	if g.Empty() {
		t.add("Beats", "no steady beat was found")
	} else {
		t.add("Tempo", fmt.Sprintf("%.1f beats a minute, confidence %.2f of 1", g.Tempo, g.Confidence))
		t.add("Beats", fmt.Sprintf("%d, from %.3f s to %.3f s", len(g.Beats), g.Beats[0].Time, g.Beats[len(g.Beats)-1].Time))
		t.add("Bars", bars(g))
	}
	t.add("Onsets", fmt.Sprint(len(g.Onsets)))
	return t.String() + rates(g, song.Seconds)
}

// rates tells how far the nearest frame is from a beat at each frame rate
// people shoot at, "" without beats.
func rates(g board.Grid, seconds float64) string {
	b := board.New()
	b.Song, b.Grid = &board.Song{Seconds: seconds}, g
	rows := board.SyncTable(b, board.ShootingRates)
	if rows == nil {
		return ""
	}
	var t table
	t.add("fps", "worst ms", "mean ms", "limits kept", "beats on whole frames at")
	for _, r := range rows {
		t.add(r.Rate.String(), fmt.Sprintf("%.1f", r.Worst), fmt.Sprintf("%.1f", r.Mean),
			fmt.Sprintf("%d of %d", r.Kept(), len(r.Keeps)), fmt.Sprintf("%.2f BPM, %d frames", r.Tempo, r.Beat))
	}
	return "\nFrom a beat to the frame nearest to it:\n" + t.String()
}

func channels(n int) string {
	switch n {
	case 1:
		return "mono"
	case 2:
		return "stereo"
	}
	return fmt.Sprintf("%d channels", n)
}

func bars(g board.Grid) string {
	n, first := 0, 0.0
	for _, b := range g.Beats {
		if b.Bar {
			if n == 0 {
				first = b.Time
			}
			n++
		}
	}
	switch {
	case n == 0:
		return "not known"
	case g.Metre == 0:
		return fmt.Sprintf("%d, the first at %.3f s", n, first)
	}
	return fmt.Sprintf("%d of %d beats, the first at %.3f s", n, g.Metre, first)
}

// clock writes seconds as m:ss.mmm.
func clock(seconds float64) string {
	ms := int64(seconds*1000 + 0.5)
	return fmt.Sprintf("%d:%02d.%03d", ms/60000, ms/1000%60, ms%1000)
}
