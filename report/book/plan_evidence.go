package book

import (
	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/hazards/proof"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// evidenceBlock holds a measurement against every check of its contact, as
// hazards/proof does, with every figure looked up.
const evidenceBlock = "evidence"

// pair is a measurement and a check it may speak for.
type pair struct {
	point    *file.Point
	check    *hazards.Check
	kase     proof.Case
	measured proof.Measured
	outcome  proof.Outcome
}

// evidence pairs every force measurement with the checks of its contact that
// its tool speaks for.
func (p *planner) evidence() {
	checks := map[string][]*hazards.Check{}
	for i := range p.r.Checks {
		if c := &p.r.Checks[i]; c.Model && !c.Shadow {
			checks[c.Of] = append(checks[c.Of], c)
		}
	}
	for i := range p.r.Points {
		pt := &p.r.Points[i]
		if pt.Spec == nil || pt.Method != "force" {
			continue
		}
		m := hazards.ProofMeasured(p.r, pt.Spec)
		for _, c := range checks[pt.Of] {
			k := hazards.ProofCase(p.r, c)
			if gapOfTool(k, m) == other {
				continue // another tool says nothing about the check, whatever was measured
			}
			p.pairs = append(p.pairs, &pair{pt.Spec, c, k, m, proof.Judge(k, m)})
		}
	}
}

func (x *pair) id() string { return x.point.ID + " · " + x.check.ID }

// Kinds of gap, worst last: none; milder, where a limit exceeded is exceeded
// all the same; other.
const (
	noGap = iota
	milder
	other
)

// evidenceColumns are the comparisons of hazards/proof as formulas.
func (p *planner) evidenceColumns() []*Column {
	point := func(key string) Formula { return orBlank(find(pointsBlock, key, own("point"))) }
	figure := func(key string) Formula { // only a measurement of force and pressure has any
		return formula("IF(EXACT(", own("method"), `,"force"),`, point(key), `,"")`)
	}
	area := func(key string) Formula {
		return formula("IFERROR(IF(", find(tableID(areasTable), key, own("area")), `="",1,MAX(1,`, find(tableID(areasTable), key, own("area")), ")),1)")
	}
	hidden := func(key, head string, f Formula) *Column {
		return &Column{Key: key, Head: head, Width: 10, Hidden: true, Look: Quiet, Formula: f}
	}
	seen := func(key, head, means string, f Formula) *Column {
		return &Column{Key: key, Head: head, Means: means, Width: 14, Look: Word, Formula: f}
	}
	zero := func(f Formula) Formula { return formula("IFERROR(0+", f, ",0)") }
	p.tables[areasTable], p.tables[regionsTable] = true, true
	return append([]*Column{
		{Key: refKey, Head: "Measurement and check", Width: 12, Look: Ident},
		{Key: "point", Head: "Point", Width: 9},
		{Key: "check", Head: "Check", Width: 34},
		seen("force", "Force", "peak up to 0.5 s and what is left after", p.forceFormula()),
		seen("pressure", "Pressure", "peak, on a held body part against the quasi-static limit", p.pressureFormula()),
		{Key: "covers", Head: "Covers", Means: "0: it speaks for the check, 1: it was milder, 2: it does not", Width: 14, Look: Count,
			Formula: formula("MAX(", own("g.tool"), ",", own("g.part"), ",", own("g.spot"), ",", own("g.region"), ",", own("g.clamped"), ",", own("g.device"), ",", own("g.speed"), ",", own("g.checksum"), ")")},
		seen("verdict", "Decides", "empty: nothing", formula("IF(AND(OR(", own("force"), `="over",`, own("pressure"), `="over"),`, own("covers"), `<2),"over",IF(`,
			own("covers"), `>0,"",IF(AND(`, own("force"), `="within-measured",`, own("pressure"), `="within-measured"),"within-measured","")))`)),
	},
		hidden("method", "Method", point("method")), hidden("peak", "Peak", figure("peak")), hidden("steady", "Steady", figure("steady")), hidden("p", "Pressure", figure("pressure")),
		hidden("speed", "Speed", point("speed")), hidden("stiffness", "Spring", point("stiffness")),
		hidden("tool", "Tool", point("tool")), hidden("part", "Part", point("part")), hidden("held", "Held", point("clamped")),
		hidden("checksum", "Checksum", point("checksum")), hidden("spot", "At point", point(spotKey)),
		hidden("body", "Body area", point("body_area")),
		hidden("region", "Region", formula("IFERROR(", find(tableID(areasTable), "region", own("body")), `,"")`)),
		hidden("class", "Class", nil), hidden("c.tool", "Tool of the check", nil), hidden("c.part", "Part of the check", nil), hidden("c.spot", "Point of the check", nil), hidden("c.checksum", "Released", nil),
		hidden("c.speed", "Speed of the check", nil), hidden("area", "Body area", nil), hidden("c.region", "Region of the check", nil),
		hidden("K", "Spring of the body", zero(find(tableID(regionsTable), "K", own("c.region")))),
		hidden("F.steady", "Limit", zero(find(tableID(regionsTable), "F_s", own("c.region")))),
		hidden("F.peak", "Limit up to 0.5 s", formula(own("F.steady"), "*IF(", own("class"), `="jaws",1,IFERROR(IF(`, find(tableID(regionsTable), "f_F", own("c.region")),
			`="",1,MAX(1,`, find(tableID(regionsTable), "f_F", own("c.region")), ")),1))")),
		hidden("p.limit", "Pressure limit", formula("IF(", own("class"), `="free",`, area("f_p"), ",1)*", zero(find(tableID(areasTable), "p_s", own("area"))))),
		hidden("g.tool", "Tool", formula("IF(", own("c.tool"), `="",0,IF(`, own("tool"), `="",2,IF(EXACT(`, own("tool"), ",", own("c.tool"), "),0,2)))")),
		hidden("g.part", "Part", formula("IF(OR(", own("c.part"), `="",EXACT(`, own("part"), ",", own("c.part"), ")),0,IF(", own("part"), `="",1,IF(`,
			less(zero(find(factsBlock, "used", formula(own("part"), `&".mass"`))), zero(find(factsBlock, "used", formula(own("c.part"), `&".mass"`)))), ",1,0)))")),
		hidden("g.spot", "At point", formula("IF(OR(", own("c.spot"), `="",EXACT(`, own("spot"), ",", own("c.spot"), ")),0,2)")),
		hidden("g.region", "Body part", formula("IF(", own("body"), `="",0,IF(EXACT(`, own("region"), ",", own("c.region"), "),0,2))")),
		hidden("g.clamped", "Clamping", formula("IF(OR(", own("class"), `="jaws",`, own("held"), `="yes"),0,IF(`, own("held"), `="no",IF(`, own("class"), `="clamped",1,0),2))`)),
		hidden("g.device", "Device", formula("IF(OR(COUNT(", own("peak"), ",", own("steady"), ")=0,", own("K"), "=0),0,IF(COUNT(", own("stiffness"), ")=0,IF(OR(", own("region"), `="",`, own("stiffness"),
			`<>""),2,0),IF(`, less(own("stiffness"), own("K")), ",1,0)))")),
		hidden("g.speed", "Speed", formula("IF(", own("class"), `="jaws",0,IF(COUNT(`, own("speed"), ",", own("c.speed"), ")<2,2,IF(", less(own("speed"), own("c.speed")), ",1,0)))")),
		hidden("g.checksum", "Configuration", formula("IF(", own("class"), `="jaws",0,IF(`, own("c.checksum"), `="",2,IF(EXACT(`, own("checksum"), ",", own("c.checksum"), "),0,2)))")),
		hidden("check|over", "Over", formula("IF(", own("verdict"), `="over",`, own("check"), `,"")`)),
		hidden("check|force", "Force within", formula("IF(AND(", own("covers"), "=0,", own("force"), `="within-measured"),`, own("check"), `,"")`)),
		hidden("check|pressure", "Pressure within", formula("IF(AND(", own("covers"), "=0,", own("pressure"), `="within-measured"),`, own("check"), `,"")`)),
		hidden("point|over", "Over", formula("IF(", own("verdict"), `="over",`, own("point"), `,"")`)),
		hidden("point|covers", "Covers", formula("IF(", own("covers"), "=0,", own("point"), `,"")`)),
		hidden("point|within", "Within", formula("IF(AND(", own("covers"), "=0,OR(", own("force"), `="within-measured",`, own("pressure"), `="within-measured")),`, own("point"), `,"")`)),
	)
}

// Tables that hold limits of contact.
const (
	areasTable   = "contact-areas"
	regionsTable = "contact-regions"
)

// little is the noise that hazards/proof allows.
const little = "1E-9"

// less tests a < b beyond noise.
func less(a, b any) Formula { return formula(a, "<", b, "-"+little+"*", b) }

// beyond tests that a value, where there is one, is above its limit.
func beyond(v, limit string) Formula {
	return formula("IF(COUNT(", own(v), ")=0,FALSE(),", less(own(limit), own(v)), ")")
}

// spoilt tests that something stands where a measured number belongs that cannot
// be one.
func spoilt(v, impossible string) Formula {
	return formula("IF(COUNT(", own(v), ")=0,", own(v), `<>"",`, own(v), impossible, ")")
}

// forceFormula judges the force on both sides of 0.5 s. A limit that is not
// known is 0 and decides nothing.
func (p *planner) forceFormula() Formula {
	return formula("IF(OR(COUNT(", own("peak"), ",", own("steady"), ")=0,", own("F.peak"), "=0,", own("F.steady"), `=0),"not-decided",IF(OR(`,
		beyond("peak", "F.peak"), ",", beyond("steady", "F.steady"), `),"over",IF(OR(COUNT(`, own("peak"), ")=0,", own("peak"), "<=0,", spoilt("steady", "<0"), ",AND(", own("class"), `<>"free",COUNT(`,
		own("steady"), ")=0,", beyond("peak", "F.steady"), `)),"not-decided","within-measured")))`)
}

func (p *planner) pressureFormula() Formula {
	return formula("IF(OR(COUNT(", own("p"), ")=0,", own("p.limit"), `=0),"not-decided",IF(`, beyond("p", "p.limit"), `,"over",IF(`, own("p"), `<=0,"not-decided","within-measured")))`)
}

// withEvidence lets measurements decide what the model planned or found over.
// One above a limit stands against any verdict but not-permitted; one within
// never against a firm rule.
func (p *planner) withEvidence(s *sheet.Sheet) Formula {
	if len(p.pairs) == 0 {
		return formula(own("verdict"))
	}
	found := func(key string) Formula {
		return formula("ISNUMBER(MATCH(", own(idKey), ",", all(evidenceBlock, key), ",0))")
	}
	planned := formula("OR(", own("verdict"), `="within-model",AND(`, own("verdict"), `="over"`)
	for i, r := range s.Rules {
		if r.Firm {
			planned = planned.plus(",", own(s.Column("rule").Name), "<>"+number(i+1))
		}
	}
	return formula("IF(", own("verdict"), `="not-permitted",`, own("verdict"), ",IF(", found("check|over"), `,"over",IF(AND(`,
		planned, ")),", found("check|force"), ",", found("check|pressure"), `),"within-measured",`, own("verdict"), ")))")
}

// evidenceRows plans the pairs.
func (p *planner) evidenceRows() *Block {
	b := &Block{ID: evidenceBlock, Helper: true, Title: "Which measurement speaks for which check", Columns: p.evidenceColumns(),
		Note: "It speaks for a check at the same or a worse speed, tool, part, clamping and device, with the same safety configuration. A milder one can only show that a limit is exceeded."}
	for _, x := range p.pairs {
		vals := p.pairValues(x)
		row := &Row{ID: x.id(), Cells: make([]Cell, len(b.Columns))}
		for i, c := range b.Columns {
			row.Cells[i] = Cell{Value: vals[c.Key], Live: c.Formula != nil}
		}
		p.checkLookups(b, row, x)
		b.Rows = append(b.Rows, row)
	}
	return b
}

// checkLookups are the cells that look into the block of the check.
func (p *planner) checkLookups(b *Block, row *Row, x *pair) {
	set := func(key string, f Formula) {
		c := &row.Cells[b.Column(key)]
		c.Live, c.Formula = true, f
	}
	of := func(key string) Formula { return orBlank(find(x.check.Sheet.Key(), key, own("check"))) }
	set("area", of("area"))
	set("c.region", of("region"))
	if !x.kase.Jaws {
		set("c.speed", of("v"))
	}
}

// pairValues are the values of a pair by key.
func (p *planner) pairValues(x *pair) map[string]expr.Value {
	k, m := x.kase, x.measured
	class := hazards.Free
	switch {
	case k.Jaws:
		class = hazards.Jaws
	case k.Clamped:
		class = hazards.Clamped
	}
	fPeak, pLimit := k.ForcePeak, k.PressurePeak
	if k.Jaws {
		fPeak = k.ForceSteady
	}
	if class != hazards.Free {
		pLimit = k.PressureSteady
	}
	vals := map[string]expr.Value{
		refKey: text(x.id()), "point": text(x.point.ID), "check": text(x.check.ID), "force": text(string(x.outcome.Force)), "pressure": text(string(x.outcome.Pressure)),
		"verdict": text(string(x.outcome.Verdict)), "method": text(x.point.Method), "body": text(m.Area), "peak": optional(m.Peak), "steady": optional(m.Steady), "p": optional(m.Pressure),
		"speed": positive(m.Speed), "stiffness": positive(m.Stiffness), "tool": text(m.Tool), "part": text(m.Part), "held": text(m.Clamped), "checksum": text(m.Checksum),
		"region": text(m.Region), "class": text(class), "c.tool": text(k.Tool), "c.part": text(k.Part), "spot": text(m.Spot), "c.spot": text(k.Spot), "c.checksum": text(k.Checksum),
		"area": text(k.Area), "c.region": text(k.Region), "K": num(k.K), "F.steady": num(k.ForceSteady), "F.peak": num(fPeak), "p.limit": num(pLimit),
	}
	if !k.Jaws {
		vals["c.speed"] = positive(k.Speed)
	}
	worst := noGap
	for key, gap := range gapsOf(k, m) {
		vals["g."+key] = num(float64(gap))
		worst = max(worst, gap)
	}
	vals["covers"] = num(float64(worst))
	mark := func(key, id string, yes bool) {
		if yes {
			vals[key] = text(id)
		}
	}
	o := x.outcome
	mark("check|over", x.check.ID, o.Verdict == sheet.Over)
	mark("check|force", x.check.ID, o.Covers && o.Force == sheet.WithinMeasured)
	mark("check|pressure", x.check.ID, o.Covers && o.Pressure == sheet.WithinMeasured)
	mark("point|over", x.point.ID, o.Verdict == sheet.Over)
	mark("point|covers", x.point.ID, o.Covers)
	mark("point|within", x.point.ID, o.Covers && (o.Force == sheet.WithinMeasured || o.Pressure == sheet.WithinMeasured))
	return vals
}

func gapOfTool(k proof.Case, m proof.Measured) int { return gapsOf(k, m)["tool"] }

// gapsOf asks hazards/proof about one thing at a time, everything else being
// alike, so that the cells show what it says and no second rule.
func gapsOf(k proof.Case, m proof.Measured) map[string]int {
	alike, same := proof.Case{Clamped: k.Clamped, Jaws: k.Jaws, Speed: 1, Checksum: "x",
		ForcePeak: 1, ForceSteady: 1, PressurePeak: 1, PressureSteady: 1}, proof.Measured{Clamped: "yes", Speed: 1, Checksum: "x"}
	huge := 1e12
	same.Pressure = &huge
	gap := func(change func(c *proof.Case, s *proof.Measured)) int {
		c, s := alike, same
		change(&c, &s)
		switch o := proof.Judge(c, s); {
		case o.Covers:
			return noGap
		case o.Verdict == sheet.Over:
			return milder
		}
		return other
	}
	return map[string]int{
		"tool": gap(func(c *proof.Case, s *proof.Measured) { c.Tool, s.Tool = k.Tool, m.Tool }),
		"part": gap(func(c *proof.Case, s *proof.Measured) {
			c.Part, c.PartMass, s.Part, s.PartMass = k.Part, k.PartMass, m.Part, m.PartMass
		}),
		"spot":    gap(func(c *proof.Case, s *proof.Measured) { c.Spot, s.Spot = k.Spot, m.Spot }),
		"region":  gap(func(c *proof.Case, s *proof.Measured) { c.Region, s.Region = k.Region, m.Region }),
		"clamped": gap(func(c *proof.Case, s *proof.Measured) { s.Clamped = m.Clamped }),
		"device": gap(func(c *proof.Case, s *proof.Measured) {
			c.Region, c.K, s.Region, s.Stiffness, s.Peak, s.Steady = m.Region, k.K, m.Region, m.Stiffness, m.Peak, m.Steady
		}),
		"speed":    gap(func(c *proof.Case, s *proof.Measured) { c.Speed, s.Speed = k.Speed, m.Speed }),
		"checksum": gap(func(c *proof.Case, s *proof.Measured) { c.Checksum, s.Checksum = k.Checksum, m.Checksum }),
	}
}

func optional(x *float64) expr.Value {
	if x == nil {
		return expr.Value{}
	}
	return num(*x)
}

// positive is a number that counts as not said when it is 0.
func positive(x float64) expr.Value {
	if x == 0 {
		return expr.Value{}
	}
	return num(x)
}

// evidenceCell is the verdict of a check after measurement.
func (p *planner) evidenceCell(c *hazards.Check) Cell { return live(text(string(c.Verdict))) }
