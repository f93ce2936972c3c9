package specs

import "armwright/specs/aims"

// Brief is what is asked of a station: who must fit, what resistance is
// wanted, what stock and space there is. A parsed Brief holds inside units
// throughout: mm, rad, kg, N, and shares as fractions (5 % is 0.05).
//
// The struct is the one source of truth for the file format: the field tags
// drive the decoder, its error messages, the defaults and the JSON Schema.
//
//	key      name in the file; fields without a key are not read
//	unit     what a scalar must carry: length, angle, mass, force, torque,
//	         percent, time; absent for text, counts and choices
//	choice   allowed words, separated by |
//	default  value when the key is absent, in the file's own notation;
//	         without a default the key is required
//	min,max  closed range of allowed values, in the file's own notation
//	optional "yes" on a pointer to a section: nil when the key is absent
//	count    least..most characters of a text, or items of a list
//	us       value when the key is absent and the region is us, instead of default
//	names    the value is a name from this list of Names
//	form     "aims": see aims.Parse; "date": the text is empty or a calendar date YYYY-MM-DD; "values": empty or
//	         values of another key with commas between, see Choose
//	doc      one sentence for the schema, the starter brief and messages
type Brief struct {
	Format string `key:"armwright" choice:"brief/1" doc:"what this file is, and in which version"`
	Name   string `key:"name" count:"1..25" doc:"what the station is called on its drawings, at most 25 characters"`
	Asked
	Minimise string `key:"minimise" default:"length, width, misalignment, posture" count:"1..200" form:"aims" doc:"what the station is to have least of once it meets its limits: length, width, area (of the base), mass, misalignment (of elbow and machine), posture (of feet and upper arm), with commas between and a weight before those that do not count once: 2 length, mass; what is not named counts a hundredth"`
	Choose   Choose `key:"choose" doc:"what is left to the tool: for each a list of values, of which the cheapest that serves is taken"`
}

// Asked is the part of a brief that a frame carries too, so that a frame can
// be checked on its own.
type Asked struct {
	Kind       string     `key:"kind" choice:"arm-pad|reclined|cam-study" doc:"the posture of the user, or a study of the cam alone on a bench rig"`
	Region     string     `key:"region" choice:"iso|us" default:"iso" doc:"what absent keys stand for: millimetre stock, first angle and 5 kg plates, or inch stock, third angle, inch sheets and 10 lb plates"`
	People     People     `key:"people" doc:"who must fit"`
	Posture    Posture    `key:"posture" doc:"ranges within which the posture may be solved"`
	Resistance Resistance `key:"resistance" doc:"the resistance wanted"`
	Space      Space      `key:"space" doc:"the room the station may take"`
	Stock      Stock      `key:"stock" doc:"what it is built from"`
	Limits     Limits     `key:"limits" doc:"limit of each requirement"`
	Drawing    Drawing    `key:"drawing" doc:"how the sheets are laid out"`
}

// Range is a closed interval of a quantity, from <= to.
type Range struct {
	From float64 `key:"from"`
	To   float64 `key:"to"`
}

