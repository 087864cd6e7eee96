package ui

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// svg wraps paths of a sign, 24 by 24 in black.
func svg(paths string) []byte {
	return []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24">` + paths + `</svg>`)
}

// sign is a sign in the ink of the look.
func sign(name, paths string) fyne.Resource {
	return theme.NewThemedResource(fyne.NewStaticResource("draw-"+name+".svg", svg(paths)))
}

// drawSigns are the signs of the tools.
var drawSigns = [drawTools]string{
	toolPen:       `<path d="M3 21l1.2-5L15.6 4.6l3.8 3.8L8 19.8z"/>`,
	toolBrush:     `<path d="M3 21c3.500 -1 1.500 -4 4.500 -5.200c2 -.4 3.700 1.200 3.200 3c-.8 2.700 -4.700 3.200 -7.700 2.200z"/><path d="M9.500 14.200L19.500 3l1.700 1.700L12 16z"/>`,
	toolEraser:    `<path d="M3 15.500L13.500 5l6.500 6.500L11.500 20H7.500zM6 15.500L9.200 18.500H10.800L12.200 17L8.200 13z"/>`,
	toolLine:      `<path d="M3.500 19L19 3.500l1.500 1.500L5 20.500z"/>`,
	toolEllipse:   `<path d="M12 5c-5.500 0-10 3-10 7s4.500 7 10 7s10-3 10-7s-4.500-7-10-7zM12 7c4.500 0 8 2.200 8 5s-3.500 5-8 5s-8-2.200-8-5s3.500-5 8-5z" fill-rule="evenodd"/>`,
	toolRectangle: `<path d="M3 5h18v14H3zM5 7v10h14V7z" fill-rule="evenodd"/>`,
	toolFill:      `<path d="M10 3l8.500 8.500L10 20l-8-8z"/><path d="M20 14c1 1.800 2 3.200 2 4.500a2 2 0 0 1-4 0c0-1.300 1-2.700 2-4.500z"/>`,
	toolChoose:    `<path d="M3 3h4v2H5v2H3zM10 3h4v2h-4zM17 3h4v4h-2V5h-2zM3 10h2v4H3zM19 10h2v4h-2zM3 17h2v2h2v2H3zM10 19h4v2h-4zM17 19h2v-2h2v4h-4z"/>`,
	toolFigure:    `<path d="M12 2a2.700 2.700 0 1 0 .01 0zM11 8h2v1.500l6 2.500l-.8 1.900L13 11.700V15l4 6l-1.700 1.100L12 17l-3.300 5.100L7 21l4-6v-3.300l-5.200 2.200L5 12l6-2.500z"/>`,
}

// Other signs of the pad.
const (
	signSeen   = `<path d="M12 5C7 5 3 9 1.500 12C3 15 7 19 12 19s9-4 10.500-7C21 9 17 5 12 5zM12 16.500a4.500 4.500 0 1 1 .01-9a4.500 4.500 0 0 1-.01 9zM12 9.800a2.200 2.200 0 1 0 .01 0z" fill-rule="evenodd"/>`
	signUnseen = `<path d="M2 11h20v2H2z"/>`
)

// swatch is a patch of a colour, with an edge.
func swatch(name string, c color.NRGBA, edge tint) fyne.Resource {
	e := edge.rgba()
	rgb := func(r, g, b uint8) string { return fmt.Sprintf("#%02x%02x%02x", r, g, b) }
	fill := fmt.Sprintf(`<rect x="1" y="1" width="22" height="22" fill="%s"/><rect x="2.500" y="2.500" width="19" height="19" fill="%s"/>`, rgb(e.R, e.G, e.B), rgb(c.R, c.G, c.B))
	if c.A < 255 { // what lets through is seen half on the blank card
		r := blankSwatch()
		fill = fmt.Sprintf(`<rect x="1" y="1" width="22" height="22" fill="%s"/><rect x="2.500" y="2.500" width="19" height="19" fill="%s"/><path d="M2.500 21.500L21.500 2.500V21.500z" fill="%s" fill-opacity="%.2f"/>`,
			rgb(e.R, e.G, e.B), rgb(r.R, r.G, r.B), rgb(c.R, c.G, c.B), float64(c.A)/255)
	}
	return fyne.NewStaticResource(fmt.Sprintf("swatch-%s-%02x%02x%02x.svg", name, e.R, e.G, e.B), svg(fill))
}

// widthSign is a dot as large as a line is wide.
func widthSign(i int) fyne.Resource {
	r := []float64{1.6, 2.6, 4.2, 6.4, 9}[i]
	return sign(fmt.Sprintf("width-%d", i), fmt.Sprintf(`<circle cx="12" cy="12" r="%.1f"/>`, r))
}
