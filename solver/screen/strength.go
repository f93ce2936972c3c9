package screen

import (
	"strings"

	"armwright/geometry/station/values"
	"armwright/solver/require"
)

// StrengthCheck is one part under its factored load.
type StrengthCheck struct {
	ID      string // requirement it counts under, "" when it is only told
	Part    require.Phrase
	What    require.Phrase
	Value   float64
	Limit   float64
	Unit    string // "%" of a strength or length as a fraction of one, "" a plain ratio
	AtLeast bool
	Met     bool
	Person  string
	Source  string
	Mark    string
}

const (
	// loadFactor on the working load (EN 957-2 5.2, M).
	loadFactor = 2.5
	// dynamicFactor on what the lifted load puts into the drive (EN 957-2 5.2, M).
	dynamicFactor = 1.5
	// seatAside is how far off the seat post a user may sit, mm (judgement).
	seatAside = 150.0
	// gripPull along a grip, N (ASTM F2571, second hand).
	gripPull = 90.0
	// boltStrength is the tensile strength of bolts of class 8.8, N/mm², and
	// boltPartial the partial factor (EN 1993-1-8 table 3.4, M).
	boltStrength, boltPartial = 800.0, 1.25
	// unbuilt is the share told of every part of a station of which nothing can be
	// built.
	unbuilt = 10.0
)

// strain is one thing that is screened.
type strain int

const (
	postFoot strain = iota
	postLeaned
	postWeld
	postWall
	railBent
	stubRoot
	stubWeld
	indexWeld
	indexBent
	clampBolts
	indexPinShear
	soleBent
	cheekBent
	cheekWeld
	shaftInner
	shaftOuter
	secondShaft
	couplerPins
	barWelds
	padTube
	padWeld
	padWall
	padFace
	saddleFace
	saddleWeld
	saddleWall
	chestRiser
	chestWeld
	chestBar
	chestTabWeld
	chestPin
	backStrut
	backWeld
	sleeveFoot
	seatPostBent
	seatPinShear
	armRoot
	hubWeld
	gripBent
	gripWeld
	handlePinShear
	sheaveAxles
	sheaveStems
	stemWelds
	guideStemBent
	guidePostFoot
	guidePostWeld
	towerUpright
	towerTop
	rodBarBent
	postSway
	padSway
	armBearing
	driveBearing
	secondBearing
	bearingBolts
	stopBar
	stopBuffer
	stackBuffer
	strains
)

// kind is what a strain's value is.
type kind int8

const (
	asShare kind = iota // of a strength or a length
	asRatio             // of a strength to its load, at least
)

// who governs a strain.
type governor int8

const (
	machine   governor = iota // nobody: the load itself, or the rated user
	byFoot                    // who bends the post's foot the most
	byBracket                 // who loads the swivel bracket the most
	byHand                    // who pulls the most
)

// only tells which stations have the part.
type only int8

const (
	always only = iota
	reclined
	upright
	withSeat
	withChest
	withBack
	withSecond
	withLinkage
	withBars // a lever or a linkage
	withStack
)

func (o only) of(v *values.Station) bool {
	switch o {
	case reclined:
		return v.Reclined
	case upright:
		return !v.Reclined
	case withSeat:
		return v.Seat.Positions > 0
	case withChest:
		return v.Chest.Positions > 0
	case withBack:
		return v.HasBack()
	case withSecond:
		return v.Second != nil
	case withLinkage:
		return v.Drive == values.LinkageDrive
	case withBars:
		return v.Drive == values.LinkageDrive || v.Drive == values.LeverDrive
	case withStack:
		return v.HasStack()
	}
	return true
}

// subject tells of a strain.
type subject struct {
	id, part, what string // where what has a %s, it is the size that goes with the strain
	source, mark   string
	kind           kind
	by             governor
	only           only
}

const (
	ofYield  = "2.5 times the load (EN 957-2 5.2); yield strength of the grade"
	ofDrive  = "2.5 times the load, what is lifted 1.5 times as much (EN 957-2 5.2); yield strength of the grade"
	ofWeld   = "EN 1993-1-8 simplified method, gamma M2 1.25"
	ofBolt   = "EN 1993-1-8 table 3.4"
	ofWall   = "shear of the wall along the weld, yield strength over root 3"
	ofChord  = "EN 1993-1-8 tables 7.11 and 7.14"
	ofPin    = "shear to yield strength over root 3, bearing to 1.5 times it (EN 1993-1-8 3.13)"
	ofStatic = "ISO 76, oscillating pivots"
	ofSway   = "judgement: 1/150"
	ofDrop   = "judgement: rubber of 4 N/mm², shape factor; energy of the fall into the buffer"
	stress   = "member-stress"
	sway     = "member-deflection"
	static   = "bearing-static"
)

