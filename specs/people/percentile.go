package people

// tabulated returns the 5th, 50th and 95th percentile of a surveyed measure by
// Sex, as the survey's rows give them (type 7); the printed table of Gordon et
// al. 2014, NATICK/TR-15/007, agrees within its rounding. Mean, standard
// deviation and skewness alone leave a percentile up to 4 mm off, which is
// chance in the sample; whoever asks for the survey's percentile wants the
// survey's.
func tabulated(measure string) [2][3]float64 {
	return map[string][2][3]float64{
		"stature":                        {{1525, 1626, 1740}, {1648, 1755, 1870}},
		"weightkg":                       {{51.3, 66.8, 87.1}, {64.4, 84.6, 110.7}},
		"sittingheight":                  {{803, 857, 912}, {860, 918, 977}},
		"d_acromialheightsitting":        {{515.2, 564, 609}, {552, 603, 653}},
		"elbowrestheight":                {{189, 233, 275.8}, {197, 246, 291}},
		"acromionradialelength":          {{283.2, 311, 340}, {307, 335, 365}},
		"forearmcenterofgriplength":      {{290, 316, 350}, {320, 348.5, 379}},
		"biacromialbreadth":              {{335, 365, 396}, {384, 415, 447}},
		"bideltoidbreadth":               {{406, 450, 499}, {459, 509, 567}},
		"forearmforearmbreadth":          {{432, 492, 563.8}, {497, 579, 666.9}},
		"chestdepth":                     {{205, 245, 295.8}, {211, 253, 298}},
		"chestbreadth":                   {{241, 268, 302}, {261, 289, 320}},
		"abdominalextensiondepthsitting": {{184, 227, 285}, {200, 251, 320}},
		"buttockdepth":                   {{196, 231, 277}, {204, 246, 291}},
		"buttockkneelength":              {{541, 589, 646}, {569, 617, 669}},
		"buttockpopliteallength":         {{441, 483, 535}, {459, 502, 548}},
		"poplitealheight":                {{350, 387, 428}, {390, 430, 471}},
		"kneeheightsitting":              {{469.2, 510, 557}, {509, 553, 602}},
		"hipbreadthsitting":              {{348, 397, 456}, {333, 378, 431}},
		"thighclearance":                 {{145, 167, 191}, {157, 180, 207}},
		"bicepscircumferenceflexed":      {{259, 304, 360}, {303, 357, 418}},
		"forearmcircumferenceflexed":     {{235, 263, 296}, {275, 310, 347.9}},
		"handbreadth":                    {{72, 78, 85}, {81, 88, 96}},
		"handlength":                     {{165, 180, 199}, {177, 193, 210}},
		"footlength":                     {{226, 246, 267.8}, {250, 271, 293}},
	}[measure]
}
