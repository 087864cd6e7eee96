// Package demo is the demonstration film "The Last Lump": twenty pictures of
// a tea table and the tune they are timed to, all drawn and played by this
// code. The art and the tune are dedicated to the public domain (CC0-1.0).
package demo

import (
	"image"
	"slices"
)

// Title is the film's name.
const Title = "The Last Lump"

// Size of a picture in pixels.
const (
	Width  = 1280
	Height = 720
)

// Panel is one picture of the storyboard with its words and its place in the
// tune.
type Panel struct {
	Title  string
	Action string // what happens, for the animator
	Sound  string // what is heard
	Shot   string // shot size
	Scene  string // heading of the scene it opens; empty for none
	Same   bool   // the camera stands as in the panel before: no new shot
	Still  bool   // nothing stirs
	Rig    bool   // something is held up by a rig: painted out over a clean plate
	Melt   bool   // the picture before dissolves into it
	Way    *Way   // of an object through it, nil for none
	Start  int    // first beat, counted from 0 at the tune's first downbeat
	Beats  int    // length in beats

	// Draw paints the panel over the whole of dst, which may have any size of
	// the same shape as Width by Height.
	Draw func(dst *image.RGBA)
}

// Panels returns the film's panels in order. They follow one another without
// gaps from beat 0 to the last beat of the tune.
func Panels() []Panel {
	panels := slices.Concat(opening(), plan(), flight(), landing())
	start := 0
	for i := range panels {
		panels[i].Start = start
		start += panels[i].Beats
	}
	return panels
}

// Picture draws panel i, counted from 0, at Width by Height. The picture is
// opaque and always the same. It panics when there is no panel i.
func Picture(i int) *image.RGBA {
	dst := image.NewRGBA(image.Rect(0, 0, Width, Height))
	Panels()[i].Draw(dst)
	return dst
}
