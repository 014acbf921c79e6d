package hazards

import "standclear/limits/sheet"

// Advise works the advice of a result out once more and tells how many different
// cases were solved.
func Advise(r *Result) int {
	v := &adviser{work: &work{a: r.File, r: r}, solved: map[string][]sheet.Answer{}}
	v.all()
	return len(v.solved)
}
