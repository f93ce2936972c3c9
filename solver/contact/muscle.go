package contact

import "math"

// Strength of the joints beside the elbow's, both sides, as shares of one elbow's.
const (
	// Shoulder flexors: 68.6 N·m with the arm 45 degrees forward (26 men, static, S) over
	// the elbow flexors' 69.5 (18 men, Tsunoda 1993, S), both arms; extensors as strong
	// (judgement).
	shoulderShare = 2 * 68.6 / 69.5
	// Back: 288 N·m leaning 20 degrees (men; Chaffin et al. 1999, table 4.5, second hand)
	// over 69.5; belly 0.6 of it (judgement).
	backShare  = 288 / 69.5
	bellyShare = 0.6 * backShare
	// Hips and knees are asked for little here: as the back (judgement).
	legShare = backShare
)

// Lever arms of muscles, mm. What they do to an answer is to tell effort in one joint
// from effort in another.
const (
	// Of the back over the lowest disc: models take 50 as a rule (Güngör 2013, S); the
	// largest taken is about 75 (McGill and Norman, M).
	BackArmLeast, BackArmMost = 50.0, 75.0
	shoulderArm               = 40.0 // textbooks, M
	legArm                    = 50.0 // likewise
)

// joints are what a person's muscles do, by segment.
func (s *Sitting) joints() []Joint {
	both := func(share, arm float64) Joint {
		return Joint{Least: -share * s.strength, Most: share * s.strength, Arm: arm}
	}
	return []Joint{
		pelvis:    {},
		trunk:     {Least: -bellyShare * s.strength, Most: backShare * s.strength, Arm: BackArmLeast},
		upperArms: both(shoulderShare, shoulderArm),
		forearms:  {Least: math.Inf(-1), Most: math.Inf(1)}, // follows from the load
		thighs:    both(legShare, legArm),
		shanks:    both(legShare, legArm),
	}
}
