package people

// This file holds what the package keeps of the 2012 survey: mean, standard
// deviation and skewness of every dimension and the correlations of their
// normal scores, by sex. They are statistics of the public 2012 anthropometric
// survey (4082 men, 1986 women aged 17-58; Gordon et al. 2014,
// NATICK/TR-15/007), computed from its person rows; the test
// TestTableFromRows computes them again where the rows are at hand.

// dimension is one body dimension: its name in tables and messages, where a
// Person keeps it, what the survey calls it, how far the Person's value lies
// below the surveyed one, and its distribution in the survey by Sex.
type dimension struct {
	name    string
	field   func(*Person) *float64
	measure string
	less    float64
	survey  [2]marginal
}

// Positions of the two dimensions that are not regressed on stature and body
// mass index; all later ones are.
const (
	statureIndex = 0
	massIndex    = 1
	firstOther   = 2
)

// axisBelow is how far the elbow axis lies above radiale along the upper arm,
// mm: the axis is about 8 mm proximal to the radio-humeral junction
// (LeVeau/Williams-Lissner, after Dempster 1955). de Leva 1996 gives about
// 14 mm, so axis places carry 6 mm of doubt.
const axisBelow = 8

// olecranonToAxis is the distance of the elbow axis ahead of the back of the
// olecranon with the forearm horizontal, mm: 22 with 8 mm of doubt, since no
// open survey measured it for women (men of 1967: 23.1).
const olecranonToAxis = 22

// dimensions returns the table of body dimensions in the order of all vectors
// and matrices of this package. Means are mm (mass kg) of the surveyed
// measure, before less is taken off.
func dimensions() []dimension {
	return []dimension{
		{"stature", func(p *Person) *float64 { return &p.Stature }, "stature", 0, [2]marginal{{1628.47, 64.2, 0.088}, {1756.21, 68.55, 0.111}}},
		{"mass", func(p *Person) *float64 { return &p.Mass }, "weightkg", 0, [2]marginal{{67.76, 10.98, 0.554}, {85.52, 14.22, 0.482}}},
		{"sitting_height", func(p *Person) *float64 { return &p.SittingHeight }, "sittingheight", 0, [2]marginal{{856.63, 33.05, 0.015}, {918.29, 35.7, 0.016}}},
		{"acromion_height", func(p *Person) *float64 { return &p.AcromionHeight }, "d_acromialheightsitting", 0, [2]marginal{{563.25, 27.83, 0.005}, {602.81, 30.83, 0.007}}},
		{"elbow_rest_height", func(p *Person) *float64 { return &p.ElbowRestHeight }, "elbowrestheight", 0, [2]marginal{{232.42, 26.25, -0.066}, {245.04, 28.65, -0.122}}},
		{"acromion_to_axis", func(p *Person) *float64 { return &p.AcromionToAxis }, "acromionradialelength", axisBelow, [2]marginal{{311.2, 17.16, 0.039}, {335.24, 17.48, 0.096}}},
		{"axis_to_grip", func(p *Person) *float64 { return &p.AxisToGrip }, "forearmcenterofgriplength", olecranonToAxis, [2]marginal{{317.71, 18.02, 0.3}, {349.01, 18.02, 0.201}}},
		{"biacromial", func(p *Person) *float64 { return &p.Biacromial }, "biacromialbreadth", 0, [2]marginal{{365.35, 18.3, -0.045}, {415.68, 19.16, 0.075}}},
		{"bideltoid", func(p *Person) *float64 { return &p.Bideltoid }, "bideltoidbreadth", 0, [2]marginal{{450.32, 28.69, 0.217}, {510.42, 32.51, 0.206}}},
		{"forearm_breadth", func(p *Person) *float64 { return &p.ForearmBreadth }, "forearmforearmbreadth", 0, [2]marginal{{494.83, 41.01, 0.273}, {579.93, 50.93, 0.125}}},
		{"chest_depth", func(p *Person) *float64 { return &p.ChestDepth }, "chestdepth", 0, [2]marginal{{247.4, 27.34, 0.329}, {253.85, 26.25, 0.156}}},
		{"chest_breadth", func(p *Person) *float64 { return &p.ChestBreadth }, "chestbreadth", 0, [2]marginal{{269.33, 18.58, 0.286}, {289.44, 18.28, 0.17}}},
		{"abdominal_depth", func(p *Person) *float64 { return &p.AbdominalDepth }, "abdominalextensiondepthsitting", 0, [2]marginal{{229.65, 31.46, 0.528}, {254.65, 37.33, 0.493}}},
		{"buttock_depth", func(p *Person) *float64 { return &p.ButtockDepth }, "buttockdepth", 0, [2]marginal{{232.93, 24.33, 0.514}, {245.85, 26.46, 0.246}}},
		{"buttock_knee", func(p *Person) *float64 { return &p.ButtockKnee }, "buttockkneelength", 0, [2]marginal{{590.59, 32.6, 0.215}, {617.95, 30.59, 0.136}}},
		{"buttock_popliteal", func(p *Person) *float64 { return &p.ButtockPopliteal }, "buttockpopliteallength", 0, [2]marginal{{485.12, 28.72, 0.172}, {502.92, 27.43, 0.122}}},
		{"popliteal_height", func(p *Person) *float64 { return &p.PoplitealHeight }, "poplitealheight", 0, [2]marginal{{388.2, 23.59, 0.099}, {429.8, 24.82, 0.138}}},
		{"knee_height", func(p *Person) *float64 { return &p.KneeHeight }, "kneeheightsitting", 0, [2]marginal{{511.29, 27.07, 0.17}, {554.16, 27.95, 0.172}}},
		{"hip_breadth", func(p *Person) *float64 { return &p.HipBreadth }, "hipbreadthsitting", 0, [2]marginal{{398.96, 32.75, 0.357}, {379.3, 30.21, 0.399}}},
		{"thigh_clearance", func(p *Person) *float64 { return &p.ThighClearance }, "thighclearance", 0, [2]marginal{{167.86, 14.06, 0.307}, {180.46, 15.59, 0.387}}},
		{"upper_arm_girth", func(p *Person) *float64 { return &p.UpperArmGirth }, "bicepscircumferenceflexed", 0, [2]marginal{{305.58, 30.76, 0.465}, {358.14, 34.62, 0.218}}},
		{"forearm_girth", func(p *Person) *float64 { return &p.ForearmGirth }, "forearmcircumferenceflexed", 0, [2]marginal{{264.08, 18.52, 0.335}, {310.06, 21.99, 0.223}}},
		{"hand_breadth", func(p *Person) *float64 { return &p.HandBreadth }, "handbreadth", 0, [2]marginal{{78.15, 3.84, 0.164}, {88.26, 4.39, 0.14}}},
		{"hand_length", func(p *Person) *float64 { return &p.HandLength }, "handlength", 0, [2]marginal{{181.08, 10.06, 0.319}, {193.28, 9.95, 0.225}}},
		{"foot_length", func(p *Person) *float64 { return &p.FootLength }, "footlength", 0, [2]marginal{{246.29, 12.44, 0.105}, {271.18, 13.1, 0.046}}},
	}
}

