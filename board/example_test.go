package board_test

import (
	"fmt"

	"stillbeat/board"
)

func ExampleFrameRate_Nearest() {
	film := board.FrameRate{Num: 24, Den: 1}
	for beat := range 4 { // of a song at 128 beats a minute
		fmt.Print(film.Nearest(float64(beat)*60/128), " ")
	}
	// Output: 0 11 23 34
}

func ExampleFrameRate_Timecode() {
	fmt.Println(board.FrameRate{Num: 24, Den: 1}.Timecode(1800))
	fmt.Println(board.FrameRate{Num: 30000, Den: 1001}.Timecode(1800))
	fmt.Println(board.FrameRate{Num: 12, Den: 1}.Timecode(1800))
	// Output:
	// 00:01:15:00
	// 00:01:00;02
	// 2:30+00
}

func ExampleParseRate() {
	r, _ := board.ParseRate("23,976")
	fmt.Printf("%v is %d/%d\n", r, r.Num, r.Den)
	_, err := board.ParseRate("fast")
	fmt.Println(err)
	// Output:
	// 23.976 is 24000/1001
	// "fast" is not a frame rate: type a number such as 24, 23.976 or 24000/1001
}

func ExampleInsert() {
	song := &board.Song{Name: "waltz.mp3", Seconds: 4}
	beats := board.NewGrid([]float64{0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5}, nil)
	film := board.NewHistory(board.New())
	film.Do(board.SetSong(song, beats))
	film.Do(board.Insert(0, make([]board.Panel, 3), 2))
	fmt.Println(film.Board().Starts())
	film.Do(board.SetRate(board.FrameRate{Num: 8, Den: 1}))
	fmt.Println(film.Board().Starts(), "after", film.UndoName())
	// Output:
	// [0 24 48 72]
	// [0 8 16 24] after frame rate 8
}

func ExampleSnap() {
	film := board.New()
	film, _ = board.SetSong(&board.Song{Name: "march.wav", Seconds: 3}, board.NewGrid([]float64{0, 0.5, 1, 1.5, 2}, nil)).Apply(film)
	film, _ = board.Insert(0, make([]board.Panel, 3), 1).Apply(film)
	film, _ = board.SetStart(1, board.Free(0.4)).Apply(film)
	fmt.Println(film.Starts())
	film, _ = board.Snap(board.SnapOptions{To: board.ToBeat}).Apply(film)
	fmt.Println(film.Starts())
	// Output:
	// [0 10 24 36]
	// [0 12 24 36]
}

func ExampleParseClick() {
	c, _ := board.ParseClick("12-2")
	fmt.Printf("%v is %.2f beats a minute; nearest to 128 is %v\n", c, c.BPM(), board.NearestClick(128))
	// Output: 12-2 is 117.55 beats a minute; nearest to 128 is 11-2
}

func ExampleSetClick() {
	film := board.NewHistory(board.New()) // no song
	film.Do(board.SetClick(board.Click{Frames: 12}, 0))
	film.Do(board.Insert(0, make([]board.Panel, 3), 2))
	fmt.Println(film.Board().Starts())
	film.Do(board.SetClick(board.Click{Frames: 12, Eighths: 4}, 0))
	fmt.Println(film.Board().Starts(), "after", film.UndoName())
	// Output:
	// [0 24 48 72]
	// [0 25 50 75] after film click 12-4
}

func ExampleFitTaps() {
	fit, _ := board.FitTaps([]float64{1.05, 1.55, 2.05, 3.05, 3.55}, board.TapOptions{
		Reference: []float64{1, 1.5, 2, 2.5, 3, 3.5},
	})
	fmt.Printf("%.0f beats a minute from %.2f s, taps %.0f ms late\n", fit.Tempo, fit.Beats[0], 1000*fit.Late)
	// Output: 120 beats a minute from 1.00 s, taps 50 ms late
}

func ExampleSyncTable() {
	film, _ := board.SetTempo(128, 0).Apply(board.New())
	for _, row := range board.SyncTable(film, []board.FrameRate{{Num: 12, Den: 1}, {Num: 24, Den: 1}}) {
		fmt.Printf("%v fps: %.1f ms at most, %.1f on average; %.1f BPM would be %d frames a beat\n",
			row.Rate, row.Worst, row.Mean, row.Tempo, row.Beat)
	}
	// Output:
	// 12 fps: 41.7 ms at most, 20.8 on average; 120.0 BPM would be 6 frames a beat
	// 24 fps: 20.8 ms at most, 10.4 on average; 130.9 BPM would be 11 frames a beat
}
