package beat

// smooth returns the times closest to seen, weighted, whose intervals change
// little: the minimum of
//
//	sum weight[i] (x[i]-seen[i])^2 + stiffness sum (x[i-1] - 2 x[i] + x[i+1])^2
//
// which is one system of linear equations with five diagonals.
func smooth(seen, weight []float64, stiffness float64) []float64 {
	n := len(seen)
	if n < 3 {
		return append([]float64(nil), seen...)
	}
	// a[i][k] is the matrix at row i, column i+k; b the right side
	a := make([][3]float64, n)
	b := make([]float64, n)
	for i := range n {
		a[i][0] = weight[i] + 1e-9
		b[i] = a[i][0] * seen[i]
	}
	for i := 1; i+1 < n; i++ {
		a[i-1][0] += stiffness
		a[i-1][1] -= 2 * stiffness
		a[i-1][2] += stiffness
		a[i][0] += 4 * stiffness
		a[i][1] -= 2 * stiffness
		a[i+1][0] += stiffness
	}
	// Gaussian elimination of a symmetric positive matrix
	for i := range n {
		for k := 1; k <= 2 && i+k < n; k++ {
			f := a[i][k] / a[i][0]
			for j := k; j <= 2; j++ {
				a[i+k][j-k] -= f * a[i][j]
			}
			b[i+k] -= f * b[i]
		}
	}
	x := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		v := b[i]
		for k := 1; k <= 2 && i+k < n; k++ {
			v -= a[i][k] * x[i+k]
		}
		x[i] = v / a[i][0]
	}
	return x
}

// align moves each beat, frames, to the peak of the envelope within reach
// frames and evens the intervals. The result is in seconds.
func align(env []float32, beats []int, reach int) []float64 {
	seen, weight := make([]float64, len(beats)), make([]float64, len(beats))
	for i, c := range beats {
		best, arg := float32(0), c
		for t := max(0, c-reach); t <= min(len(env)-1, c+reach); t++ {
			if env[t] > best {
				best, arg = env[t], t
			}
		}
		sum, at := 0.0, 0.0
		for t := max(0, arg-2); t <= min(len(env)-1, arg+2); t++ {
			sum += float64(env[t])
			at += float64(env[t]) * float64(t)
		}
		seen[i], weight[i] = float64(c)/100, 0.01
		if sum > 0 {
			seen[i], weight[i] = at/sum/100, float64(best)+0.01
		}
	}
	return smooth(seen, weight, P.Stiff)
}
