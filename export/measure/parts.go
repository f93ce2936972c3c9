package measure

import (
	"fmt"
	"math"
)

// parts holds the report's list of parts against the sheet's and against the
// assembly's: the items and counts of the sheet's columns, and how many pieces there
// are and what they weigh together.
func (m *measurer) parts() {
	list := m.report.Parts
	if path := m.sheet("parts"); path != "" && len(list) > 0 {
		counts := column(m.drawings[path], "Qty")
		rows := make([]float64, 0, len(list))
		for _, x := range counts {
			if !math.IsNaN(x) {
				rows = append(rows, x)
			}
		}
		m.out.compare(path, "lines of the parts list", "", float64(len(list)), float64(len(rows)), 0)
		for i, p := range list[:min(len(list), len(rows))] {
			m.out.compare(path, fmt.Sprintf("item %d, %s, how many", p.Item, p.Title), "", float64(p.Count), rows[i], 0)
		}
	}
	a := m.assembly
	if a == nil {
		return
	}
	// Bolts, screws and keys have no mass in the list and are no parts of the assembly;
	// what is flexible is there by its id alone.
	pieces, mass := 0, 0.0
	loose := 0.0
	of := map[string]int{}
	for _, p := range list {
		if p.Mass == nil {
			continue
		}
		pieces += p.Count
		mass += float64(p.Count) * *p.Mass
		of[p.Title] += p.Count
	}
	built := 0.0
	titles := map[string]bool{}
	for _, p := range a.Parts {
		built += p.Mass
		titles[p.Title] = true
	}
	for _, p := range list {
		if p.Mass != nil && !titles[p.Title] && len(a.Flexible) > 0 && p.Length != nil {
			loose += float64(p.Count) * *p.Mass
		}
	}
	m.out.compare(assemblyPath, "parts and what is flexible, pieces", "", float64(len(a.Parts)+len(a.Flexible)), float64(pieces), 0)
	m.out.compare(assemblyPath, "mass of the parts", "kg", built, mass-loose, 1e-3*built+float64(len(list))*quantum)
}
