package drive

// Lift is how far both arms have lifted the stack at a flexion, rad, in mm: the cable's
// take-up since the first loaded angle. Outside the loaded range it is what it is at
// its end; of a drive without a cam, nothing.
func (r *Resistance) Lift(flexion float64) float64 {
	if len(r.MomentArm) == 0 {
		return 0
	}
	first, last := r.Angles[0], r.Angles[len(r.Angles)-1]
	return r.Profile.TakeUp(first, max(first, min(last, flexion)))
}
