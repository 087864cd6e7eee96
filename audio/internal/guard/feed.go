package guard

import "stillbeat/audio/clip"

// blockLen is the number of samples of each channel in a block for a sink.
const blockLen = 4096

// Feed hands what a reader decodes to a sink, in blocks of one size.
type Feed struct {
	sink  clip.Sink
	info  clip.Info // Len counts what came
	block [][]float32
	free  [][]float32 // the part of block that is not filled
}

// Begin tells the sink what is to come.
func (f *Feed) Begin(info clip.Info) error {
	f.info = info
	f.info.Len = 0
	f.block = make([][]float32, info.Channels)
	for ch := range f.block {
		f.block[ch] = make([]float32, blockLen)
	}
	f.free = make([][]float32, info.Channels)
	f.empty()
	return f.sink.Begin(info)
}

func (f *Feed) empty() { copy(f.free, f.block) }

// Room returns where the next samples go, [channel][sample]: room for one at
// least.
func (f *Feed) Room() [][]float32 { return f.free }

// Filled says that so many samples were put at the start of the room.
func (f *Feed) Filled(n int) error {
	f.info.Len += n
	for ch := range f.free {
		f.free[ch] = f.free[ch][n:]
	}
	if len(f.free[0]) > 0 {
		return nil
	}
	return f.flush()
}

// Add copies samples, [channel][sample].
func (f *Feed) Add(samples [][]float32) error {
	for from, n := 0, len(samples[0]); from < n; {
		k := 0
		for ch, room := range f.free {
			k = copy(room, samples[ch][from:])
		}
		if err := f.Filled(k); err != nil {
			return err
		}
		from += k
	}
	return nil
}

// flush hands on what is in the block.
func (f *Feed) flush() error {
	filled := make([][]float32, len(f.block))
	n := 0
	for ch := range f.block {
		n = blockLen - len(f.free[ch])
		filled[ch] = f.block[ch][:n]
	}
	f.empty()
	if n == 0 {
		return nil
	}
	return f.sink.Add(filled)
}

// Title sets the title, which may come after the first samples.
func (f *Feed) Title(title string) { f.info.Title = title }

// Info returns what came so far.
func (f *Feed) Info() clip.Info { return f.info }
