package source

import (
	"strings"
	"testing"
)

func TestNearest(t *testing.T) {
	allowed := []string{"speed", "force", "tcp_speed", "id", "mode", "model", "élan"}
	for _, c := range []struct{ word, want string }{
		{"sped", "speed"}, {"spede", "speed"}, {"Speed", "speed"}, {"forec", "force"}, {"tcp-speed", "tcp_speed"}, {"tcp spede", "tcp_speed"},
		{"di", "id"}, {"idd", "id"}, {"modes", "mode"}, {"elan", "élan"},
		{"", ""}, {"x", ""}, {"colour", ""}, {"xy", ""}, {strings.Repeat("speed", 1000), ""},
	} {
		if got := Nearest(c.word, allowed); got != c.want {
			t.Errorf("Nearest(%q) = %q, want %q", c.word, got, c.want)
		}
	}
	if got := Nearest("a", nil); got != "" {
		t.Errorf("nearest of nothing is %q", got)
	}
	if got := Nearest("cat", []string{"bat", "rat"}); got != "bat" {
		t.Errorf("of equally near names got %q, not the first", got)
	}
}