// People says who must fit.
type People struct {
	Population     string        `key:"population" default:"civilian" names:"populations" doc:"whose body sizes, see show people: shapes of the 2012 survey with civilian mass and girths or with the survey's own, or with statures and mass of the national survey at all ages from 20 or from 18 to 65; table for those of people.table; or the path of a CSV or YAML file of means, deviations and correlations"`
	Table          string        `key:"table" default:"" count:"0..6000" form:"population" doc:"own table of means with standard deviations and correlations: women stature 1620 mm 72 mm; women mass 76 kg 20 kg, stature 0.29; men stature 1758 mm 76 mm; men mass 89 kg 20 kg"`
	Women          float64       `key:"women" unit:"percent" default:"50 %" min:"0 %" max:"100 %" doc:"share of women among the users, for coverage"`
	Low            float64       `key:"low" unit:"percent" default:"5 %" min:"0.1 %" max:"49 %" doc:"smallest percentile of each dimension, of the women, that must fit"`
	High           float64       `key:"high" unit:"percent" default:"95 %" min:"51 %" max:"99.9 %" doc:"largest percentile of each dimension, of the men, that must fit"`
	Boundary       string        `key:"boundary" choice:"percentiles|ellipsoid" default:"percentiles" doc:"persons that a design must fit: those of the percentiles low and high, 25 of each sex, or of an ellipsoid that holds a share of the persons, 15 of each sex"`
	Share          float64       `key:"share" unit:"percent" default:"90 %" min:"10 %" max:"99.9 %" doc:"share of the persons that the ellipsoid holds"`
	Coverage       float64       `key:"coverage" unit:"percent" default:"0 %" min:"0 %" max:"99 %" doc:"least share of the random persons who must fit, beside all boundary persons; 0 % asks for none"`
	CoverageOf     string        `key:"coverage_of" choice:"all|women-and-men" default:"all" doc:"whether coverage is asked over all users, or of women and of men apart"`
	Sample         int           `key:"sample" default:"1000" min:"100" max:"100000" doc:"random persons drawn to estimate coverage"`
	Seed           int           `key:"seed" default:"1" min:"0" max:"1000000" doc:"seed of the random persons"`
	Age            float64       `key:"age" unit:"time" default:"30 y" min:"15 y" max:"83 y" doc:"age at which strength is estimated"`
	StrengthSpread float64       `key:"strength_spread" unit:"percent" default:"22 %" min:"0 %" max:"40 %" doc:"spread of strength among persons of one sex, age and size, standard deviation as a share of their mean: 26 % in two groups, of which sex, age and size explain a part (Tsunoda et al. 1993, Harbo et al. 2012)"`
	StrengthAt     float64       `key:"strength_percentile" unit:"percent" default:"50 %" min:"1 %" max:"99 %" doc:"where among those the persons stand whose strength sets loads: 50 % is the mean, 95 % asks the station to serve and to bear strong ones"`
	Carrying       CarryingAngle `key:"carrying_angle" doc:"carrying angle by sex, elbow straight and palm forward"`
	AxisShare      float64       `key:"axis_share" unit:"percent" default:"50 %" min:"0 %" max:"100 %" doc:"share of the carrying angle that is tilt of the elbow axis; the rest is valgus of the forearm. Measured change with flexion asks for 62 to 65 % (Van Roy et al. 2005), an arm model has 35 %, and the middle folds the forearm onto the upper arm"`
	GripRule       string        `key:"grip_rule" choice:"none|linear" default:"none" doc:"how grip rotation changes the apparent carrying angle: not at all, or 6 degrees less from full supination to full pronation"`
	Shoe           float64       `key:"shoe" unit:"length" default:"25 mm" min:"0 mm" max:"60 mm" doc:"height of a shoe under the foot"`
}

// CarryingAngle is mean and standard deviation by sex, rad.
type CarryingAngle struct {
	MenMean   float64 `key:"men_mean" unit:"angle" default:"11.6 deg" min:"0 deg" max:"25 deg" doc:"mean of men"`
	MenSD     float64 `key:"men_sd" unit:"angle" default:"3.2 deg" min:"0 deg" max:"8 deg" doc:"standard deviation of men"`
	WomenMean float64 `key:"women_mean" unit:"angle" default:"16.7 deg" min:"0 deg" max:"25 deg" doc:"mean of women"`
	WomenSD   float64 `key:"women_sd" unit:"angle" default:"2.6 deg" min:"0 deg" max:"8 deg" doc:"standard deviation of women"`
	Stature   float64 `key:"stature_correlation" default:"0" min:"-0.9" max:"0.9" doc:"correlation with stature within a sex; -0.47 is published for both sexes together, about -0.2 of it is left within one"`
	Sides     float64 `key:"side_difference" unit:"angle" default:"0 deg" min:"-6 deg" max:"6 deg" doc:"right less left: two studies find none, two find 0.7 and 0.9 to 1.6 degrees"`
}

