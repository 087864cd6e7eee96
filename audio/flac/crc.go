package flac

// crc8 is the checksum of a frame's header (RFC 9639, 9.1.8).
func crc8(b []byte) (crc byte) {
	for _, c := range b {
		crc = table8[crc^c]
	}
	return crc
}

// crc16 is the checksum of a frame (RFC 9639, 9.3).
func crc16(b []byte) (crc uint16) {
	for ; len(b) >= 4; b = b[4:] {
		crc = table16[3][byte(crc>>8)^b[0]] ^ table16[2][byte(crc)^b[1]] ^ table16[1][b[2]] ^ table16[0][b[3]]
	}
	for _, c := range b {
		crc = crc<<8 ^ table16[0][byte(crc>>8)^c]
	}
	return crc
}

var table8 = func() (table [256]byte) {
	for i := range table {
		crc := byte(i)
		for range 8 {
			crc = crc<<1 ^ crc>>7*0x07
		}
		table[i] = crc
	}
	return table
}()

// table16[k] holds the checksums of a byte with k zero bytes after it.
var table16 = func() (table [4][256]uint16) {
	for i := range table[0] {
		crc := uint16(i) << 8
		for range 8 {
			crc = crc<<1 ^ crc>>15*0x8005
		}
		table[0][i] = crc
	}
	for k := 1; k < len(table); k++ {
		for i, crc := range table[k-1] {
			table[k][i] = crc<<8 ^ table[0][crc>>8]
		}
	}
	return table
}()
