package screen

// arm screens arm, grip and the handle's pin under the hand.
func (s *Screen) arm(r *rig, l *burden, out *screening) {
	p, yield, hand := &r.planes, s.Steel.Yield, l.hand.force
	root := r.size(aHub, 0) / 2 // of the tube from the axis
	b := beam{
		strong: l.hand.torque * (1 - root/l.hand.reach), weak: gripPull * (l.hand.reach - root),
		across: hand, twist: hand * (p.Arm - p.GripMiddle),
	}
	weld := r.weld(anArmTube, aHub)
	out.value[armRoot], out.size[hubWeld] = loadFactor*b.tube(&s.Arm)/yield, weld.Throat
	out.value[hubWeld] = s.welded(loadFactor*b.ring(s.Arm.H, s.Arm.B), weld.Throat)

	bar := beam{strong: hand * (p.Arm - s.Slide.B/2 - p.GripMiddle), axial: gripPull, across: hand}
	weld = r.weld(aGrip, aSlide)
	out.value[gripBent] = loadFactor * bar.round(r.size(aGrip, 0), r.size(aGrip, 1)) / yield
	out.size[gripWeld] = weld.Throat
	if weld.Run > 0 {
		out.value[gripWeld] = s.welded(loadFactor*bar.circle(weld.Run), weld.Throat)
	}
	pin := r.slide(aSlide, anArmTube)
	out.size[handlePinShear] = pin
	out.value[handlePinShear] = sheared(loadFactor*max(hand, gripPull), pin, 1, min(s.Slide.T, 2*s.Arm.T), yield)
}
