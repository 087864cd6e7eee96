package ink

import (
	"image"
	"math"
	"sync"
)

const tileSize = 512

// paperTile holds the tone of the paper: 128 is neutral, each step 1/512.
var paperTile = sync.OnceValue(func() []uint8 {
	tile := make([]uint8, tileSize*tileSize)
	for y := 0; y < tileSize; y++ {
		for x := 0; x < tileSize; x++ {
			fx, fy := float64(x), float64(y)
			v := 0.55*wrapped(fx, fy, 128, 11) + 0.35*wrapped(fx, fy, 32, 12)
			v += 0.25 * wrapped(fx, fy, 4, 13)
			v += 0.55 * (hash(x, y*3+1) - 0.5)
			tile[y*tileSize+x] = uint8(math.Round(128 + 11*v))
		}
	}
	return tile
})

// wrapped is noise with bumps of the given size that repeats over the tile.
func wrapped(x, y, size float64, seed int) float64 {
	u, v := x/tileSize, y/tileSize
	at := func(x, y float64) float64 { return noise2(x/size, y/size, seed) }
	a := mixf(at(x, y), at(x-tileSize, y), u)
	b := mixf(at(x, y-tileSize), at(x-tileSize, y-tileSize), u)
	return mixf(a, b, v)
}

// Paper gives the whole picture the grain of paper under paint.
func (c *Canvas) Paper() {
	tile := paperTile()
	r := c.Img.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		row := tile[((y-r.Min.Y)%tileSize)*tileSize:]
		o := c.Img.PixOffset(r.Min.X, y)
		for x := 0; x < r.Dx(); x++ {
			k := 512 + int(row[x%tileSize]) - 128
			for ch := 0; ch < 3; ch++ {
				c.Img.Pix[o+ch] = uint8(min(255, int(c.Img.Pix[o+ch])*k>>9))
			}
			c.Img.Pix[o+3] = 255
			o += 4
		}
	}
}

// Whole returns a mask of the whole picture.
func (c *Canvas) Whole() *image.Alpha {
	r := c.Img.Bounds()
	x0, y0, x1, y1 := float64(r.Min.X), float64(r.Min.Y), float64(r.Max.X), float64(r.Max.Y)
	return c.Mask([]Pt{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}})
}
