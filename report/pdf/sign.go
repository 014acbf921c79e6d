package pdf

import "standclear/hazards/file"

// Heights of a signature block, in mm.
const (
	lineHigh  = 7.4
	sealRound = 15.0 // radius of the room for a seal
	sealRoom  = 2*sealRound + 8
)

// signature is one block: who signs, what the file says of the scope, and the
// lines to write on.
type signature struct {
	head   []line
	scope  [][]line
	fields [][]string
	seal   bool
}

// signatures are blocks to sign by hand. They stand on one page, where they fit
// on one, so that nobody signs a part.
func (d *doc) signatures() {
	h := &d.r.File.Head
	blocks := []signature{
		d.signature("prepared", &h.PreparedBy, false, nil, nil),
		d.signature("checked", h.CheckedBy, false, nil, nil),
		d.signature("approved_block", h.ApprovedBy, false, nil, nil),
		d.review(h.Reviewer),
	}
	high := 32.0 // of heading and introduction
	for i := range blocks {
		high += blocks[i].high()
	}
	if d.y+high > d.bottom() {
		d.newPage()
	}
	d.section("signatures")
	d.lead(d.w.Sentence("signatures_intro", short(d.r.Fingerprint)) + " " + d.w.Sentence("signatures_scope"))
	for i := range blocks {
		d.sign(&blocks[i])
	}
}

// signature lays out the block of a person. What the file says of the person and
// the scope is printed, the rest has a line to write on.
func (d *doc) signature(key string, p *file.Person, seal bool, scope []para, open []string) signature {
	s := signature{seal: seal}
	name := para{spans: []span{{text: d.w.Label(key), style: textBold}}}
	if p != nil {
		known := joined("  ·  ", person(p), labelled(d.w.Label("licence"), p.Licence), p.Date)
		name.spans = append(name.spans, span{text: "  " + known, style: text})
	} else {
		s.fields = append(s.fields, []string{"name", "role"})
	}
	s.head = d.broken(name, d.signWide(s.seal))
	for _, para := range scope {
		s.scope = append(s.scope, d.broken(para, d.signWide(s.seal)))
	}
	for _, label := range open {
		s.fields = append(s.fields, []string{label})
	}
	line := []string{"signature"}
	if p == nil || p.Licence == "" && s.seal {
		line = append(line, "licence")
	}
	if p == nil || p.Date == "" {
		line = append(line, "date")
	}
	s.fields = append(s.fields, line)
	return s
}

// review is the block of the licensed reviewer: with the scope, and with room
// for a seal.
func (d *doc) review(r *file.Reviewer) signature {
	var p *file.Person
	if r == nil {
		r = &file.Reviewer{}
	} else {
		p = &file.Person{Name: r.Name, Role: r.Role, Firm: r.Firm, Licence: r.Licence, Date: r.Date}
	}
	var scope []para
	var open []string
	for _, x := range [][2]string{{"relied", r.RelyOn}, {"not_reviewed", r.NotReviewed}, {"visited", r.Visited}} {
		if x[1] == "" {
			open = append(open, x[0])
			continue
		}
		scope = append(scope, para{gap: 1, spans: []span{{text: d.w.Label(x[0]) + "  ", style: cellGrey}, {text: x[1], style: cellText}}})
	}
	return d.signature("licensed", p, true, scope, open)
}

// signWide is how wide the text of a block runs.
func (d *doc) signWide(seal bool) float64 {
	if seal {
		return d.width - sealRoom
	}
	return d.width
}

func (s *signature) high() float64 {
	h := 4 + tall(s.head) + float64(len(s.fields))*lineHigh + 4
	for _, ls := range s.scope {
		h += tall(ls)
	}
	if s.seal {
		h = max(h, 2*sealRound+7)
	}
	return h
}

// sign draws a block. One that is taller than a page runs over it, and keeps
// its lines to write on together with the seal.
func (d *doc) sign(s *signature) {
	high := s.high()
	fits := high <= d.bottom()-topMargin
	if fits {
		d.room(high)
	} else {
		d.room(least)
	}
	d.y += 4
	top, page := d.y, d.pdf.PageNo()
	for _, ls := range append([][]line{s.head}, s.scope...) {
		for i := range ls {
			d.room(ls[i].high)
			d.lines(ls[i:i+1], sideMargin)
		}
	}
	if !fits {
		d.room(s.foot())
	}
	if d.pdf.PageNo() != page {
		top = d.y
	}
	wide := d.signWide(s.seal)
	for _, f := range s.fields {
		d.y += lineHigh
		w := (wide - 6*float64(len(f)-1)) / float64(len(f))
		for i, label := range f {
			x := sideMargin + float64(i)*(w+6)
			d.write(x, d.y, d.w.Label(label), cellGrey)
			d.rule(x, d.y+1.2, w, hair, grey)
		}
	}
	if s.seal {
		d.seal(sideMargin+d.width-sealRound, max(top+sealRound, (top+d.y)/2+2))
		d.y = max(d.y, top+2*sealRound)
	}
	d.y += 4
}

// foot is the height of the lines to write on, and of the seal beside them.
func (s *signature) foot() float64 {
	h := float64(len(s.fields)) * lineHigh
	if s.seal {
		h = max(h, 2*sealRound)
	}
	return h + 4
}

// seal is a dashed ring to stamp into.
func (d *doc) seal(x, y float64) {
	d.pdf.SetLineWidth(hair)
	d.pdf.SetDrawColor(int(grey.r), int(grey.g), int(grey.b))
	d.pdf.SetDashPattern([]float64{1, 1.2}, 0)
	d.pdf.Circle(x, y, sealRound-0.5, "D")
	d.pdf.SetDashPattern(nil, 0)
	label := d.w.Label("seal")
	d.write(x-d.ink.width(label, cellGrey)/2, y+1, label, cellGrey)
}
