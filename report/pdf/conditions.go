package pdf

import (
	"slices"
	"strings"

	published "standclear/limits/table"
)

// sections in the order in which they are printed.
var sections = []string{"limits", "review", "findings", "identification", "hazards", "checks", "worked", "values", "open", "validation", "handover",
	"sources", "cautions", "signatures"}

func sectionNumber(key string) int {
	for i, s := range sections {
		if s == key {
			return i + 1
		}
	}
	return 0
}

// conditions says by which editions, method, settings and program it was judged.
func (d *doc) conditions() {
	d.subheading(d.w.Heading("conditions"))
	g := d.grid(30, 142)
	for _, e := range d.editions() {
		g.put(of(e.group, cellGrey), of(strings.Join(e.names, "; "), cellText))
	}
	if m := d.r.Method; m != nil {
		g.put(of(d.w.Label("method"), cellGrey), cell{para{spans: []span{{text: joined(", ", m.Title, m.Standard, m.Clause), style: cellText}}}})
	}
	g.put(of(d.w.Label("program"), cellGrey), of("standclear "+d.r.Version, cellText))
	g.put(of(d.w.Label("input"), cellGrey), of(d.r.InputSHA256, cellMono))
	g.put(of(d.w.Label("fingerprint"), cellGrey), of(d.r.Fingerprint, cellMono))
	d.settings()
}

// editionUse are the standards that one kind of check was worked out by.
type editionUse struct {
	group string
	names []string
}

// editions lists the standards that the checks were worked out by, with how many
// checks each.
func (d *doc) editions() []editionUse {
	type use struct {
		group, name string
		n           int
	}
	var uses []use
	at := map[string]int{}
	for i := range d.r.Checks {
		s := d.r.Checks[i].Sheet
		if s == nil || s.Standard.ID == "" || d.r.Checks[i].Shadow {
			continue
		}
		name := published.Standard{ID: s.Standard.ID, Edition: s.Standard.Edition}.String()
		key := s.Group + " " + name
		j, ok := at[key]
		if !ok {
			j = len(uses)
			at[key] = j
			uses = append(uses, use{group: d.groupName(s.Group), name: name})
		}
		uses[j].n++
	}
	var out []editionUse
	for _, u := range uses {
		name := d.w.Sentence("checks_of_edition", u.name, u.n)
		i := slices.IndexFunc(out, func(e editionUse) bool { return e.group == u.group })
		if i < 0 {
			out = append(out, editionUse{group: u.group})
			i = len(out) - 1
		}
		out[i].names = append(out[i].names, name)
	}
	return out
}

func (d *doc) groupName(group string) string {
	switch group {
	case "contact":
		return d.w.Heading("contacts")
	case "distance":
		return d.w.Heading("distances")
	case "functions":
		return d.w.Heading("functions")
	}
	return d.w.Heading("others")
}

// settings lists the safety configurations with what they limit.
func (d *doc) settings() {
	d.subheading(d.w.Heading("settings"))
	t := d.table(col{name: d.w.Label("setting"), share: 28}, col{name: d.w.Label("checksum"), share: 24},
		col{name: d.w.Label("version"), share: 16}, col{name: d.w.Label("limits_set"), share: 104})
	t.tight = true
	n := 0
	for i := range d.r.File.Cell.Robots {
		r := &d.r.File.Cell.Robots[i]
		for j := range r.Settings {
			s := &r.Settings[j]
			limits := joined("; ", labelled("TCP", amount(s.TCPSpeed)), labelled("elbow", amount(s.ElbowSpeed)),
				labelled("force", amount(s.Force)), strings.Join(s.Planes, "; "))
			t.put(of(r.ID+"."+s.ID, cellBold), of(orNone(d, s.Checksum), cellMono), of(orNone(d, s.Version), cellText), of(limits, cellText))
			n++
		}
	}
	if n == 0 {
		d.put(one(d.w.Label("none"), cellText))
	}
}

func labelled(label, value string) string {
	if value == "" {
		return ""
	}
	return label + " " + firm(value)
}

func orNone(d *doc, s string) string {
	if s == "" {
		return d.w.Label("none")
	}
	return s
}