// logBMI returns mean and standard deviation of ln(body mass index, kg/m²) in
// the survey; its skewness is 0.10 (women) and -0.06 (men), taken as none.
func logBMI(s Sex) (mean, sd float64) {
	return [2]float64{3.22932, 3.31034}[s], [2]float64{0.13541, 0.14585}[s]
}

// stoutBMI returns the 99th percentile of body mass index in the survey, kg/m²:
// above it the survey's shapes are extrapolated.
func stoutBMI(s Sex) float64 { return [2]float64{34.8, 38.2}[s] }

// scoreCorrelations returns the lower triangle, without the diagonal, of the
// correlation matrix of normal scores: row i of dimensions() against rows
// 0..i-1, where place massIndex is taken by ln(body mass index).
func scoreCorrelations(s Sex) [][]float64 {
	if s == Woman {
		return [][]float64{
			{},
			{0.0561},
			{0.7641, 0.0438},
			{0.6292, 0.1290, 0.8808},
			{0.1157, 0.1057, 0.5702, 0.7133},
			{0.7935, 0.1487, 0.4507, 0.3989, -0.1915},
			{0.7272, 0.1697, 0.3141, 0.2183, -0.2624, 0.7309},
			{0.5661, 0.2220, 0.4268, 0.2699, -0.0979, 0.4727, 0.5364},
			{0.3607, 0.8145, 0.2710, 0.2943, 0.0987, 0.3827, 0.3869, 0.5659},
			{0.2973, 0.7740, 0.1983, 0.2650, 0.1414, 0.3411, 0.3141, 0.3276, 0.8545},
			{0.2318, 0.8073, 0.1826, 0.2543, 0.1513, 0.2736, 0.2321, 0.2262, 0.7428, 0.7255},
			{0.3476, 0.6425, 0.3495, 0.3853, 0.2514, 0.3134, 0.2520, 0.4293, 0.7730, 0.7225, 0.6536},
			{0.1792, 0.8336, 0.0775, 0.1357, 0.0332, 0.2421, 0.2625, 0.2319, 0.7370, 0.7272, 0.7586, 0.5908},
			{0.2507, 0.8621, 0.1393, 0.1855, 0.0534, 0.2962, 0.3269, 0.2605, 0.7325, 0.6856, 0.7064, 0.5378, 0.7834},
			{0.7504, 0.4394, 0.3325, 0.2641, -0.1913, 0.7392, 0.7460, 0.4859, 0.5617, 0.4923, 0.4504, 0.3985, 0.4883, 0.6153},
			{0.7319, 0.2724, 0.2799, 0.2097, -0.2375, 0.7453, 0.7205, 0.4325, 0.4269, 0.3665, 0.3293, 0.2855, 0.3564, 0.4718, 0.9508},
			{0.8051, -0.1608, 0.3875, 0.2884, -0.1849, 0.7396, 0.7298, 0.4565, 0.1484, 0.0870, 0.0310, 0.1272, -0.0112, 0.0450, 0.6418, 0.7199},
			{0.8771, 0.1688, 0.4472, 0.3535, -0.1613, 0.8111, 0.8310, 0.5430, 0.4028, 0.3430, 0.2625, 0.3031, 0.2595, 0.3594, 0.8352, 0.8200, 0.8798},
			{0.3734, 0.7736, 0.3181, 0.3361, 0.1431, 0.3530, 0.3118, 0.2933, 0.6651, 0.6200, 0.6257, 0.5279, 0.6560, 0.7808, 0.6098, 0.4835, 0.0839, 0.3996},
			{0.3263, 0.7967, 0.2322, 0.2550, 0.0846, 0.3112, 0.3858, 0.3219, 0.7124, 0.6666, 0.6178, 0.5217, 0.6709, 0.7872, 0.5730, 0.3944, 0.0700, 0.4048, 0.7024},
			{0.2527, 0.8696, 0.1640, 0.2011, 0.0859, 0.2803, 0.3213, 0.2847, 0.7939, 0.7492, 0.7170, 0.5969, 0.7259, 0.7744, 0.5366, 0.3876, 0.0259, 0.3354, 0.7158, 0.7661},
			{0.3602, 0.7626, 0.2561, 0.2618, 0.0756, 0.3520, 0.4310, 0.3823, 0.7330, 0.7095, 0.6260, 0.5547, 0.6383, 0.6978, 0.5624, 0.4083, 0.1521, 0.4391, 0.6249, 0.7298, 0.8548},
			{0.4735, 0.3157, 0.3514, 0.2865, 0.0249, 0.4095, 0.4938, 0.4499, 0.4284, 0.3703, 0.3203, 0.3660, 0.2755, 0.3265, 0.4516, 0.3786, 0.3726, 0.4894, 0.3141, 0.3968, 0.4147, 0.5147},
			{0.6479, 0.1944, 0.3181, 0.2225, -0.1747, 0.6289, 0.7741, 0.5277, 0.3734, 0.2856, 0.2231, 0.2543, 0.2259, 0.3103, 0.6585, 0.6350, 0.6553, 0.7399, 0.3028, 0.3359, 0.3094, 0.4109, 0.5688},
			{0.7219, 0.2201, 0.4182, 0.3107, -0.1039, 0.6428, 0.7453, 0.5226, 0.3985, 0.3313, 0.2610, 0.3138, 0.2531, 0.3456, 0.7048, 0.6641, 0.6750, 0.7827, 0.3599, 0.3929, 0.3287, 0.4446, 0.5385, 0.7990},
		}
	}
	return [][]float64{
		{},
		{-0.0004},
		{0.7788, 0.0440},
		{0.6629, 0.2183, 0.8675},
		{0.1761, 0.3011, 0.5671, 0.7240},
		{0.7957, 0.0519, 0.4738, 0.4512, -0.1320},
		{0.7527, 0.1181, 0.3859, 0.3435, -0.1066, 0.7405},
		{0.5324, 0.3820, 0.4323, 0.3506, 0.0629, 0.4708, 0.5035},
		{0.3145, 0.8334, 0.2811, 0.3734, 0.2923, 0.3019, 0.3422, 0.6985},
		{0.2124, 0.8234, 0.1815, 0.3118, 0.3243, 0.2142, 0.2651, 0.4699, 0.8847},
		{0.2196, 0.8578, 0.1710, 0.3150, 0.2642, 0.2528, 0.2814, 0.3895, 0.7660, 0.7676},
		{0.3435, 0.6226, 0.3616, 0.4495, 0.3576, 0.3004, 0.2552, 0.5783, 0.7690, 0.6925, 0.5702},
		{0.1449, 0.8628, 0.1168, 0.2740, 0.2665, 0.1704, 0.1999, 0.3247, 0.7288, 0.7242, 0.8069, 0.5755},
		{0.2129, 0.8835, 0.2151, 0.3484, 0.3278, 0.1915, 0.2498, 0.4021, 0.7740, 0.7417, 0.7968, 0.5879, 0.8521},
		{0.8014, 0.2934, 0.4089, 0.3909, -0.0366, 0.7487, 0.7619, 0.5323, 0.4793, 0.3964, 0.4333, 0.3905, 0.3869, 0.4553},
		{0.7635, 0.1131, 0.3340, 0.3007, -0.1230, 0.7284, 0.7084, 0.4419, 0.3225, 0.2435, 0.2809, 0.2842, 0.2327, 0.2804, 0.9453},
		{0.8441, -0.1843, 0.4331, 0.3432, -0.1441, 0.7619, 0.7562, 0.4131, 0.1287, 0.0437, 0.0557, 0.1592, -0.0530, -0.0055, 0.7266, 0.7686},
		{0.8916, 0.0994, 0.4933, 0.4423, -0.0429, 0.8024, 0.8333, 0.5284, 0.3608, 0.2781, 0.3011, 0.3241, 0.2187, 0.2765, 0.8472, 0.8021, 0.9152},
		{0.3693, 0.8084, 0.3756, 0.4650, 0.3544, 0.3111, 0.3275, 0.4795, 0.7680, 0.7156, 0.7406, 0.6186, 0.7507, 0.8375, 0.5213, 0.3580, 0.1152, 0.3905},
		{0.2503, 0.8069, 0.2212, 0.3183, 0.2675, 0.2269, 0.3229, 0.4258, 0.7390, 0.6986, 0.6846, 0.5085, 0.7012, 0.7963, 0.4627, 0.2709, 0.0387, 0.3166, 0.7507},
		{0.1904, 0.8254, 0.1515, 0.2414, 0.2326, 0.1711, 0.2956, 0.4567, 0.8030, 0.7853, 0.7520, 0.5416, 0.6456, 0.7138, 0.4032, 0.2423, 0.0379, 0.2722, 0.6887, 0.7443},
		{0.3019, 0.7581, 0.2379, 0.3079, 0.2150, 0.2743, 0.3939, 0.5075, 0.7663, 0.7435, 0.7026, 0.5564, 0.6088, 0.6725, 0.4687, 0.3044, 0.1542, 0.3768, 0.6368, 0.7053, 0.8796},
		{0.4677, 0.3636, 0.3857, 0.3832, 0.1605, 0.3987, 0.4772, 0.4521, 0.4538, 0.3916, 0.4102, 0.4060, 0.3180, 0.3693, 0.4579, 0.3510, 0.3505, 0.4805, 0.4083, 0.3964, 0.4512, 0.5700},
		{0.6747, 0.1218, 0.3976, 0.3394, -0.0441, 0.6247, 0.7622, 0.4827, 0.3197, 0.2343, 0.2528, 0.2674, 0.1748, 0.2274, 0.6438, 0.5936, 0.6613, 0.7316, 0.2959, 0.2598, 0.2743, 0.3901, 0.5820},
		{0.7187, 0.1671, 0.4580, 0.3921, 0.0198, 0.6233, 0.7243, 0.5176, 0.3592, 0.2702, 0.2887, 0.3058, 0.1894, 0.2691, 0.6957, 0.6352, 0.6752, 0.7599, 0.3727, 0.3208, 0.3082, 0.4145, 0.5526, 0.7875},
	}
}
