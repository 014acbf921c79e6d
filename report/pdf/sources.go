package pdf

import (
	"fmt"
	"strconv"
	"strings"
)

// sources lists what the values rest on, with their standing.
func (d *doc) sources() {
	d.section("sources")
	d.lead(d.w.Sentence("sources_intro"))
	if len(d.r.Sources) == 0 {
		d.put(one(d.w.Label("none"), text))
		return
	}
	t := d.table(col{name: d.w.Label("source"), share: 92}, col{name: d.w.Label("used"), share: 56}, col{name: d.w.Label("standing"), share: 24})
	t.tight = true
	for i := range d.r.Sources {
		s := &d.r.Sources[i]
		what := cell{one(s.Title, cellText)}
		if s.Address != "" {
			what = append(what, one(s.Address, cellGrey))
		}
		t.row(row{cells: []cell{what, d.richCell(s.Used), d.standing(s.Standing)}, again: d.again(s.Key)})
	}
}

// cautions end the text; characters that could not be printed are owned up to.
func (d *doc) cautions() {
	d.section("cautions")
	g := d.grid(9, 163)
	for i, c := range d.w.Cautions {
		g.put(of(strconv.Itoa(i+1), text.in(grey)), of(c, text))
	}
	if len(d.lacking) > 0 {
		d.put(para{gap: 0.8, spans: []span{{text: d.w.Sentence("glyphs", len(d.lacking), codes(d.lacking)), style: textBold}}})
	}
}

// unprintable warns of characters that the font lacks and names the texts in
// which they stand.
func (d *doc) unprintable(lacking []rune, affected []string) {
	d.put(para{gap: 1.2, spans: append([]span{{mark: doubtful, style: textBold}},
		span{text: d.w.Sentence("glyphs", len(lacking), codes(lacking)), style: textBold})})
	var quoted []string
	for _, t := range affected {
		quoted = append(quoted, "“"+t+"”")
	}
	d.put(one(d.w.Sentence("glyphs_texts", strings.Join(quoted, "; ")), cellText))
}

func codes(list []rune) string {
	var out []string
	for _, r := range list {
		out = append(out, fmt.Sprintf("U+%04X", r))
	}
	return strings.Join(out, ", ")
}
