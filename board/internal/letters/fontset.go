// Package letters sets words in the fonts of the program: it chooses a font for
// each character, shapes the letters and breaks lines, in any script.
package letters

import (
	"bytes"
	"sync"

	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/language"

	"stillbeat/assets/fonts"
)

// loaded gives each font once, read when it is first needed.
var loaded = struct {
	sync.Mutex
	byName map[string]*font.Font
}{byName: map[string]*font.Font{}}

// Load returns a font of assets/fonts by its file name.
func Load(name string) *font.Font {
	loaded.Lock()
	defer loaded.Unlock()
	if f, ok := loaded.byName[name]; ok {
		return f
	}
	data, err := fonts.Files.ReadFile(name)
	if err != nil {
		panic(err) // it is embedded
	}
	face, err := font.ParseTTF(bytes.NewReader(data))
	if err != nil {
		panic(err) // a test reads each of them
	}
	loaded.byName[name] = face.Font
	return face.Font
}

// faces chooses a font for each character: that of its script, the usual one,
// that of its neighbour, or whichever has it. It is for one goroutine at a time, as its faces are.
type faces struct {
	byName map[string]*font.Face
	last   *font.Face
}

func (f *faces) face(name string) *font.Face {
	if face, ok := f.byName[name]; ok {
		return face
	}
	face := font.NewFace(Load(name))
	f.byName[name] = face
	return face
}

// ResolveFace returns the font to draw r with, the usual one if none has it.
func (f *faces) ResolveFace(r rune) *font.Face {
	has := func(face *font.Face) bool {
		_, ok := face.NominalGlyph(r)
		return ok
	}
	script := language.LookupScript(r)
	if f.last != nil && script == language.Inherited && has(f.last) {
		return f.last // a mark stays with its letter
	}
	if own := fonts.ByScript[script.String()]; own != "" && has(f.face(own)) {
		f.last = f.face(own)
		return f.last
	}
	if usual := f.face(fonts.Usual); has(usual) {
		f.last = usual
		return usual
	}
	if f.last != nil && has(f.last) {
		return f.last // a mark of punctuation that several scripts share
	}
	for _, name := range fonts.Others {
		if face := f.face(name); has(face) {
			f.last = face
			return face
		}
	}
	return f.face(fonts.Usual)
}
