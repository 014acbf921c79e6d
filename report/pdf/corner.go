package pdf

import "standclear/hazards"

// corner says at which ends of tolerances a check was worked out, and what comes
// out at the values as written; nothing where there are no tolerances.
func (d *doc) corner(c *hazards.Check) cell {
	n := d.r.NominalOf(c.ID)
	if n == nil || n.Outcome == nil {
		return nil
	}
	result := d.w.Verdicts.Of(string(n.Outcome.Verdict)).Word
	if n.Outcome.Value("use").Given() {
		result += ", " + firm(percent(n.Outcome.Use()))
	}
	return cell{d.richPara(pretty(c.Corner), cellGrey), one(d.w.Sentence("nominal_beside", result), cellGrey)}
}
