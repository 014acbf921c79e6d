package source

import (
	"math/rand/v2"
	"slices"
	"testing"
)

func TestPosString(t *testing.T) {
	for _, c := range []struct {
		pos  Pos
		want string
	}{{Pos{"f", 2, 3}, "f:2:3"}, {Pos{"", 2, 3}, "2:3"}, {Pos{"f", 0, 0}, "f"}, {Pos{}, ""}} {
		if got := c.pos.String(); got != c.want {
			t.Errorf("%#v is %q, want %q", c.pos, got, c.want)
		}
	}
}

// The list is sorted, without repeats, and does not depend on the order of adding.
func TestProblemsSorted(t *testing.T) {
	all := []Problem{
		{Pos: Pos{"a", 1, 1}, Message: "x"}, {Pos: Pos{"a", 1, 1}, Message: "y"}, {Pos: Pos{"a", 1, 1}, Message: "y", Hint: "h"},
		{Pos: Pos{"a", 1, 2}, Message: "a"}, {Pos: Pos{"a", 2, 1}, Message: "a"}, {Pos: Pos{"a", 10, 1}, Message: "a"}, {Pos: Pos{"b", 1, 1}, Message: "a"},
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		var ps Problems
		for _, i := range r.Perm(2 * len(all)) {
			ps.Add(all[i%len(all)])
		}
		if ps.Len() != 2*len(all) {
			t.Fatalf("Len is %d", ps.Len())
		}
		if got := ps.List(); !slices.Equal(got, all) {
			t.Fatalf("got %v", got)
		}
	}
}

func TestProblemsZero(t *testing.T) {
	var ps Problems
	if ps.Len() != 0 || len(ps.List()) != 0 {
		t.Error("a new list is not empty")
	}
	ps.Addf(Pos{"f", 1, 2}, "found %d", 3)
	wantTold(t, &ps, "1:2+0 found 3 |  | ")
}
