package paper_test

import (
	"bytes"
	"fmt"
	"time"

	"stillbeat/board/internal/paper"
)

func Example() {
	d := paper.New(paper.A4, "Teapot", time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC))
	small := paper.Style{Points: 8}
	d.AddPage()
	d.Bookmark(0, "Shot 1", 10)
	for i, l := range d.Wrap("The teapot lifts its lid and looks around.", 40, small) {
		d.Text(10, 10+float64(i)*small.Leading(), l, small)
	}
	d.Tick(paper.Box{X: 60, Y: 8, Wide: 3, High: 3}, false)
	d.EachPage(func(n, of int) { d.Text(105, 290, fmt.Sprintf("%d/%d", n, of), paper.Style{Align: paper.Middle}) })
	var file bytes.Buffer
	_, err := d.WriteTo(&file)
	fmt.Println(d.Pages(), string(file.Bytes()[:5]), err)
	// Output: 1 %PDF- <nil>
}