// Posture gives the ranges within which the posture may be solved.
type Posture struct {
	PadSlope      Range   `key:"pad_slope" unit:"angle" default:"20 deg..60 deg" min:"0 deg" max:"80 deg" doc:"slope of the arm pad below horizontal (arm-pad posture)"`
	Lean          Range   `key:"lean" unit:"angle" default:"0 deg..20 deg" min:"0 deg" max:"45 deg" doc:"forward lean of the trunk from vertical (arm-pad posture)"`
	BackAngle     Range   `key:"back_angle" unit:"angle" default:"25 deg..50 deg" min:"5 deg" max:"75 deg" doc:"back pad from vertical, leaning back (reclined posture)"`
	ArmAngle      Range   `key:"arm_angle" unit:"angle" default:"60 deg..110 deg" min:"30 deg" max:"140 deg" doc:"slope of the upper arm below horizontal, measured from forward (reclined posture)"`
	PivotHeight   Range   `key:"pivot_height" unit:"length" default:"500 mm..1200 mm" min:"200 mm" max:"1600 mm" doc:"height of the pivots above the floor"`
	PivotSpacing  Range   `key:"pivot_spacing" unit:"length" default:"320 mm..560 mm" min:"200 mm" max:"800 mm" doc:"distance between the pivots"`
	SeatPitch     float64 `key:"seat_pitch" unit:"length" default:"20 mm" min:"5 mm" max:"60 mm" us:"3/4 in" doc:"distance between seat positions"`
	SeatPositions int     `key:"seat_positions" default:"14" min:"1" max:"40" doc:"most seat positions allowed"`
	AxisPositions int     `key:"axis_positions" default:"6" min:"1" max:"8" doc:"most axis positions allowed; the least that meets the hand-path limit is solved"`
	HandlePitch   float64 `key:"handle_pitch" unit:"length" default:"10 mm" min:"2 mm" max:"40 mm" us:"3/8 in" doc:"distance between handle positions along the arm"`
	FootPlate     string  `key:"foot_plate" choice:"none|steps" default:"none" doc:"feet on the floor, reported only, or on a foot plate in steps that is solved"`
	FootPitch     float64 `key:"foot_pitch" unit:"length" default:"50 mm" min:"20 mm" max:"150 mm" us:"2 in" doc:"distance between heights of the foot plate"`
	GripRotation  float64 `key:"grip_rotation" unit:"angle" default:"60 deg" min:"-80 deg" max:"90 deg" doc:"forearm rotation the handle asks for: 0 neutral, 90 full supination"`
	LiftingTurn   float64 `key:"lifting_turn" unit:"angle" default:"0 deg" min:"0 deg" max:"15 deg" doc:"how far the upper arm may turn about its own length while it lifts, either way, to keep hand and handle together; 0 is the strict side (judgement), 5 what an elbow's axis wanders by itself"`
}

