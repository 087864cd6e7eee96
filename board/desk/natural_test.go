package desk

import (
	"slices"
	"testing"
)

func TestSortNaturally(t *testing.T) {
	got := []string{"shot 10.png", "Shot 2.png", "shot 1.png", "a/b/shot 02.png", "10.png", "9.png", "tea.png", "Äpfel.png", "shot.png"}
	SortNaturally(got)
	want := []string{"9.png", "10.png", "shot 1.png", "Shot 2.png", "a/b/shot 02.png", "shot 10.png", "shot.png", "tea.png", "Äpfel.png"}
	if !slices.Equal(got, want) {
		t.Errorf("SortNaturally:\n got %q\nwant %q", got, want)
	}
}
