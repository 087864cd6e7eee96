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

func ExampleSnapAll() {
	film := board.New()
	film, _ = board.SetSong(&board.Song{Name: "march.wav", Seconds: 3}, board.NewGrid([]float64{0, 0.5, 1, 1.5, 2}, nil)).Apply(film)
	film, _ = board.Insert(0, make([]board.Panel, 3), 1).Apply(film)
	film, _ = board.SetStart(1, board.Free(0.4)).Apply(film)
	fmt.Println(film.Starts())
	film, _ = board.SnapAll(board.ToBeat, 0).Apply(film)
	fmt.Println(film.Starts())
	// Output:
	// [0 10 24 36]
	// [0 12 24 36]
}
