package stopping

import "testing"

// grid is measured at part load and full load, part speed and full speed.
var grid = []Point{
	{"1", 0.33, 0.5, 1, 0.19}, // 0
	{"1", 0.66, 0.5, 1, 0.24}, // 1
	{"1", 0.33, 1, 1, 0.28},   // 2
	{"1", 1, 1, 1, 0.36},      // 3
	{"0", 1, 1, 1, 0.22},      // 4
	{"1", 0.66, 0.5, 1, 0.25}, // 5: as 1, measured again and worse
}

func TestNext(t *testing.T) {
	for _, tt := range []struct {
		name string
		c    Case
		want int
	}{
		{"on a point", Case{"1", 0.33, 0.5, 1}, 0},
		{"below all points", Case{"1", 0, 0, 0}, 0},
		{"heavier by a little", Case{"1", 0.34, 0.5, 1}, 5},
		{"faster by a little", Case{"1", 0.33, 0.51, 1}, 2},
		{"heavier and faster", Case{"1", 0.34, 0.51, 1}, 3},
		{"full", Case{"1", 1, 1, 1}, 3},
		{"other category", Case{"0", 0.1, 0.1, 0.1}, 4},
		{"beyond the grid", Case{"1", 1.01, 1, 1}, -1},
		{"category without points", Case{"2", 0.1, 0.1, 0.1}, -1},
	} {
		got, ok := Next(grid, tt.c)
		if got != tt.want || ok != (tt.want >= 0) {
			t.Errorf("%s: %d, %v; want %d", tt.name, got, ok, tt.want)
		}
	}
}

// Neither of two neighbours ranks above the other when one is heavier and the
// other faster: the one that stops later governs.
func TestWorstOfSeveralNeighbours(t *testing.T) {
	points := []Point{{"1", 1, 0.5, 1, 0.30}, {"1", 0.5, 1, 1, 0.31}, {"1", 1, 1, 1, 0.5}}
	if got, _ := Next(points, Case{"1", 0.4, 0.4, 0.4}); got != 1 {
		t.Errorf("%d, want 1", got)
	}
	points[0].Value = 0.32
	if got, _ := Next(points, Case{"1", 0.4, 0.4, 0.4}); got != 0 {
		t.Errorf("%d, want 0", got)
	}
}

// What governs must not depend on the order in which points were measured.
func TestOrderOfPointsMakesNoDifference(t *testing.T) {
	back := make([]Point, len(grid))
	for i := range grid {
		back[len(grid)-1-i] = grid[i]
	}
	for load := 0.0; load <= 1; load += 0.11 {
		for speed := 0.0; speed <= 1; speed += 0.1 {
			c := Case{"1", load, speed, 0.9}
			a, okA := Next(grid, c)
			b, okB := Next(back, c)
			if okA != okB || okA && grid[a] != back[b] {
				t.Errorf("%+v: %d and %d", c, a, b)
			}
			if okA && !grid[a].covers(c) {
				t.Errorf("%+v: %+v does not cover it", c, grid[a])
			}
		}
	}
}

func TestWorse(t *testing.T) {
	p := Point{"1", 0.66, 0.5, 1, 0.24}
	for _, tt := range []struct {
		name string
		o    Point
		want bool
	}{
		{"lighter", Point{"1", 0.33, 0.5, 1, 0}, true},
		{"slower and nearer", Point{"1", 0.66, 0.4, 0.9, 0}, true},
		{"the same", p, false},
		{"lighter but faster", Point{"1", 0.33, 0.6, 1, 0}, false},
		{"heavier", Point{"1", 1, 0.5, 1, 0}, false},
		{"lighter in another category", Point{"0", 0.33, 0.5, 1, 0}, false},
	} {
		if got := p.Worse(tt.o); got != tt.want {
			t.Errorf("%s: %v", tt.name, got)
		}
	}
}