// Resistance says what resistance is wanted.
type Resistance struct {
	Drive        string  `key:"drive" choice:"cam|lever|linkage" default:"cam" doc:"cam with cable and weight stack, plate-loaded lever, or plate-loaded lever driven by a four-bar linkage"`
	Curve        string  `key:"curve" default:"model-three" names:"curves" doc:"name of the strength curve whose shape the torque follows, see show curves; table for the one in curve_table; or the path of a CSV file"`
	CurveTable   string  `key:"curve_table" default:"" count:"0..6000" form:"curve" doc:"own curve as pairs of flexion and strength in any one unit: 15 deg 41, 30 deg 46, 60 deg 52, 105 deg 43"`
	Shoulder     float64 `key:"shoulder" unit:"angle" default:"0 deg" min:"0 deg" max:"90 deg" doc:"shoulder flexion at which the muscle models are computed; 0 is the arm at the side"`
	Loaded       Range   `key:"loaded" unit:"angle" default:"5 deg..130 deg" min:"-5 deg" max:"145 deg" doc:"elbow flexion over which the torque is matched"`
	Stack        string  `key:"stack" choice:"shared|pair" default:"shared" doc:"one weight stack for both arms' cables, with a floating sheave, or a stack for each arm (cam)"`
	Load         Loads   `key:"load" doc:"mass lifted: the stack's for a cam, each stack's where there is a pair, one arm's plates for a lever or a linkage"`
	Torque       Range   `key:"torque" unit:"torque" default:"0 N m..0 N m" min:"0 N m" max:"300 N m" us:"0 lbf ft..0 lbf ft" doc:"torque of one elbow, at the curve's peak, that the loads must reach from and to: the light load no more than the first, the heavy load no less than the second; 0 to 0 leaves it to the loads and the strongest person"`
	Step         float64 `key:"step" unit:"mass" default:"2.5 kg" min:"0.1 kg" max:"20 kg" us:"5 lb" doc:"smallest step of the load: an add-on on the stack's head, or the smallest plates; told where it is felt most, at the light end"`
	Forearm      string  `key:"forearm" choice:"told|counted" default:"told" doc:"whether the weight of the middle user's forearm and hand, which the muscle lifts too, is told beside the torque or counted in it when it is matched to the curve"`
	Efficiency   float64 `key:"efficiency" unit:"percent" default:"97 %" min:"80 %" max:"100 %" doc:"efficiency of one sheave"`
	Cadence      float64 `key:"cadence" default:"15" min:"0" max:"60" doc:"repetitions a minute at which inertia is reckoned, up and down alike"`
	Eccentric    float64 `key:"eccentric" unit:"mass" default:"0 kg" min:"0 kg" max:"40 kg" doc:"heaviest eccentric weight that one arm may carry to help the cam; 0 for none"`
	Counter      string  `key:"counterweight" choice:"as-needed|none|balance|curve" default:"as-needed" doc:"counterweight of an arm: in quarters of full balance the least with which the torque follows the curve; none; one that balances the empty arm at every angle; or the lightest after which the empty arm's moment follows the curve"`
	Sheaves      int     `key:"sheaves" default:"5" min:"0" max:"12" doc:"sheaves between cam and stack over which the cable runs; the route drawn has 5, and a floating one that stands still while both arms move alike"`
	LeastArm     float64 `key:"least_arm" unit:"length" default:"30 mm" min:"10 mm" max:"200 mm" doc:"smallest cable moment arm of a cam"`
	GreatestArm  float64 `key:"greatest_arm" unit:"length" default:"150 mm" min:"20 mm" max:"400 mm" doc:"largest cable moment arm of a cam"`
	Ratio        Range   `key:"ratio" default:"1..2" min:"0.5" max:"2.6" doc:"cam turn per arm turn that may be used; 1 is a cam on the arm shaft"`
	SheaveRadius float64 `key:"sheave_radius" unit:"length" default:"48 mm" min:"10 mm" max:"150 mm" us:"1 7/8 in" doc:"radius of the guide sheave to the cable centre"`
	Side         string  `key:"side" choice:"open|crossed" default:"open" doc:"cable on the same side of cam and guide sheave, or crossing between them"`
	LeverRadius  Range   `key:"lever_radius" unit:"length" default:"150 mm..450 mm" min:"50 mm" max:"800 mm" doc:"distance of the plates from the shaft they turn about (lever or linkage)"`
}

// Loads are the masses at which the torque is evaluated, light < middle < heavy.
type Loads struct {
	Light  float64 `key:"light" unit:"mass" min:"1 kg" max:"400 kg" doc:"lightest useful load"`
	Middle float64 `key:"middle" unit:"mass" min:"1 kg" max:"400 kg" doc:"load at which the shape is matched"`
	Heavy  float64 `key:"heavy" unit:"mass" min:"1 kg" max:"400 kg" doc:"heaviest load"`
}