// screened are all strains, in the order in which they are told: from the posts to
// the tower. It never changes.
var screened = [strains]subject{
	postFoot:       {stress, "pivot post at the base", "bending both ways with torsion, lifting", ofYield, "M", asShare, byFoot, always},
	postLeaned:     {stress, "pivot post at the base", "heaviest user leaning on one pad", ofYield, "M", asShare, machine, always},
	postWeld:       {stress, "weld at the pivot post's foot", "throat of %s all round", ofWeld, "S", asShare, byFoot, always},
	postWall:       {stress, "side walls of the rail under the pivot post", "crushing, walls of %s", ofChord, "M", asShare, byFoot, always},
	railBent:       {stress, "base rail at the pivot post", "bending between the feet with torsion", ofYield, "M", asShare, byFoot, always},
	stubRoot:       {stress, "pivot stub at the post", "bending both ways with torsion", ofYield, "M", asShare, byFoot, reclined},
	stubWeld:       {stress, "weld of the pivot stub on the post", "throat of %s all round", ofWeld, "S", asShare, byFoot, reclined},
	indexWeld:      {stress, "weld of the index plate", "throat of %s all round", ofWeld, "S", asShare, byBracket, always},
	indexBent:      {stress, "index plate at the post", "bending under a clamp bolt with torsion", ofYield, "M", asShare, byBracket, always},
	clampBolts:     {stress, "clamp bolts of the swivel, M%s 8.8", "pull with shear, share of the strength", ofBolt, "M", asShare, byBracket, always},
	indexPinShear:  {stress, "pull pin of the swivel", "shear, diameter %s", ofPin, "M", asShare, byBracket, always},
	soleBent:       {stress, "swivel sole at the cheeks", "bending under the clamp bolts", ofYield, "M", asShare, byBracket, always},
	cheekBent:      {stress, "cheeks at the sole", "bending across, bearings beside the plate", ofDrive, "M", asShare, machine, always},
	cheekWeld:      {stress, "welds of the cheeks on the sole", "throat of %s", ofWeld, "S", asShare, byBracket, always},
	shaftInner:     {stress, "pivot shaft", "bending with torsion at the bearing next to the arm", ofYield, "M", asShare, byHand, always},
	shaftOuter:     {stress, "pivot shaft", "bending with torsion at the bearing next to the drive", ofDrive, "M", asShare, machine, always},
	secondShaft:    {stress, "second shaft", "bending with torsion at the bearing next to the drive", ofDrive, "M", asShare, machine, withSecond},
	couplerPins:    {stress, "coupler pins", "bending, coupler beside its bar", ofDrive, "M", asShare, machine, withLinkage},
	barWelds:       {stress, "welds of the bars on their hubs", "throat of %s all round", ofWeld, "S", asShare, machine, withBars},
	padTube:        {stress, "arm pad bracket at the post", "heaviest user leaning on one pad", ofYield, "M", asShare, machine, always},
	padWeld:        {stress, "weld of the arm pad bracket", "throat of %s all round", ofWeld, "S", asShare, machine, always},
	padWall:        {"", "wall of the stub at the arm pad bracket", "shear along the weld, wall of %s, index plate left out", ofWall, "own", asShare, machine, reclined},
	padFace:        {"", "face of the stub at the arm pad bracket", "yield lines of a face of %s, index plate left out", ofChord, "M", asShare, machine, reclined},
	saddleFace:     {stress, "saddle plate under the arm pad bracket", "yield lines of a plate of %s", ofChord, "M", asShare, machine, upright},
	saddleWeld:     {stress, "weld of the saddle plate", "throat of %s all round", ofWeld, "S", asShare, machine, upright},
	saddleWall:     {stress, "walls under the saddle plate", "shear along the weld and crushing, walls of %s", ofChord, "M", asShare, machine, upright},
	chestRiser:     {stress, "chest pad's riser", "heaviest user leaning on the pad with half the weight", ofYield, "M", asShare, machine, withChest},
	chestWeld:      {stress, "joint of the riser on the chest pad's crossbar", "throat of %s all round, and the face under it", ofChord, "M", asShare, machine, withChest},
	chestBar:       {stress, "chest pad's crossbar", "bending with torsion, half the heaviest user's weight on the pad", ofYield, "M", asShare, machine, withChest},
	chestTabWeld:   {stress, "welds of the chest pad's tabs", "throat of %s, half the heaviest user's weight on the pad", ofWeld, "S", asShare, machine, withChest},
	chestPin:       {stress, "pull pin of the chest pad", "shear and bearing, diameter %s", ofPin, "M", asShare, machine, withChest},
	backStrut:      {"", "back pad's strut at the base", "heaviest user's weight on the middle of the pad", ofYield, "M", asShare, machine, withBack},
	backWeld:       {"", "weld of the back pad's strut", "throat of %s all round", ofWeld, "S", asShare, machine, withBack},
	sleeveFoot:     {stress, "seat sleeve at the base", "heaviest user %s off centre", ofYield, "M", asShare, machine, withSeat},
	seatPostBent:   {stress, "seat post at the sleeve", "heaviest user %s off centre", ofYield, "M", asShare, machine, withSeat},
	seatPinShear:   {stress, "pull pin of the seat", "shear and bearing, diameter %s", ofPin, "M", asShare, machine, withSeat},
	armRoot:        {stress, "arm tube at the hub", "bending both ways with torsion", ofYield, "M", asShare, byHand, always},
	hubWeld:        {stress, "weld of the arm on its hub", "throat of %s all round", ofWeld, "S", asShare, byHand, always},
	gripBent:       {stress, "grip bar at the slide", "bending under the hand", ofYield, "M", asShare, byHand, always},
	gripWeld:       {stress, "weld of the grip bar", "throat of %s", ofWeld, "S", asShare, byHand, always},
	handlePinShear: {stress, "locking pin of the handle", "shear and bearing, hand pulling along the arm, diameter %s", ofPin, "M", asShare, byHand, always},
	sheaveAxles:    {stress, "sheave axles", "bending under the cable", ofDrive, "M", asShare, machine, withStack},
	sheaveStems:    {stress, "sheave stems", "bending under the cable", ofDrive, "M", asShare, machine, withStack},
	stemWelds:      {stress, "welds of the sheave stems", "throat of %s all round", ofWeld, "S", asShare, machine, withStack},
	guideStemBent:  {stress, "guide sheave's hollow stem", "bending under the cable", ofDrive, "M", asShare, machine, withStack},
	guidePostFoot:  {stress, "guide sheave's post at its plate", "bending both ways with torsion", ofDrive, "M", asShare, machine, withStack},
	guidePostWeld:  {stress, "weld at the guide post's foot", "throat of %s all round", ofWeld, "S", asShare, machine, withStack},
	towerUpright:   {stress, "tower upright at the base", "cable's pull, with the raised stack leaning at 10 deg", ofDrive, "own", asShare, machine, withStack},
	towerTop:       {stress, "tower top", "bending under the sheaves", ofDrive, "M", asShare, machine, withStack},
	rodBarBent:     {stress, "guide rod bar behind its notch", "raised stack leaning at 10 deg", ofDrive, "own", asShare, machine, withStack},
	postSway:       {sway, "pivot post", "share of the free length", ofSway, "own", asShare, byFoot, always},
	padSway:        {sway, "arm pad bracket", "heaviest user leaning on it, share of the free length", ofSway, "own", asShare, machine, always},
	armBearing:     {static, "pivot bearing next to the arm", "static rating over the load", ofStatic, "M", asRatio, machine, always},
	driveBearing:   {static, "pivot bearing next to the drive", "static rating over the load", ofStatic, "M", asRatio, machine, always},
	secondBearing:  {static, "second shaft's bearings", "static rating over the load", ofStatic, "M", asRatio, machine, withSecond},
	bearingBolts:   {"", "bolts of a bearing housing, M%s 8.8", "pull with shear, share of the strength", ofBolt, "M", asShare, machine, always},
	stopBar:        {"", "stop at flexion 0", "load let fall by %s", ofDrop, "own", asShare, machine, always},
	stopBuffer:     {"", "buffer of the stop at flexion 0", "compression, load let fall by %s, share of its length", ofDrop, "own", asShare, machine, always},
	stackBuffer:    {"", "buffers under the stack", "compression, stack let fall by %s, share of their length", ofDrop, "own", asShare, machine, withStack},
}

// screening is the outcome of one station: a value of each strain that it has, and a
// size to tell with it.
type screening struct {
	value [strains]float64
	size  [strains]float64 // mm
	who   [byHand + 1]int  // by governor, -1 for nobody
	beams frameLoads
}

// title and how tell of a strain with its size, mm.
func (q *subject) title(size float64) require.Phrase { return sized(q.part, "", size) }
func (q *subject) how(size float64) require.Phrase   { return sized(q.what, "mm", size) }

func sized(words, unit string, size float64) require.Phrase {
	if !strings.Contains(words, "%s") {
		return require.Name(words)
	}
	return require.Phrase{Words: words, Figures: []require.Figure{{Value: size, Unit: unit}}}
}

// frameLoads are the working loads of the tubes that are all of one section, and the
// free length of the posts.
type frameLoads struct {
	post, leaned, rail, stub, sleeve beam
	high                             float64
}
