package shoplist

import (
	"math"
	"strconv"
	"strings"

	"armwright/export/cutplan"
	"armwright/export/partlist"
	"armwright/geometry/assembly"
	"armwright/solver"
	"armwright/specs/prices"
)

// Purchase is what is bought of one kind.
type Purchase struct {
	What     string   // "bar", "plate", "part", "length", "fastener"
	Order    string   // as it is ordered, the name that a price is looked up by
	Quantity float64  // in units
	Unit     string   // "6000 mm", "2000 x 1000 mm", "piece", "m"
	Mass     float64  // of what goes into the station, kg; 0 where it is not known
	Items    string   // of the parts list
	Price    *float64 // of one unit by the user's own price list, nil where it has none
}

// Purchases lists what is bought for a station: bars, plates and boards by the cutting
// plan, then parts and lengths, then fasteners.
func Purchases(r *solver.Result) []Purchase {
	var p purchases
	list := partlist.Of(r)
	units := r.Frame.Drawing.Reads()
	mm := func(x float64) string { return strconv.FormatFloat(math.Round(x), 'f', -1, 64) }

	mass := map[string]float64{}
	items := map[string]string{}
	for i := range list {
		l := &list[i]
		for _, stock := range [...]string{l.Bar, l.Blank} {
			if stock != "" {
				mass[stock] += l.Mass * float64(l.Count)
				items[stock] = joined(items[stock], l.Item)
			}
		}
	}
	long := cutplan.BarLength(units)
	for _, b := range cutplan.Bars(list, long, cutplan.SawKerf) {
		p.add(Purchase{What: "bar", Order: b.Stock, Quantity: 1, Unit: mm(long) + " mm", Mass: mass[b.Stock], Items: items[b.Stock]})
	}
	length, width := cutplan.PlateSize(units)
	for _, b := range cutplan.Blanks(list, length, width) {
		p.add(Purchase{What: "plate", Order: b.Stock, Quantity: 1, Unit: mm(length) + " x " + mm(width) + " mm", Mass: mass[b.Stock], Items: items[b.Stock]})
	}
	for i := range list {
		l := &list[i]
		item := strconv.Itoa(l.Item)
		sum := l.Mass * float64(l.Count)
		switch {
		case l.Fastener != nil:
			p.add(Purchase{What: "fastener", Order: l.Title + " " + l.Stock, Quantity: float64(l.Count), Unit: "piece", Mass: l.Fastener.Mass * float64(l.Count), Items: item})
		case len(l.Parts) == 0 && l.Length > 0:
			p.add(Purchase{What: "length", Order: l.Title + " " + l.Stock, Quantity: math.Ceil(l.Length*float64(l.Count)/10-1e-6) / 100, Unit: "m", Mass: sum, Items: item})
		case l.Form == assembly.Bought || l.Bar == "" && l.Blank == "":
			p.add(Purchase{What: "part", Order: l.Title + " " + l.Stock, Quantity: float64(l.Count), Unit: "piece", Mass: sum, Items: item})
		}
	}
	p.price(r.Frame.Drawing.Prices)
	return p.list
}

// price looks up the user's own prices: of the names that an order has among its words
// the longest counts. What is on the list and never ordered is told last, without a
// quantity.
func (p *purchases) price(text string) {
	prices, err := prices.Parse(text)
	if err != nil { // a frame is checked when it is read
		return
	}
	used := make([]bool, len(prices))
	words := func(s string) string { return " " + strings.ToLower(strings.Join(strings.Fields(s), " ")) + " " }
	for i := range p.list {
		order := words(p.list[i].Order)
		best := -1
		for k, q := range prices {
			if strings.Contains(order, words(q.Name)) && (best < 0 || len(q.Name) > len(prices[best].Name)) {
				best = k
			}
		}
		if best >= 0 {
			used[best] = true
			p.list[i].Price = &prices[best].Price
		}
	}
	for k := range prices {
		if !used[k] {
			p.list = append(p.list, Purchase{What: "not ordered", Order: prices[k].Name, Price: &prices[k].Price})
		}
	}
}

type purchases struct{ list []Purchase }

// add adds to a line of the same order, or a line.
func (p *purchases) add(q Purchase) {
	for i := range p.list {
		if o := &p.list[i]; o.What == q.What && o.Order == q.Order && o.Unit == q.Unit {
			o.Quantity += q.Quantity
			if o.Items != q.Items {
				o.Mass += q.Mass
				o.Items += " " + q.Items
			}
			return
		}
	}
	p.list = append(p.list, q)
}

func joined(list string, item int) string {
	if list != "" {
		list += " "
	}
	return list + strconv.Itoa(item)
}
