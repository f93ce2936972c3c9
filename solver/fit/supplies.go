package fit

import (
	"armwright/specs"
	"armwright/specs/stock"
)

// supplies are what a station is built from.
type supplies struct {
	member       stock.Section
	arm          stock.Section // tube of the moving arms
	steel        stock.Steel
	cable        stock.CableType
	bearing      stock.BearingUnit
	transmission stock.Transmission
	plate        stock.WeightPlate
}

// newSupplies looks up what a station is built from.
func newSupplies(region string, k specs.Stock) (s supplies, err error) {
	s.plate = stock.StackPlate(region)
	if s.member, err = stock.Member(k.Member); err != nil {
		return s, err
	}
	if s.arm, err = stock.Member(armStock(region)); err != nil {
		return s, err
	}
	if s.steel, err = stock.SteelGrade(k.Steel); err != nil {
		return s, err
	}
	if s.cable, err = stock.Cable(k.Cable); err != nil {
		return s, err
	}
	if s.bearing, err = stock.Bearing(k.Bearing); err != nil {
		return s, err
	}
	s.transmission, err = stock.TransmissionOf(k.Transmission)
	return s, err
}

// armStock is the square tube of arms and bearing uprights in a region: own
// choice.
func armStock(region string) string {
	if region == "us" {
		return "1.5x1.5x0.125in"
	}
	return "40x40x3"
}

// requiredRadius is the smallest radius of the cable's centreline over cam and
// sheave: the tread ratio asked for times the diameter, halved.
func (s *designer) requiredRadius() float64 {
	ratio := s.cable.CriticalRatio
	if s.asked.Stock.BendRule == "desirable" {
		ratio = s.cable.DesirableRatio
	}
	return s.cable.LeastRadius(ratio)
}
