package figure

// lengths are those of the figure's parts.
type lengths struct {
	head, neck, torso float64
	shoulder, hip     float64 // half of what is between the two
	upperArm, forearm float64
	thigh, shin, foot float64
}

// Landmarks of a standing figure of 7.5 heads, in heads from its crown: chin 1,
// pit of the neck a third of a head below it, elbows 3, groin and wrists at
// half the height, knees in the middle of the sixth, soles 7.5; the middle of a
// hand of three quarters of a head lies half of that below the wrist. Common
// practice, on which handbooks of figure drawing agree; a foot of one head is
// from memory.
const (
	chin, pit, elbows, groin, knees, soles = 1, 4. / 3, 3., 3.75, 5.5, 7.5
	hands, soleLong                        = groin + 0.75/2, 1.
)

// The figure is turned by about a third towards who looks: the shoulders are
// 0.7 heads apart and the hips 0.4 (our own choice).
const shouldersApart, hipsApart = 0.7, 0.4

// lengths divides the height: the head takes its part, and what is below the
// chin is shared out as on a figure of 7.5 heads, so that one of few heads has
// short limbs, as puppets and children have.
func (p Pose) lengths() lengths {
	head := float64(p.Size) * 100 / float64(p.Heads)
	part := (float64(p.Size) - head) / (soles - chin)
	return lengths{
		head: head, neck: head/2 + (pit-chin)*part, torso: (groin - pit) * part,
		shoulder: shouldersApart / 2 * part, hip: hipsApart / 2 * part,
		upperArm: (elbows - pit) * part, forearm: (hands - elbows) * part,
		thigh: (knees - groin) * part, shin: (soles - knees) * part, foot: soleLong * part,
	}
}
