package report_test

import (
	"fmt"

	"armwright/export/report"
)

func ExampleFigure() {
	fmt.Println(report.Figure(12.34, "mm"))
	fmt.Println(report.Figure(-0.004, "mm")) // never rounded to nothing
	fmt.Println(report.Figure(6, ""))
	// Output:
	// 12.3 mm
	// -0.004 mm
	// 6.00
}
