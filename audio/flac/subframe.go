package flac

// subframe decodes the samples of one channel (RFC 9639, 9.2).
func (f *frame) subframe(r *bitReader, dst []int64, bits uint) error {
	if r.read(1) != 0 {
		return failure(r)
	}
	kind := r.read(6)
	wasted := uint(0)
	if r.read(1) == 1 {
		wasted = uint(min(r.unary(), 64)) + 1
		if wasted >= bits {
			return failure(r)
		}
		bits -= wasted
	}
	var err error
	switch {
	case kind == 0:
		v := r.signed(bits)
		for i := range dst {
			dst[i] = v
		}
	case kind == 1:
		for i := range dst {
			dst[i] = r.signed(bits)
		}
	case kind >= 8 && kind <= 12:
		err = f.predicted(r, dst, bits, fixed[kind-8], 0)
	case kind >= 32:
		err = f.linear(r, dst, bits, int(kind)-31)
	default:
		err = errDamaged
	}
	if err != nil || r.over {
		return failure(r)
	}
	if wasted > 0 {
		for i := range dst {
			dst[i] <<= wasted
		}
	}
	return nil
}

// failure tells data that ends from data that is wrong.
func failure(r *bitReader) error {
	if r.over {
		return errEnds
	}
	return errDamaged
}

// fixed holds the coefficients of the fixed predictors by order, the sample
// furthest back first (RFC 9639, 9.2.5).
var fixed = [...][]int64{{}, {1}, {-1, 2}, {1, -3, 3}, {-1, 4, -6, 4}}

// linear decodes a subframe with a predictor of its own (RFC 9639, 9.2.6).
func (f *frame) linear(r *bitReader, dst []int64, bits uint, order int) error {
	if order > len(dst) {
		return errDamaged
	}
	for i := range dst[:order] {
		dst[i] = r.signed(bits)
	}
	precision := uint(r.read(4)) + 1
	shift := r.signed(5)
	if precision > 15 || shift < 0 {
		return errDamaged
	}
	coefficients := f.coefficients[:order]
	for i := range coefficients {
		coefficients[order-1-i] = r.signed(precision)
	}
	return residual(r, dst, coefficients, uint(shift))
}

// predicted decodes a subframe with a fixed predictor.
func (f *frame) predicted(r *bitReader, dst []int64, bits uint, coefficients []int64, shift uint) error {
	if len(coefficients) > len(dst) {
		return errDamaged
	}
	for i := range dst[:len(coefficients)] {
		dst[i] = r.signed(bits)
	}
	return residual(r, dst, coefficients, shift)
}

// residual decodes what the predictor misses (RFC 9639, 9.2.7) and adds the
// prediction to it. The first samples, as many as there are coefficients, are
// there already.
func residual(r *bitReader, dst []int64, coefficients []int64, shift uint) error {
	method, partitions := r.read(2), 1<<r.read(4)
	order, each := len(coefficients), len(dst)/partitions
	if method > 1 || len(dst)%partitions != 0 || each < order {
		return errDamaged
	}
	width := uint(4 + method)
	escape := uint64(1)<<width - 1
	for p := range partitions {
		part := dst[max(p*each, order) : (p+1)*each]
		k := r.read(width)
		if k != escape {
			r.rice(part, uint(k))
		} else {
			raw := uint(r.read(5))
			for i := range part {
				part[i] = r.signed(raw)
			}
		}
		if r.over {
			return errEnds
		}
	}
	predict(dst, coefficients, shift)
	return nil
}

// predict adds to each sample what the ones before it foretell. The orders that
// encoders use most, up to 8 and up to 12, have loops of a fixed size, with
// coefficients of 0 for the samples furthest back.
func predict(dst, coefficients []int64, shift uint) {
	order := len(coefficients)
	switch {
	case order == 0:
	case order <= 8 && len(dst) > 8:
		predictSlowly(dst[:8], coefficients, shift)
		predict8(dst, (*[8]int64)(padded(coefficients, 8)), shift)
	case order <= 12 && len(dst) > 12:
		predictSlowly(dst[:12], coefficients, shift)
		predict12(dst, (*[12]int64)(padded(coefficients, 12)), shift)
	default:
		predictSlowly(dst, coefficients, shift)
	}
}

// padded puts zeros before the coefficients, up to n.
func padded(coefficients []int64, n int) []int64 {
	return append(make([]int64, n-len(coefficients), n), coefficients...)
}

func predictSlowly(dst, coefficients []int64, shift uint) {
	order := len(coefficients)
	for i := order; i < len(dst); i++ {
		sum := int64(0)
		for j, v := range dst[i-order : i] {
			sum += coefficients[j] * v
		}
		dst[i] += sum >> shift
	}
}

func predict8(dst []int64, c *[8]int64, shift uint) {
	c0, c1, c2, c3, c4, c5, c6, c7 := c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7]
	for i := 8; i < len(dst); i++ {
		b := (*[8]int64)(dst[i-8 : i])
		dst[i] += (c0*b[0] + c1*b[1] + c2*b[2] + c3*b[3] + c4*b[4] + c5*b[5] + c6*b[6] + c7*b[7]) >> (shift & 63)
	}
}

func predict12(dst []int64, c *[12]int64, shift uint) {
	for i := 12; i < len(dst); i++ {
		b := (*[12]int64)(dst[i-12 : i])
		dst[i] += (c[0]*b[0] + c[1]*b[1] + c[2]*b[2] + c[3]*b[3] + c[4]*b[4] + c[5]*b[5] +
			c[6]*b[6] + c[7]*b[7] + c[8]*b[8] + c[9]*b[9] + c[10]*b[10] + c[11]*b[11]) >> (shift & 63)
	}
}
