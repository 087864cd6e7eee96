package figure

import "math"

// Standing returns the figure moved up or down so that its lower foot is on
// the ground.
func (p Pose) Standing() Pose {
	j := p.Joints()
	low := max(j[NearFoot].Y, j[FarFoot].Y)
	p.Y = clamped(float64(p.Y) + float64(p.Ground) - low)
	return p
}

// Moved returns the figure elsewhere, its ground with it.
func (p Pose) Moved(x, y int32) Pose {
	p.X, p.Y, p.Ground = clamped(float64(p.X)+float64(x)), clamped(float64(p.Y)+float64(y)), clamped(float64(p.Ground)+float64(y))
	return p
}

// Scaled returns the figure so many times as large, its feet on its ground as
// they were.
func (p Pose) Scaled(by float64) Pose {
	old := p.Size
	p.Size = int32(math.Round(min(max(float64(p.Size)*by, MinSize), MaxSize)))
	k := float64(p.Size) / float64(old)
	p.Y = clamped(float64(p.Ground) + (float64(p.Y)-float64(p.Ground))*k)
	return p
}

// Flipped returns the figure looking the other way.
func (p Pose) Flipped() Pose {
	p.Left = !p.Left
	return p
}

// InHeads returns the figure of another height in heads, hundredths, as tall
// as before.
func (p Pose) InHeads(heads int32) Pose {
	p.Heads = min(max(heads, MinHeads), MaxHeads)
	return p.Standing()
}

// Bones are the pairs of joints that lines lead between, those of the far side
// first.
var Bones = [][2]Joint{
	{Neck, FarShoulder}, {FarShoulder, FarElbow}, {FarElbow, FarHand},
	{Hips, FarHip}, {FarHip, FarKnee}, {FarKnee, FarFoot}, {FarFoot, FarToes},
	{Hips, Neck}, {Neck, Head},
	{Hips, NearHip}, {NearHip, NearKnee}, {NearKnee, NearFoot}, {NearFoot, NearToes},
	{Neck, NearShoulder}, {NearShoulder, NearElbow}, {NearElbow, NearHand},
}

// IsFar reports whether a joint belongs to the far side.
func (j Joint) IsFar() bool { return j >= FarShoulder }
