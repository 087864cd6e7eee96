package clip

// Info is what is known of a sound without its samples.
type Info struct {
	Rate     int // samples per second and channel, Hz
	Channels int
	Len      int    // samples in each channel
	Title    string // from the file's tags, "" if none
}

// Seconds returns the length in seconds, 0 without a rate.
func (i Info) Seconds() float64 {
	if i.Rate <= 0 {
		return 0
	}
	return float64(i.Len) / float64(i.Rate)
}

// Sink takes a sound in while it is decoded, a few thousand samples at a time.
// Its methods are called one after the other, not always on one goroutine; an
// error ends the decoding.
type Sink interface {
	// Begin is called once, before the first block. Len and Title may not be
	// known yet.
	Begin(Info) error
	// Add takes the samples that follow those before, [channel][sample], all
	// channels of one length. The sink copies what it keeps.
	Add(block [][]float32) error
	// End is called after the last block, unless something failed.
	End() error
}

// Tee is a sink that passes a sound on to several.
type Tee []Sink

// Begin passes the beginning on.
func (t Tee) Begin(info Info) error {
	return t.each(func(s Sink) error { return s.Begin(info) })
}

// Add passes a block on.
func (t Tee) Add(block [][]float32) error {
	return t.each(func(s Sink) error { return s.Add(block) })
}

// End passes the end on.
func (t Tee) End() error { return t.each(Sink.End) }

func (t Tee) each(call func(Sink) error) error {
	for _, s := range t {
		if err := call(s); err != nil {
			return err
		}
	}
	return nil
}

// Sound is sound that can be read at any place.
type Sound interface {
	Rate() int     // samples per second and channel, Hz
	Channels() int // at least 1
	Len() int      // samples in each channel
	// Read fills dst, [channel][sample], with the samples from at on. Before
	// and after the sound there is silence. It may be called from several
	// goroutines, and neither waits nor takes memory.
	Read(dst [][]float32, at int)
}
