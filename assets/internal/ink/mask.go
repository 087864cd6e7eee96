package ink

import "image"

// Within cuts mask to the inside of keep. Either may be nil: then so is the result.
func Within(mask, keep *image.Alpha) *image.Alpha {
	return combine(mask, keep, func(a, k uint32) uint32 { return a * k / 255 })
}

// Without takes hole out of mask.
func Without(mask, hole *image.Alpha) *image.Alpha {
	if hole == nil {
		return mask
	}
	return combine(mask, hole, func(a, k uint32) uint32 { return a * (255 - k) / 255 })
}

func combine(mask, other *image.Alpha, op func(a, k uint32) uint32) *image.Alpha {
	if mask == nil || other == nil {
		return nil
	}
	out := image.NewAlpha(mask.Rect)
	for y := mask.Rect.Min.Y; y < mask.Rect.Max.Y; y++ {
		i := mask.PixOffset(mask.Rect.Min.X, y)
		for x := mask.Rect.Min.X; x < mask.Rect.Max.X; x++ {
			if a := mask.Pix[i]; a != 0 {
				out.Pix[i] = uint8(op(uint32(a), uint32(other.AlphaAt(x, y).A)))
			}
			i++
		}
	}
	return out
}

// Blur softens mask by about radius pixels: three box filters, which together
// come close to a Gaussian. The result reaches further out than mask.
func Blur(mask *image.Alpha, radius int) *image.Alpha {
	if mask == nil || radius < 1 {
		return mask
	}
	out := image.NewAlpha(mask.Rect.Inset(-2 * radius))
	w, h := out.Rect.Dx(), out.Rect.Dy()
	for y := mask.Rect.Min.Y; y < mask.Rect.Max.Y; y++ {
		copy(out.Pix[out.PixOffset(mask.Rect.Min.X, y):], mask.Pix[mask.PixOffset(mask.Rect.Min.X, y):mask.PixOffset(mask.Rect.Max.X, y)])
	}
	line := make([]uint8, max(w, h))
	for pass := 0; pass < 3; pass++ {
		for y := 0; y < h; y++ {
			boxLine(out.Pix[y*out.Stride:], 1, line[:w], radius*2/3+1)
		}
		for x := 0; x < w; x++ {
			boxLine(out.Pix[x:], out.Stride, line[:h], radius*2/3+1)
		}
	}
	return out
}

// boxLine replaces len(tmp) values of pix, step apart, by their running mean
// over 2*radius+1 values.
func boxLine(pix []uint8, step int, tmp []uint8, radius int) {
	n := len(tmp)
	for i := range tmp {
		tmp[i] = pix[i*step]
	}
	sum := 0
	for i := 0; i < min(radius, n); i++ {
		sum += int(tmp[i])
	}
	for i := 0; i < n; i++ {
		if j := i + radius; j < n {
			sum += int(tmp[j])
		}
		if j := i - radius - 1; j >= 0 {
			sum -= int(tmp[j])
		}
		pix[i*step] = uint8(sum / (2*radius + 1))
	}
}
