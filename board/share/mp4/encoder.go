package mp4

// #include "openh264.h"
import "C"

import (
	"fmt"
	"image"
	"unsafe"

	_ "github.com/Azunyan1111/openh264-go" // brings the library
)

// encoder is OpenH264 at one quantiser.
type encoder struct {
	c   *C.encoder
	out C.coded_frame
}

// openEncoder starts an encoder for pictures of the given even size. The
// caller closes it.
func openEncoder(width, height int, fps float32, qp int) (*encoder, error) {
	// The library takes 1 to 60 frames per second; without rate control the
	// figure changes nothing.
	c := C.film_encoder_open(C.int(width), C.int(height), C.float(max(1, min(60, fps))), C.int(qp))
	if c == nil {
		return nil, fmt.Errorf("the picture encoder does not start for %dx%d", width, height)
	}
	return &encoder{c: c}, nil
}

func (e *encoder) close() { C.film_encoder_close(e.c) }

// encode codes img and returns an Annex B stream. If key, the picture is an
// IDR picture.
func (e *encoder) encode(img *image.YCbCr, key bool) ([]byte, error) {
	size := img.Rect.Size()
	rc := C.film_encoder_encode(e.c, C.bool(key), C.int(size.X), C.int(size.Y),
		unsafe.Pointer(&img.Y[0]), unsafe.Pointer(&img.Cb[0]), unsafe.Pointer(&img.Cr[0]),
		C.int(img.YStride), C.int(img.CStride), &e.out)
	if rc != 0 {
		return nil, fmt.Errorf("the picture encoder failed (code %d)", rc)
	}
	var stream []byte
	for _, layer := range e.out.layer[:e.out.layers] {
		bytes := 0
		for _, n := range unsafe.Slice(layer.nal_bytes, layer.nals) {
			bytes += int(n)
		}
		stream = append(stream, unsafe.Slice((*byte)(layer.data), bytes)...)
	}
	return stream, nil
}
