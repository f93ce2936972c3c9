package shoplist_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"armwright/export/partlist"
	"armwright/export/shoplist"
	"armwright/export/stationtest"
	"armwright/geometry/assembly"
)

var frames = []string{"arm-pad-station", "reclined-levers", "reclined-linkage"}

// What the station is put together from weighs what it does in the balance; what a
// weldment is welded of weighs what the weldment does; each side has its own lines, and
// as much on the left as on the right; each part is counted once.
func TestTree(t *testing.T) {
	for _, name := range frames {
		r := stationtest.Result(t, name)
		a := r.Station.Assembly
		nodes := shoplist.Tree(r)
		sum, pieces := 0.0, 0
		side := map[string]float64{}
		for i, n := range nodes {
			if n.Level == 0 {
				if math.Abs(n.Mass-a.Mass()) > 1e-9 {
					t.Errorf("%s: %g kg, the assembly %g", name, n.Mass, a.Mass())
				}
				continue
			}
			if n.Level == 1 && n.Kind != "fastener" {
				sum += n.Mass * float64(n.Count)
			}
			if n.Kind == "part" || n.Kind == "bought" {
				pieces += n.Count
				side[n.Side] += n.Mass * float64(n.Count)
			}
			if n.Kind == "weldment" {
				inside := 0.0
				for _, m := range nodes[i+1:] {
					if m.Level <= n.Level {
						break
					}
					if m.Level == n.Level+1 {
						inside += m.Mass * float64(m.Count)
					}
				}
				if math.Abs(inside-n.Mass) > 1e-9 {
					t.Errorf("%s: weldment %s weighs %g kg, what it is welded of %g", name, n.Number, n.Mass, inside)
				}
			}
		}
		if math.Abs(sum-a.Mass()) > 1e-9 {
			t.Errorf("%s: level 1 weighs %g kg, the assembly %g", name, sum, a.Mass())
		}
		if want := len(a.Parts) + len(a.Flexible); pieces != want {
			t.Errorf("%s: %d pieces, want %d", name, pieces, want)
		}
		if side["right"] == 0 || math.Abs(side["right"]-side["left"]) > 1e-9 {
			t.Errorf("%s: %g kg on the right, %g on the left", name, side["right"], side["left"])
		}
	}
}

// Everything in the parts list is bought in one way: its stock as bars or plates, or
// itself. Bars are as many as the pieces need at least, and no more than twice that.
func TestPurchases(t *testing.T) {
	for _, name := range frames {
		r := stationtest.Result(t, name)
		list := shoplist.Purchases(r)
		in := map[string]int{}
		mass := 0.0
		for _, p := range list {
			if p.Quantity <= 0 || p.Order == "" || p.Unit == "" {
				t.Errorf("%s: %+v", name, p)
			}
			for _, item := range strings.Fields(p.Items) {
				in[item]++
			}
			if p.What != "fastener" {
				mass += p.Mass
			}
		}
		need := map[string]float64{}
		for _, l := range partlist.Of(r) {
			if in[strconv.Itoa(l.Item)] != 1 {
				t.Errorf("%s: item %d, %s, is bought %d times", name, l.Item, l.Title, in[strconv.Itoa(l.Item)])
			}
			if l.Bar != "" {
				need[l.Bar] += l.Length * float64(l.Count)
			}
			if l.Form == assembly.Tube && l.Bar == "" {
				t.Errorf("%s: no bar for %s", name, l.Title)
			}
		}
		if want := r.Station.Assembly.Mass(); math.Abs(mass-want) > 1e-6 {
			t.Errorf("%s: %g kg are bought, the station weighs %g", name, mass, want)
		}
		bar := 6000.0
		if r.Frame.Drawing.Units != "mm" {
			bar = 6096
		}
		for _, p := range list {
			if n := need[p.Order]; p.What == "bar" && (p.Quantity*bar < 0.9*n || p.Quantity > 2*math.Ceil(n/bar)) {
				t.Errorf("%s: %g bars of %s for %g mm", name, p.Quantity, p.Order, n)
			}
		}
	}
}

// The longest name among the words of an order gives its price; what is on the list
// and is not ordered is told.
func TestPrices(t *testing.T) {
	r := *stationtest.Result(t, "arm-pad-station")
	r.Frame.Drawing.Prices = "tube 60x60x3 40; tube 1; ISO 4017 M14 x 40 0.5; plate 10 100; gold bar 9"
	got := map[string]float64{}
	for _, p := range shoplist.Purchases(&r) {
		if p.Price != nil {
			got[p.Order] = *p.Price
			if p.What == "not ordered" && (p.Order != "gold bar" || p.Quantity != 0) {
				t.Errorf("%+v", p)
			}
		}
	}
	for order, want := range map[string]float64{"tube 60x60x3 S235": 40, "tube 40x40x3 S235": 1, "Hexagon screw ISO 4017 M14 x 40 8.8": 0.5, "plate 10 S235": 100, "gold bar": 9} {
		if got[order] != want {
			t.Errorf("%s costs %g, want %g: %v", order, got[order], want, got)
		}
	}
}
