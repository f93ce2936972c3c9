package drive

// Lift is how far the stack has risen at a flexion, mm: the cable that the cam has
// taken up since the first loaded angle, by the trapezoidal rule over the grid, so
// that it ends at the take-up. 0 without a cam.
func (r *Resistance) Lift(theta float64) float64 {
	angles, arm := r.Angles, r.MomentArm
	up := 0.0
	for i := 1; i < len(arm) && angles[i-1] < theta; i++ {
		to := min(theta, angles[i])
		share := (to - angles[i-1]) / (angles[i] - angles[i-1])
		up += (arm[i-1] + (arm[i-1] + share*(arm[i]-arm[i-1]))) / 2 * (to - angles[i-1])
	}
	return up
}
