package drive

import (
	"armwright/specs"
	"armwright/specs/stock"
)

// supplies are what a station is built from.
type supplies struct {
	Member       stock.Section
	Arm          stock.Section // tube of the moving arms
	Slide        stock.Section // of the handles, slides on it
	SeatPost     stock.Section // slides in Member; the arms' where nothing fits
	Steel        stock.Steel
	Cable        stock.CableType
	Bearing      stock.BearingUnit
	Transmission stock.Transmission
	Plate        stock.WeightPlate
}

// newSupplies looks up what a station is built from.
func newSupplies(region string, k specs.Stock) (s supplies, err error) {
	s.Plate = stock.StackPlate(region)
	if s.Member, err = stock.Member(k.Member); err != nil {
		return s, err
	}
	if s.Arm, err = stock.Member(armStock(region)); err != nil {
		return s, err
	}
	if s.Slide, _ = stock.Around(s.Arm); s.Slide.Name == "" {
		s.Slide = s.Arm
	}
	if s.SeatPost, _ = stock.Within(s.Member); s.SeatPost.Name == "" {
		s.SeatPost = s.Arm
	}
	if s.Steel, err = stock.SteelGrade(k.Steel); err != nil {
		return s, err
	}
	if s.Cable, err = stock.Cable(k.Cable); err != nil {
		return s, err
	}
	if s.Bearing, err = stock.Bearing(k.Bearing); err != nil {
		return s, err
	}
	s.Transmission, err = stock.TransmissionOf(k.Transmission)
	s.Transmission = s.Transmission.In(region)
	return s, err
}

// armStock is the square tube of arms and small brackets in a region: own
// choice.
func armStock(region string) string {
	if region == "us" {
		return "1.5x1.5x0.125in"
	}
	return "40x40x3"
}

// requiredRadius is the smallest radius of the cable's centreline over cam and
// sheave: the tread ratio asked for times the diameter, halved.
func (s *Designer) requiredRadius() float64 {
	ratio := s.Cable.CriticalRatio
	if s.Asked.Stock.BendRule == "desirable" {
		ratio = s.Cable.DesirableRatio
	}
	return s.Cable.LeastRadius(ratio)
}
