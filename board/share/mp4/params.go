package mp4

// frameNumBits is how wide the frame counter in our slice headers is.
const frameNumBits = 8

// NAL unit headers: reference importance and type (ISO/IEC 14496-10, 7.4.1).
const (
	nalSlice = 0x61
	nalIDR   = 0x65
	nalSPS   = 0x67
	nalPPS   = 0x68
)

// nal makes a NAL unit of a header and a payload.
func nal(header byte, payload []byte) []byte {
	return escape([]byte{header}, payload)
}

// sequenceParams writes the one sequence parameter set of the file (7.3.2.1):
// constrained baseline, one reference picture, output in order of coding,
// square pixels, BT.709 in limited range, constant frame rate.
func sequenceParams(p *plan) []byte {
	var w bitWriter
	w.u(8, 66)   // baseline
	w.u(8, 0xc0) // constraint sets 0 and 1: constrained baseline
	w.u(8, uint64(p.level))
	w.ue(0)                // id
	w.ue(frameNumBits - 4) // width of frame_num
	w.ue(2)                // picture order is coding order
	w.ue(1)                // reference pictures
	w.u(1, 0)              // no gaps in frame_num
	across, down := macroblocks(p.width), macroblocks(p.height)
	w.ue(uint64(across - 1))
	w.ue(uint64(down - 1))
	w.u(1, 1) // frames, not fields
	w.u(1, 1) // direct_8x8_inference
	right, bottom := 16*across-p.width, 16*down-p.height
	if right > 0 || bottom > 0 {
		w.u(1, 1) // cropped, in units of two pixels
		w.ue(0)
		w.ue(uint64(right / 2))
		w.ue(0)
		w.ue(uint64(bottom / 2))
	} else {
		w.u(1, 0)
	}
	w.u(1, 1) // usability information follows
	usability(&w, p)
	return nal(nalSPS, w.end())
}

// usability writes the video usability information (annex E.1.1).
func usability(w *bitWriter, p *plan) {
	w.u(1, 1) // aspect ratio
	w.u(8, 1) // square
	w.u(1, 0) // no overscan information
	w.u(1, 1) // video signal
	w.u(3, 5) // format unspecified
	w.u(1, 0) // limited range
	w.u(1, 1) // colour description
	for range 3 {
		w.u(8, colourBT709) // primaries, transfer, matrix
	}
	w.u(1, 0) // chroma as sited by default
	w.u(1, 1) // timing: a tick is half a frame
	w.u(32, uint64(p.tick))
	w.u(32, 2*uint64(p.timescale))
	w.u(1, 1) // fixed frame rate
	w.u(1, 0) // no NAL HRD
	w.u(1, 0) // no VCL HRD
	w.u(1, 0) // no picture structure
	w.u(1, 1) // restrictions
	w.u(1, 1) // motion vectors may leave the picture
	w.ue(0)   // no limit in bytes
	w.ue(0)   // no limit in bits
	w.ue(15)  // motion vectors across
	w.ue(15)  // and down
	w.ue(0)   // nothing reordered
	w.ue(1)   // one picture buffered
}

// pictureParams writes the one picture parameter set (7.3.2.2), equal to the
// encoder's but for the id.
func pictureParams() []byte {
	var w bitWriter
	w.ue(0)   // id
	w.ue(0)   // sequence parameter set
	w.u(1, 0) // CAVLC
	w.u(1, 0) // no picture order per field
	w.ue(0)   // one slice group
	w.ue(0)   // one reference picture in list 0
	w.ue(0)   // and in list 1
	w.u(1, 0) // no weighted prediction
	w.u(2, 0)
	w.se(0)   // initial quantiser 26
	w.se(0)   // and for switching pictures
	w.se(0)   // chroma quantiser as luma's
	w.u(1, 1) // slices control deblocking
	w.u(1, 0) // intra prediction from any neighbour
	w.u(1, 0) // no redundant pictures
	return nal(nalPPS, w.end())
}
