package json

import "standclear/limits/sheet"

// corner is the worst corner of tolerances in words, with the outcome at the
// values as written beside it; nothing where there are no tolerances.
func corner(words string, nominal *sheet.Outcome) object {
	if nominal == nil {
		return nil
	}
	return object{{"corner", words}, {"nominal", object{{"verdict", nominal.Verdict}, {"why", nominal.Why}, {"inputs", inputs(nominal)}, {"results", results(nominal)}}}}
}
