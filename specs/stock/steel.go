package stock

// Elastic constants and density of structural steel: EN 1993-1-1 (M), N/mm²;
// density S.
const (
	YoungsModulus = 210000.0  // N/mm²
	ShearModulus  = 81000.0   // N/mm²
	SteelDensity  = steelMass // kg/mm³
)

// Steel is a grade of structural steel, walls up to 16 mm.
type Steel struct {
	Name       string
	Yield      float64 // N/mm²
	Tensile    float64 // least, N/mm²
	WeldFactor float64 // βw of EN 1993-1-8; that of the grade next above where it has none
	Source     string
	Mark       string
}

func (s Steel) name() string { return s.Name }

// SteelGrade returns the grade with a name of SteelNames, or an *UnknownError.
func SteelGrade(name string) (Steel, error) { return find("steel", name, steels()) }

// SteelNames returns the names of the grades.
func SteelNames() []string { return names(steels()) }

func steels() []Steel {
	const ksi = 6.894757 // N/mm²
	return []Steel{
		{"S235", 235, 360, 0.80, "EN 10025-2", "S"},
		{"S275", 275, 410, 0.85, "EN 10025-2", "S"},
		{"S355", 355, 470, 0.90, "EN 10025-2", "S"},
		{"A500-B", 46 * ksi, 58 * ksi, 0.85, "ASTM A500 shaped, grade B", "S yield, M tensile"},
		{"A500-C", 50 * ksi, 62 * ksi, 0.90, "ASTM A500 shaped, grade C", "S yield, M tensile"},
	}
}

// WeldStrength returns the design shear strength of a fillet weld's throat,
// N/mm², by the simplified method of EN 1993-1-8 with γM2 = 1.25.
func (s Steel) WeldStrength() float64 {
	const sqrt3, partial = 1.7320508075688772, 1.25
	return s.Tensile / (sqrt3 * s.WeldFactor * partial)
}
