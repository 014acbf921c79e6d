package pdf

import "standclear/hazards"

// advised puts below a verdict what would make it hold, where there is something
// to say.
func (d *doc) advised(c cell, list []hazards.Advice, model bool) cell {
	if s := d.w.Advice(list, model); s != "" {
		c = append(c, d.richPara(s, cellGrey))
	}
	return c
}
