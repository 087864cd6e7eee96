package picture_test

import (
	"bytes"
	"fmt"
	"image"
	"image/png"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// drawer is a source that holds one drawing, twice as high as wide.
type drawer struct{}

func (drawer) Media(board.MediaID) ([]byte, error) {
	var file bytes.Buffer
	err := png.Encode(&file, image.NewGray(image.Rect(0, 0, 450, 900)))
	return file.Bytes(), err
}

func ExampleCache_Draw() {
	cache := picture.NewCache(drawer{}, 0)
	frame, err := cache.Draw(picture.PictureShot("drawing", 640, 360), 640, 360)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(frame.Bounds().Size())
	fmt.Println("picture:", picture.Fit(450, 900, frame.Bounds()))
	fmt.Println("beside it is the surround:", frame.At(10, 180) == picture.Surround)
	// Output:
	// (640,360)
	// picture: (230,0)-(410,360)
	// beside it is the surround: true
}

func ExampleProbe() {
	_, _, err := picture.Probe([]byte("a list of props"))
	fmt.Println(err)
	// Output: not a PNG, JPEG, GIF, WebP, BMP or TIFF picture
}

func ExampleFilm() {
	film := board.New()
	film, _ = board.Insert(0, []board.Panel{{Picture: "drawing"}, {Picture: "drawing"}}, 1).Apply(film) // a second each
	film, _ = board.SetStep(2).Apply(film)
	film, _ = board.SetMove([]int{1}, board.CameraMove{To: board.Framing{Width: 0.5}}).Apply(film)
	shown := picture.NewFilm(picture.NewCache(drawer{}, 0), film)
	frame, err := shown.Frame(30, 640, 360)
	fmt.Println(frame.Bounds().Size(), err)
	fmt.Println("held:", shown.Shot(0) == shown.Shot(23))
	fmt.Println("pictures:", len(shown.Changes())) // one held, and twelve of a push on twos
	// Output:
	// (640,360) <nil>
	// held: true
	// pictures: 13
}