// Space is the room the station may take, outside sizes, users' limbs not counted.
type Space struct {
	Length float64 `key:"length" unit:"length" default:"2000 mm" min:"600 mm" max:"5000 mm" doc:"front to back"`
	Width  float64 `key:"width" unit:"length" default:"1500 mm" min:"400 mm" max:"4000 mm" doc:"side to side"`
	Height float64 `key:"height" unit:"length" default:"2000 mm" min:"600 mm" max:"4000 mm" doc:"floor to top"`
	Anchor string  `key:"anchored" choice:"no|yes" default:"no" doc:"whether the feet are bolted to the floor; if so the tilts are told but not asked for, and the anchors' pull is given"`
	Push   float64 `key:"push" unit:"force" default:"200 N" min:"0 N" max:"1000 N" doc:"push against the empty station, level and at the highest place a hand reaches, that must not tip it"`
}

// Stock says what the station is built from; the names are those of show stock.
type Stock struct {
	Member        string  `key:"member" default:"60x60x3" names:"members" us:"2.5x2.5x0.125in" doc:"tube of uprights, base and crossbar"`
	Steel         string  `key:"steel" choice:"S235|S275|S355|A500-B|A500-C" default:"S235" us:"A500-B" doc:"grade of the tubes"`
	Cable         string  `key:"cable" default:"7x19-4" names:"cables" us:"7x19-5/32in" doc:"construction and diameter of the cable"`
	BendRule      string  `key:"bend_rule" choice:"least|desirable" default:"least" doc:"which of the two published tread ratios D/d the cable must keep"`
	Transmission  string  `key:"transmission" choice:"belt|chain" default:"belt" doc:"what drives a cam's countershaft: toothed belt of 8 mm pitch or roller chain 08B, in region us number 40"`
	Shaft         float64 `key:"shaft" unit:"length" default:"25 mm" min:"12 mm" max:"60 mm" us:"1 in" doc:"diameter of the pivot shaft"`
	Bearing       string  `key:"bearing" default:"UC205" names:"bearings" us:"UC205-16" doc:"bearing insert of the pivots"`
	CamPlate      float64 `key:"cam_plate" unit:"length" default:"12 mm" min:"4 mm" max:"40 mm" us:"1/2 in" doc:"thickness of the plate that a cam or a linkage's bars are cut from"`
	CamLightening string  `key:"cam_lightening" choice:"no|yes" default:"no" doc:"round holes in the cam plate where there is room, the web between them and the groove kept"`
	Hub           string  `key:"hub" choice:"bolted|keyway|clamp" default:"bolted" doc:"how a cam sits on its shaft: bolted to a hub on a key, on a key that reaches through its plates too, or on a split hub that a screw clamps"`
	MaxUser       float64 `key:"max_user" unit:"mass" default:"150 kg" min:"60 kg" max:"300 kg" doc:"heaviest user the station is rated for"`
}

