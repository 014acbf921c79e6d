package hazards_test

import (
	"testing"
)

// A row under a method without residual risk needs no estimate after measures,
// and none is worked out.
func TestRowsWithoutResidualRisk(t *testing.T) {
	data := cell(t, "method: hybrid", "method: graph", "before: {Se: 3, Fr: 5, Pr: 3}", "before: {S: S1, F: F2, P: P1}")
	r := result(t, data)
	n := 0
	for i := range r.Rows {
		row := &r.Rows[i]
		if row.After.Done || row.After.Level != "" || row.After.Scores != nil {
			t.Errorf("%s: after measures %+v", row.ID, row.After)
		}
		switch {
		case row.Before.Done:
			n++
			if row.Before.Level != "b" || row.Before.Of != "" {
				t.Errorf("%s: before measures %+v", row.ID, row.Before)
			}
		case row.Before.Of != "hybrid" && len(row.Spec.Before) > 0:
			t.Errorf("%s: scores of method %q", row.ID, row.Before.Of)
		}
	}
	if n != 1 {
		t.Errorf("%d rows with an estimate", n)
	}
}
