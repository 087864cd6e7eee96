package mp4

import (
	"bytes"
	"encoding/binary"
	"errors"

	"github.com/Eyevinn/mp4ff/aac"
	"github.com/Eyevinn/mp4ff/mp4"
)

// colourBT709 is BT.709 among the code points for primaries, transfer and
// matrix (ITU-T H.273).
const colourBT709 = 1

// track is what the index of the file says of one track's samples. The tables
// have their final length from the start and are filled in order.
type track struct {
	sizes   []uint32 // bytes, one per sample
	chunks  []uint32 // samples in each chunk, none of them 0
	offsets []int64  // where each chunk starts in the file

	sample, chunk int // filled so far
}

// newTrack makes the tables for the given chunks, leaving empty ones out.
func newTrack(chunks []uint32) *track {
	t := &track{}
	n := uint32(0)
	for _, c := range chunks {
		if c > 0 {
			t.chunks = append(t.chunks, c)
			n += c
		}
	}
	t.sizes, t.offsets = make([]uint32, n), make([]int64, len(t.chunks))
	return t
}

// add enters a sample written at a place; first says that it starts a chunk.
func (t *track) add(sample []byte, at int64, first bool) {
	if first {
		t.offsets[t.chunk] = at
		t.chunk++
	}
	t.sizes[t.sample] = uint32(len(sample))
	t.sample++
}

// head returns everything before the media: file type, index, and the header
// of a media box of mediaBytes bytes. Its length depends on the plan alone, so
// it can be measured before the tracks are filled.
func head(p *plan, pictures, sound *track, mediaBytes int64) ([]byte, error) {
	var b bytes.Buffer
	brands := []string{"isom", "iso2", "avc1", "mp41"}
	moov, err := movie(p, pictures, sound)
	if err != nil {
		return nil, err
	}
	if err := errors.Join(mp4.NewFtyp("isom", 0x200, brands).Encode(&b), moov.Encode(&b)); err != nil {
		return nil, err
	}
	return mediaHeader(b.Bytes(), p.large, mediaBytes), nil
}

// mediaHeader appends the header of the media box; a large one has its size
// after its name (ISO/IEC 14496-12, 4.2).
func mediaHeader(b []byte, large bool, mediaBytes int64) []byte {
	if !large {
		b = binary.BigEndian.AppendUint32(b, uint32(mediaBytes+8))
		return append(b, "mdat"...)
	}
	b = binary.BigEndian.AppendUint32(b, 1)
	b = append(b, "mdat"...)
	return binary.BigEndian.AppendUint64(b, uint64(mediaBytes+16))
}

// movie builds the index; pictures or sound may be nil.
func movie(p *plan, pictures, sound *track) (*mp4.MoovBox, error) {
	mvhd := mp4.CreateMvhd()
	mvhd.Timescale, mvhd.Duration = p.timescale, p.ticks()
	moov := mp4.NewMoovBox()
	moov.AddChild(mvhd)
	if pictures != nil {
		trak, err := pictureTrak(p, pictures)
		if err != nil {
			return nil, err
		}
		moov.AddChild(trak)
	}
	if sound != nil {
		trak, err := soundTrak(p, sound)
		if err != nil {
			return nil, err
		}
		moov.AddChild(trak)
		mvhd.NextTrackID = 3
	}
	return moov, nil
}

// pictureTrak builds the index of the picture track.
func pictureTrak(p *plan, t *track) (*mp4.TrakBox, error) {
	trak := newTrak(1, "video", p.timescale, p.ticks(), p.ticks(), 0)
	if err := trak.SetAVCDescriptor("avc1", [][]byte{sequenceParams(p)}, [][]byte{pictureParams()}, true); err != nil {
		return nil, err
	}
	stbl := trak.Mdia.Minf.Stbl
	stbl.Stsd.AvcX.CompressorName = ""
	stbl.Stsd.AvcX.AddChild(&mp4.ColrBox{ColorType: mp4.ColorTypeOnScreenColors, ColorPrimaries: colourBT709,
		TransferCharacteristics: colourBT709, MatrixCoefficients: colourBT709})
	stss := &mp4.StssBox{}
	for i, s := range p.steps {
		if s == key {
			stss.SampleNumber = append(stss.SampleNumber, uint32(i+1))
		}
	}
	stbl.AddChild(stss)
	return trak, fillTables(stbl, t, p.tick, p.tick, p.large)
}

// soundTrak builds the index of the sound track. Its edit list skips the
// encoder's delay, and its last packet is cut where the film ends.
func soundTrak(p *plan, t *track) (*mp4.TrakBox, error) {
	media := p.audioSamples + aacDelay
	trak := newTrak(2, "audio", uint32(p.audioRate), p.ticks(), uint64(media), aacDelay)
	if err := trak.SetAACDescriptor(aac.AAClc, p.audioRate); err != nil {
		return nil, err
	}
	stbl := trak.Mdia.Minf.Stbl
	config := stbl.Stsd.Mp4a.Esds.DecConfigDescriptor
	config.MaxBitrate, config.AvgBitrate = uint32(p.audioBits), uint32(p.audioBits)
	last := media - (aacPackets(p.audioSamples)-1)*aacFrame
	return trak, fillTables(stbl, t, aacFrame, uint32(last), p.large)
}

// newTrak makes a track that shows ticks of the film, from mediaStart of its
// own mediaTicks on.
func newTrak(id uint32, kind string, timescale uint32, ticks, mediaTicks uint64, mediaStart int64) *mp4.TrakBox {
	made := mp4.CreateEmptyTrak(id, timescale, kind, "und")
	made.Tkhd.Duration = ticks
	made.Mdia.Mdhd.Duration = mediaTicks
	made.Mdia.Hdlr.Name = ""
	edit := &mp4.ElstBox{Entries: []mp4.ElstEntry{{
		SegmentDuration: ticks, MediaTime: mediaStart, MediaRateInteger: 1,
	}}}
	edts := &mp4.EdtsBox{}
	edts.AddChild(edit)
	trak := mp4.NewTrakBox()
	trak.AddChild(made.Tkhd)
	trak.AddChild(edts)
	trak.AddChild(made.Mdia)
	return trak
}

// fillTables writes the tables of times, sizes and places. All samples last
// ticks but the last, which lasts lastTicks.
func fillTables(stbl *mp4.StblBox, t *track, ticks, lastTicks uint32, large bool) error {
	n := uint32(len(t.sizes))
	stts := stbl.Stts
	stts.SampleCount, stts.SampleTimeDelta = []uint32{n}, []uint32{ticks}
	if lastTicks != ticks {
		stts.SampleCount, stts.SampleTimeDelta = []uint32{n - 1, 1}, []uint32{ticks, lastTicks}
	}
	for i, c := range t.chunks {
		if i > 0 && c == t.chunks[i-1] {
			continue
		}
		if err := stbl.Stsc.AddEntry(uint32(i+1), c, 1); err != nil {
			return err
		}
	}
	stbl.Stsz.SampleNumber = n
	stbl.Stsz.SampleSize = t.sizes
	if !large {
		for _, at := range t.offsets {
			stbl.Stco.ChunkOffset = append(stbl.Stco.ChunkOffset, uint32(at))
		}
		return nil
	}
	co64 := &mp4.Co64Box{}
	for _, at := range t.offsets {
		co64.ChunkOffset = append(co64.ChunkOffset, uint64(at))
	}
	for i, child := range stbl.Children {
		if child == mp4.Box(stbl.Stco) {
			stbl.Children[i] = co64
		}
	}
	stbl.Stco, stbl.Co64 = nil, co64
	return nil
}
