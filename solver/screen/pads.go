package screen

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/balance"

	"gonum.org/v1/gonum/spatial/r3"
)

// chestShare is the part of the heaviest user's weight that is taken to lean on the chest
// pad, level: judgement. What holds the boundary persons of the examples asks for up to
// 670 N there (docs/balance.md), half of 150 kg is 736 N.
const chestShare = 0.5

// chest screens what carries the chest pad under the heaviest user leaning forward on it:
// the push goes through slide, sleeve and riser into the crossbar, which it bends and
// twists, and by the cheeks' tabs into both arm pad brackets.
func (s *Screen) chest(r *rig, out *screening) {
	if r.index[aChestRiser] < 0 {
		return
	}
	yield, push := s.Steel.Yield, chestShare*s.ratedUser()*balance.G
	arm := &s.Arm
	share := func(b beam) float64 { return loadFactor * b.tube(arm) / yield }
	high := r.from(aChestSlide).Z
	riser, bar := r.from(aChestRiser), r.from(aChestBar)
	root := beam{strong: push * (high - riser.Z), across: push}
	out.value[chestRiser] = share(root)
	weld := r.weld(aChestRiser, aChestBar)
	out.size[chestWeld] = weld.Throat
	out.value[chestWeld] = max(s.welded(loadFactor*root.ring(arm.H, arm.B), weld.Throat), loadFactor*root.joint(arm, arm, yield))

	// Each half carries half the push, at its end on a cheek.
	half := r.long(aChestBar) / 2
	out.value[chestBar] = share(beam{weak: push / 2 * half, twist: push / 2 * (high - bar.Z), across: push / 2})

	// A tab's runs along its bracket, a tab's height apart, take the push across them and
	// its moment as a couple.
	tab := r.part(aChestTab)
	weld = r.weld(aChestTab, aPadBracket)
	lever := high - tab.Centre.Z + r.pivot.Z
	flow := math.Hypot(push/2/weld.Run, push/2*lever/tab.Stock.Size[1]/(weld.Run/2))
	out.size[chestTabWeld] = weld.Throat
	out.value[chestTabWeld] = s.welded(loadFactor*flow, weld.Throat)

	pin := r.slide(aChestSlide, aChestSleeve)
	out.size[chestPin] = pin
	out.value[chestPin] = sheared(loadFactor*push, pin, 2, 2*min(arm.T, s.Slide.T), yield)
}

// back screens the back pad's strut under the heaviest user's whole weight square to the
// middle of the pad: judgement, a user who throws himself back.
func (s *Screen) back(r *rig, out *screening) {
	strut, board := r.part(aBackStrut), r.part(aBackBoard)
	if strut == nil || board == nil {
		return
	}
	push, up := s.ratedUser()*balance.G, strut.Place.Z
	b := beam{strong: push * r3.Dot(r3.Sub(board.Centre, strut.Place.Origin), up), across: push}
	out.value[backStrut] = loadFactor * b.tube(&s.Member) / s.Steel.Yield
	weld := r.firstWeld(aBackStrut)
	out.size[backWeld] = weld.Throat
	out.value[backWeld] = s.welded(loadFactor*b.ring(s.Member.H/up.Z, s.Member.B), weld.Throat) // cut level
}

// firstWeld is that by which a part was joined to what carries it.
func (r *rig) firstWeld(at place) assembly.Detail {
	for i := range r.Assembly.Joints {
		if j := &r.Assembly.Joints[i]; j.Kind == assembly.Weld && (j.A == r.index[at] || j.B == r.index[at]) {
			return j.Detail
		}
	}
	return assembly.Detail{}
}
