package mp4

import (
	"errors"
	"fmt"
	"math/bits"

	"github.com/Eyevinn/mp4ff/avc"
)

// Slice types (ISO/IEC 14496-10, table 7-6): the picture has one slice, so all
// slices of the picture are of that type.
const (
	sliceP = 5
	sliceI = 7
)

// slice is what our own slice headers say (7.3.3).
type slice struct {
	idr        bool
	intra      bool
	frameNum   uint64
	idrID      uint64 // differs between neighbouring IDR pictures
	qpDelta    int64  // quantiser minus 26
	deblock    uint64 // disable_deblocking_filter_idc
	deblockOff [2]int64
}

// write writes the header under the parameter sets of params.go.
func (s slice) write(w *bitWriter) {
	w.ue(0) // first macroblock
	if s.intra {
		w.ue(sliceI)
	} else {
		w.ue(sliceP)
	}
	w.ue(0) // picture parameter set
	w.u(frameNumBits, s.frameNum)
	if s.idr {
		w.ue(s.idrID)
	}
	if !s.intra {
		w.u(1, 0) // as many reference pictures as the parameter set says
		w.u(1, 0) // in their usual order
	}
	if s.idr {
		w.u(1, 0) // earlier pictures are shown
		w.u(1, 0) // a short-term reference
	} else {
		w.u(1, 0) // references leave by sliding window
	}
	w.se(s.qpDelta)
	w.ue(s.deblock)
	if s.deblock != 1 {
		w.se(s.deblockOff[0])
		w.se(s.deblockOff[1])
	}
}

// errStream is met only if the encoder makes another stream than it did when
// this was written.
var errStream = errors.New("the encoder made a stream of an unexpected kind")

// checkSource makes sure that slices coded under the encoder's parameter sets
// mean the same under ours.
func checkSource(sps *avc.SPS, pps *avc.PPS) error {
	switch {
	case sps == nil || pps == nil,
		sps.Profile != 66, !sps.FrameMbsOnlyFlag, sps.NumRefFrames != 1, sps.PicOrderCntType == 1,
		pps.EntropyCodingModeFlag, pps.BottomFieldPicOrderInFramePresentFlag,
		pps.NumSliceGroupsMinus1 != 0, pps.NumRefIdxI0DefaultActiveMinus1 != 0,
		pps.WeightedPredFlag, pps.PicInitQpMinus26 != 0, pps.ChromaQpIndexOffset != 0,
		!pps.DeblockingFilterControlPresentFlag, pps.ConstrainedIntraPredFlag,
		pps.RedundantPicCntPresentFlag:
		return errStream
	}
	return nil
}

// readSlice reads the header of one of the encoder's slices and leaves r at
// the slice's data.
func readSlice(r *bitReader, sps *avc.SPS, pps *avc.PPS) (slice, error) {
	if err := checkSource(sps, pps); err != nil {
		return slice{}, err
	}
	header := r.u(8)
	s := slice{idr: header&0x1f == nalIDR&0x1f}
	refused := header>>5 == 0 // not a reference picture
	first, kind := r.ue(), r.ue()%5
	s.intra = kind == sliceI%5
	refused = refused || first != 0 || kind != sliceI%5 && kind != sliceP%5 || s.idr && !s.intra
	r.ue() // picture parameter set
	r.u(int(sps.Log2MaxFrameNumMinus4) + 4)
	if s.idr {
		r.ue() // idr_pic_id
	}
	if sps.PicOrderCntType == 0 {
		r.u(int(sps.Log2MaxPicOrderCntLsbMinus4) + 4)
	}
	if !s.intra {
		if r.u(1) == 1 {
			refused = refused || r.ue() != 0 // reference pictures beyond the first
		}
		if r.u(1) == 1 {
			// One reference picture has one order, however it is spelt.
			for !r.short && r.ue() != 3 {
				r.ue()
			}
		}
	}
	if s.idr {
		r.u(2)
	} else {
		refused = refused || r.u(1) == 1 // a marking of references other than the sliding window
	}
	s.qpDelta = r.se()
	if s.deblock = r.ue(); s.deblock != 1 {
		s.deblockOff = [2]int64{r.se(), r.se()}
	}
	if r.short || refused {
		return slice{}, fmt.Errorf("slice header: %w", errStream)
	}
	return s, nil
}

// copyData copies what is left in r, up to the stop bit, to w.
func copyData(w *bitWriter, r *bitReader) {
	end := 8 * len(r.buf)
	for i := len(r.buf) - 1; i >= 0; i-- {
		if r.buf[i] != 0 {
			end = 8*i + 7 - bits.TrailingZeros8(r.buf[i])
			break
		}
	}
	for r.at < end {
		n := min(32, end-r.at)
		w.u(n, r.u(n))
	}
}

// skipSlice writes the data of a slice that repeats the picture before: all
// macroblocks are skipped (7.3.4). The first has no motion because it has no
// neighbours, each other one because its neighbours have none (8.4.1.1); with
// the deblocking filter off the copy is exact.
func skipSlice(w *bitWriter, macroblocks int) {
	w.ue(uint64(macroblocks))
}
