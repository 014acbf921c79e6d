// Package sheet holds calculation sheets. A sheet is data: inputs with units
// and ranges, look-ups, steps as expressions, rules and a verdict, each with
// its clause. From that one statement come the Go value, the spreadsheet
// formula, the worked line with numbers put in, and the check that units agree.
package sheet

// Verdict is the outcome of a check, in the words of the contract.
type Verdict string

// Verdicts of a check.
const (
	NotPermitted   Verdict = "not-permitted"   // head, edge, point, hot
	Over           Verdict = "over"            // beyond a limit
	Outside        Verdict = "outside"         // beyond what the method covers
	NeedsCopy      Verdict = "needs-copy"      // value not public
	NotDecided     Verdict = "not-decided"     // an answer is missing
	OutOfDate      Verdict = "out-of-date"     // decided on something else
	WithinModel    Verdict = "within-model"    // calculated within, not measured
	WithinMeasured Verdict = "within-measured" // a valid measurement is within
	Within         Verdict = "within"          // nothing to measure beyond its inputs
)

// Order lists the verdicts, worst first. The last two rank alike.
var Order = []Verdict{NotPermitted, Over, Outside, NeedsCopy, NotDecided, OutOfDate, WithinModel, WithinMeasured, Within}

// Rank is the place of v in Order; less is worse.
func (v Verdict) Rank() int {
	for i, o := range Order {
		if o == v {
			return min(i, len(Order)-2)
		}
	}
	return len(Order)
}

// Worse tells whether v is worse than o.
func (v Verdict) Worse(o Verdict) bool { return v.Rank() < o.Rank() }

// Holds tells whether nothing more than a measurement is missing.
func (v Verdict) Holds() bool { return v == Within || v == WithinModel || v == WithinMeasured }
