package hazards

import (
	"fmt"
	"strings"

	"standclear/hazards/place"
	"standclear/limits/table"
)

// papers says of each paper where it is.
func (w *work) papers(wanted []place.Wanted) []Paper {
	var list []Paper
	for _, p := range wanted {
		list = append(list, Paper{Places: p.Places, Kind: p.ID, About: p.About, What: p.What, By: p.By, Where: w.where(&p),
			Because: strings.TrimSpace(p.Because), Silent: p.Silent, Standing: string(p.Standing), Sources: p.Source})
	}
	return list
}

// where is what the file says of a paper, or the part of this assessment that
// is the paper; "" where there is neither.
func (w *work) where(p *place.Wanted) string {
	for i := range w.a.Head.Papers {
		f := &w.a.Head.Papers[i]
		if f.Kind == p.ID && (len(f.Of) == 0 || has(f.Of, p.About)) {
			return f.Where
		}
	}
	head := &w.a.Head
	this := head.Number + " revision " + head.Revision
	switch p.Here {
	case "assessment":
		return this
	case "calculations":
		n := 0
		for i := range w.r.Checks {
			if !w.r.Checks[i].Shadow {
				n++
			}
		}
		if n > 0 {
			return fmt.Sprintf("%s, %d checks", this, n)
		}
	case "tests":
		done := 0
		for i := range w.r.Points {
			if s := w.r.Points[i].State; s != PointPlanned && s != PointMissing {
				done++
			}
		}
		if done > 0 {
			return fmt.Sprintf("%s, %d of %d points done", this, done, len(w.r.Points))
		}
	case "upkeep":
		if n := len(w.r.HandOver.Upkeep); n > 0 {
			return fmt.Sprintf("%s, %d items", this, n)
		}
	}
	return ""
}

// rules notes the sources of local rules and of the papers they ask for.
func (u *uses) rules(r *Result) {
	for i := range r.Review {
		standing, _, _ := strings.Cut(r.Review[i].Standing, ",")
		for _, key := range r.Review[i].Sources {
			u.source(key, "rules of "+r.Review[i].Place, table.Standing(standing))
		}
	}
	for _, list := range [][]Paper{r.HandOver.Papers, r.HandOver.Declarations} {
		for i := range list {
			for _, key := range list[i].Sources {
				u.source(key, "papers of "+list[i].Places[0], table.Standing(list[i].Standing))
			}
		}
	}
}
