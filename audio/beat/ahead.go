package beat

// aheadFrames is how many frames are scored in one go.
const aheadFrames = 512

// ahead scores beats on a goroutine of its own, some blocks of frames before
// they are asked for.
type ahead struct {
	full, free chan [][intervals]float64
	now        [][intervals]float64 // the block of the frame asked for last
}

// scoreAhead begins to score the beats that end at frames 0..total.
func scoreAhead(beats *beatScores, total int) *ahead {
	const blocks = 3
	a := &ahead{make(chan [][intervals]float64, blocks), make(chan [][intervals]float64, blocks), nil}
	for range blocks {
		a.free <- make([][intervals]float64, aheadFrames)
	}
	go func() {
		for from := 0; from < total; from += aheadFrames {
			block, ok := <-a.free
			if !ok {
				return
			}
			for k := range min(aheadFrames, total-from) {
				for i := range block[k] {
					block[k][i] = beats.score(i, from+k-shortest-i, from+k)
				}
			}
			a.full <- block
		}
	}()
	return a
}

// frame returns the scores of the beats that end at frame t, by interval, to be
// used until the next call. Frames are asked for in order.
func (a *ahead) frame(t int) *[intervals]float64 {
	if t%aheadFrames == 0 {
		if a.now != nil {
			a.free <- a.now
		}
		a.now = <-a.full
	}
	return &a.now[t%aheadFrames]
}

// stop ends the goroutine.
func (a *ahead) stop() { close(a.free) }