// Limits holds the limit of each requirement. The key of a limit is the
// requirement's id with underscores.
type Limits struct {
	AxisOffset       float64 `key:"axis_offset" unit:"length" default:"15 mm" min:"1 mm" max:"60 mm" doc:"distance of the elbow axis from the machine axis"`
	AxisTilt         float64 `key:"axis_tilt" unit:"angle" default:"5 deg" min:"0.5 deg" max:"30 deg" doc:"angle between the elbow axis and the machine axis"`
	HandPath         float64 `key:"hand_path" unit:"length" default:"15 mm" min:"1 mm" max:"100 mm" doc:"largest distance between the hand's path and the handle's path"`
	Abduction        float64 `key:"abduction" unit:"angle" default:"25 deg" min:"1 deg" max:"60 deg" doc:"sideways angle of the upper arm"`
	HipOnSeat        float64 `key:"hip_on_seat" unit:"length" default:"0 mm" min:"-50 mm" max:"100 mm" doc:"how far inside the seat the hip must be"`
	PadCover         float64 `key:"pad_cover" unit:"length" default:"0 mm" min:"-60 mm" max:"60 mm" doc:"width of the arm pad beyond either side of the upper arm that lies on it"`
	BellyGap         float64 `key:"belly_gap" unit:"length" default:"10 mm" min:"-30 mm" max:"150 mm" doc:"gap between trunk and pad or post"`
	KneeGap          float64 `key:"knee_gap" unit:"length" default:"20 mm" min:"0 mm" max:"200 mm" doc:"gap between thigh or knee and the moving hand"`
	FootGap          float64 `key:"foot_gap" unit:"length" default:"60 mm" min:"0 mm" max:"300 mm" doc:"sole above or below the nearest step of the foot plate, or above the floor; asked only with a foot plate"`
	HandleReach      float64 `key:"handle_reach" unit:"length" default:"8 mm" min:"1 mm" max:"60 mm" doc:"distance from the grip to the nearest handle position along the arm"`
	GripRotation     float64 `key:"grip_rotation" unit:"angle" default:"87 deg" min:"10 deg" max:"110 deg" doc:"forearm rotation that may be asked for"`
	TorqueMatch      float64 `key:"torque_match" unit:"percent" default:"6 %" min:"0.1 %" max:"60 %" doc:"rms difference of delivered and wanted torque, share of the peak"`
	TorqueSwing      float64 `key:"torque_swing" unit:"percent" default:"6 %" min:"0.1 %" max:"60 %" doc:"by how much more the torque may miss the curve in another axis position than in the middle one, rms, share of the peak"`
	CableFactor      float64 `key:"cable_factor" default:"6" min:"1" max:"20" doc:"breaking load of the cable over its greatest tension"`
	StackTravel      float64 `key:"stack_travel" unit:"length" default:"600 mm" min:"50 mm" max:"2000 mm" doc:"travel of the weight stack"`
	FleetAngle       float64 `key:"fleet_angle" unit:"angle" default:"1.5 deg" min:"0.1 deg" max:"5 deg" doc:"angle of the cable to a sheave's plane"`
	TiltEmpty        float64 `key:"tilt_empty" unit:"angle" default:"10 deg" min:"0 deg" max:"40 deg" doc:"tilt at which the empty station tips"`
	TiltOccupied     float64 `key:"tilt_occupied" unit:"angle" default:"10 deg" min:"0 deg" max:"40 deg" doc:"tilt at which the occupied station tips"`
	TiltEntry        float64 `key:"tilt_entry" unit:"angle" default:"2 deg" min:"0 deg" max:"40 deg" doc:"tilt left while somebody gets on or pushes"`
	Contact          float64 `key:"contact" unit:"percent" default:"100 %" min:"0 %" max:"100 %" doc:"part of the load within a person's strength that contacts which only push can hold"`
	SeatLoad         float64 `key:"seat_load" unit:"percent" default:"10 %" min:"-100 %" max:"90 %" doc:"least share of body weight that stays on the seat"`
	CrushGap         float64 `key:"crush_gap" unit:"length" default:"25 mm" min:"4 mm" max:"500 mm" doc:"gap between moving and fixed parts"`
	EntryGap         float64 `key:"entry_gap" unit:"percent" default:"100 %" min:"0 %" max:"300 %" doc:"gap where a hand or foot can enter, share of the least gap of ISO 13854"`
	BodyGap          float64 `key:"body_gap" unit:"length" default:"0 mm" min:"0 mm" max:"200 mm" doc:"gap between the moving arm with its grip and the user's trunk, head and thighs"`
	FrameClear       float64 `key:"frame_clear" unit:"length" default:"0 mm" min:"0 mm" max:"50 mm" doc:"room that parts have beyond what making and moving them takes"`
	BodyFrame        float64 `key:"body_frame" unit:"length" default:"0 mm" min:"-20 mm" max:"100 mm" doc:"gap between a seated body and all that it is not meant to touch"`
	MemberStress     float64 `key:"member_stress" unit:"percent" default:"100 %" min:"10 %" max:"200 %" doc:"stress under factored load, share of the yield strength"`
	MemberDeflection float64 `key:"member_deflection" unit:"percent" default:"0.67 %" min:"0.05 %" max:"5 %" doc:"deflection, share of the member's free length"`
	BearingStatic    float64 `key:"bearing_static" default:"2" min:"0.5" max:"10" doc:"static load rating over the greatest bearing load"`
}

