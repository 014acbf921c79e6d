package source

// YesNo is an answer written yes or no; empty when not given.
type YesNo string

// The answers.
const (
	Yes YesNo = "yes"
	No  YesNo = "no"
)

// DecodeNode takes yes or no and nothing else.
func (y *YesNo) DecodeNode(n *Node, ps *Problems) {
	const expected = "`yes` or `no`"
	if n.Kind != Scalar {
		ps.Add(n.Problem("found "+describe(n), expected, ""))
		return
	}
	switch n.Value {
	case "yes", "no":
		*y = YesNo(n.Value)
	case "true", "True", "TRUE", "on", "On", "ON", "y", "Y", "Yes", "YES":
		ps.Add(n.Problem("found "+describe(n), expected, "did you mean `yes`?"))
	case "false", "False", "FALSE", "off", "Off", "OFF", "n", "N", "No", "NO":
		ps.Add(n.Problem("found "+describe(n), expected, "did you mean `no`?"))
	default:
		ps.Add(n.Problem("found "+describe(n), expected, ""))
	}
}
