package vorbis

import (
	"bytes"
	"encoding/binary"
	"errors"
)

// page is one Ogg page (RFC 3533, section 6).
type page struct {
	flags    byte
	granule  int64 // samples up to the last packet that ends here, -1 if none does
	serial   uint32
	segments []byte // lacing values
	body     []byte
	size     int // bytes of the whole page
}

// Flags of a page.
const (
	continued = 1 << iota
	firstPage
	lastPage
)

var (
	errPageEnd = errors.New("the page is cut short")
	errPageBad = errors.New("the page is damaged")
)

const pageHeaderBytes = 27

// parsePage reads the page at the start of data.
func parsePage(data []byte) (p page, err error) {
	if !bytes.HasPrefix(data, []byte("OggS")) {
		return p, errPageBad
	}
	if len(data) < pageHeaderBytes || len(data) < pageHeaderBytes+int(data[26]) {
		return p, errPageEnd
	}
	le := binary.LittleEndian
	p.flags = data[5]
	p.granule = int64(le.Uint64(data[6:]))
	p.serial = le.Uint32(data[14:])
	p.segments = data[pageHeaderBytes:][:data[26]]
	start := pageHeaderBytes + len(p.segments)
	p.size = start
	for _, n := range p.segments {
		p.size += int(n)
	}
	if len(data) < p.size {
		return p, errPageEnd
	}
	p.body = data[start:p.size]
	if pageChecksum(data[:p.size]) != le.Uint32(data[22:]) {
		return p, errPageBad
	}
	return p, nil
}

// pageChecksum is the CRC of a page with its checksum field taken as zero:
// polynomial 0x04C11DB7, most significant bit first, no inversion.
func pageChecksum(b []byte) uint32 {
	var crc uint32
	for i, c := range b {
		if 22 <= i && i < 26 {
			c = 0
		}
		crc = crc<<8 ^ crcTable[byte(crc>>24)^c]
	}
	return crc
}

var crcTable = func() (table [256]uint32) {
	for i := range table {
		crc := uint32(i) << 24
		for range 8 {
			carry := crc >> 31
			crc = crc<<1 ^ carry*0x04C11DB7
		}
		table[i] = crc
	}
	return table
}()

// packets splits the body of a page. partial is the packet that the page
// before left open, nil if none; the packet this page leaves open is returned
// as open.
func (p page) packets(partial []byte) (whole [][]byte, open []byte) {
	body := p.body
	start, end := 0, 0
	lost := p.flags&continued != 0 && partial == nil // its start was not seen
	for _, n := range p.segments {
		end += int(n)
		if n == 255 {
			continue
		}
		packet := body[start:end]
		if partial != nil && p.flags&continued != 0 {
			packet = append(partial, packet...)
		}
		if !lost {
			whole = append(whole, packet)
		}
		partial, lost = nil, false
		start = end
	}
	if start == end {
		return whole, nil
	}
	if partial != nil && p.flags&continued != 0 {
		return whole, append(partial, body[start:end]...)
	}
	return whole, bytes.Clone(body[start:end])
}

// FirstPackets returns the first packet of each logical stream that starts at
// the beginning of an Ogg file; their first bytes tell what is inside.
func FirstPackets(data []byte) [][]byte {
	var firsts [][]byte
	for len(firsts) < 16 {
		p, err := parsePage(data)
		if err != nil || p.flags&firstPage == 0 {
			break
		}
		whole, _ := p.packets(nil)
		if len(whole) > 0 {
			firsts = append(firsts, whole[0])
		}
		data = data[p.size:]
	}
	return firsts
}