// Drawing says how the sheets are laid out.
type Drawing struct {
	Units      string `key:"units" choice:"mm|in|in-mm" default:"mm" us:"in" doc:"unit of the dimensions on the sheets; in-mm adds millimetres in square brackets"`
	Projection string `key:"projection" choice:"first|third" default:"first" us:"third" doc:"first-angle or third-angle views"`
	Owner      string `key:"owner" default:"" count:"0..60" doc:"legal owner in the title block"`
	Creator    string `key:"creator" default:"" count:"0..20" doc:"creator in the title block, at most 20 characters"`
	Approver   string `key:"approver" default:"" count:"0..20" doc:"approval person in the title block, at most 20 characters"`
	Date       string `key:"date" default:"" form:"date" doc:"date of issue as YYYY-MM-DD; left empty it stays empty, the tool never asks the clock"`
	Number     string `key:"number" default:"" count:"0..16" doc:"identification number, at most 16 characters"`
	Revision   string `key:"revision" default:"" count:"0..2" doc:"revision index, at most 2 characters"`
	Tolerance  string `key:"tolerance" choice:"f|m|c|v" default:"m" doc:"general tolerance class of ISO 2768-1"`
	Prices     string `key:"prices" default:"" count:"0..6000" form:"prices" doc:"own price list: names as tables/purchase.csv tells them, or words of them, each with its price, separated by semicolons: tube 60x60x3 42.50; ISO 4017 M8 x 25 0.12"`
}

// Choose lists values that the tool may choose among, in place of the one value
// that the brief gives elsewhere. A text is empty, which leaves the brief's own
// value alone; the values with commas between; or Any.
type Choose struct {
	Member        string `key:"member" default:"" count:"0..600" form:"values" doc:"tubes to choose among, names with commas between, or any for all of stock; empty to take stock.member"`
	Cable         string `key:"cable" default:"" count:"0..600" form:"values" doc:"cables to choose among, names with commas between, or any for all of stock; empty to take stock.cable"`
	SheaveRadius  string `key:"sheave_radius" default:"" count:"0..200" form:"values" doc:"radii of the guide sheave to choose among, as 40 mm, 48 mm; empty to take resistance.sheave_radius"`
	SeatPositions string `key:"seat_positions" default:"" count:"0..200" form:"values" doc:"most seat positions to choose among, as 8, 12, 16; empty to take posture.seat_positions"`
	SeatPitch     string `key:"seat_pitch" default:"" count:"0..200" form:"values" doc:"distances of the seat positions to choose among, as 20 mm, 30 mm; empty to take posture.seat_pitch"`
	HandlePitch   string `key:"handle_pitch" default:"" count:"0..200" form:"values" doc:"distances of the handle positions to choose among, as 10 mm, 20 mm; empty to take posture.handle_pitch"`
}

const (
	CurveTable = "table" // name of the curve that a brief brings along itself
	regionUS   = "us"    // region of inch stock, third angle and plates in pounds
)

// Aims are what the brief asks for the least of; those of a brief that says nothing
// where its text cannot be read, which a parsed brief's always can.
func (b *Brief) Aims() []aims.Aim {
	if list, err := aims.Parse(b.Minimise); err == nil {
		return list
	}
	list, err := aims.Parse(aims.Default)
	if err != nil {
		panic("specs: " + err.Error())
	}
	return list
}
