package mp4

import (
	"encoding/binary"
	"errors"
	"image"

	"github.com/Eyevinn/mp4ff/avc"
)

// coder makes the samples of the picture track. The encoder starts each key
// picture with parameter sets of its own; the coder drops them and writes each
// slice header anew, so that one pair of sets serves the whole file and frames
// that the encoder never sees can stand between the ones it made.
type coder struct {
	enc         *encoder
	macroblocks int
	frameNum    uint64 // of the next picture
	idrID       uint64 // of the next IDR picture
	sps         *avc.SPS
	pps         *avc.PPS
}

// newCoder starts an encoder. The caller closes it.
func newCoder(p *plan) (*coder, error) {
	enc, err := openEncoder(p.width, p.height, float32(p.timescale)/float32(p.tick), p.qp)
	if err != nil {
		return nil, err
	}
	return &coder{enc: enc, macroblocks: macroblocks(p.width) * macroblocks(p.height)}, nil
}

func (c *coder) close() { c.enc.close() }

// picture codes img and returns the sample. If isKey, it needs none before it.
func (c *coder) picture(img *image.YCbCr, isKey bool) ([]byte, error) {
	stream, err := c.enc.encode(img, isKey)
	if err != nil {
		return nil, err
	}
	var sample []byte
	for _, unit := range avc.ExtractNalusFromByteStream(stream) {
		switch avc.GetNaluType(unit[0]) {
		case avc.NALU_SPS:
			if c.sps, err = avc.ParseSPSNALUnit(unit, false); err != nil {
				return nil, err
			}
		case avc.NALU_PPS:
			known := map[uint32]*avc.SPS{c.sps.ParameterID: c.sps}
			if c.pps, err = avc.ParsePPSNALUnit(unit, known); err != nil {
				return nil, err
			}
		case avc.NALU_IDR, avc.NALU_NON_IDR:
			if sample != nil {
				return nil, errors.New("the encoder cut a picture into slices")
			}
			if sample, err = c.rewrite(unit, isKey); err != nil {
				return nil, err
			}
		}
	}
	if sample == nil {
		return nil, errors.New("the encoder left a picture out")
	}
	return sample, nil
}

// rewrite gives one of the encoder's slices a header of ours.
func (c *coder) rewrite(unit []byte, isKey bool) ([]byte, error) {
	r := bitReader{buf: unescape(unit)}
	s, err := readSlice(&r, c.sps, c.pps)
	if err != nil {
		return nil, err
	}
	if isKey && !s.idr {
		return nil, errors.New("the encoder made no key picture")
	}
	w := bitWriter{buf: make([]byte, 0, len(r.buf)+8)}
	c.number(&s).write(&w)
	copyData(&w, &r)
	return c.sample(s.idr, w.end()), nil
}

// held returns a sample that shows the last picture again.
func (c *coder) held() []byte {
	var w bitWriter
	c.number(&slice{deblock: 1}).write(&w)
	skipSlice(&w, c.macroblocks)
	return c.sample(false, w.end())
}

// number gives the slice its place among the pictures: frame_num counts
// reference pictures, and all of ours are, from the IDR picture on (7.4.3).
func (c *coder) number(s *slice) *slice {
	if s.idr {
		c.frameNum = 0
		s.idrID = c.idrID
		c.idrID = (c.idrID + 1) % 2
	}
	s.frameNum = c.frameNum
	c.frameNum = (c.frameNum + 1) % (1 << frameNumBits)
	return s
}

// sample puts a slice behind its length, as MP4 stores it.
func (c *coder) sample(idr bool, payload []byte) []byte {
	header := byte(nalSlice)
	if idr {
		header = nalIDR
	}
	out := make([]byte, 5, len(payload)+len(payload)/64+16)
	out[4] = header
	out = escape(out, payload)
	binary.BigEndian.PutUint32(out, uint32(len(out)-4))
	return out
}
