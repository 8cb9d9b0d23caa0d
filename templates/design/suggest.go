package design

import (
	"fmt"
	"strings"
)

// Nearest returns the known word that a misspelt one stands for, or "" where none
// is near: how errors find "did you mean".
func Nearest(word string, known []string) string { return suggest(word, known) }

// suggest returns the known word nearest to a misspelt one, or "". Near is at
// most one slip in three letters, or one word that begins the other; a slip is a letter changed, left out, added or
// swapped with its neighbour (Damerau, "A Technique for Computer Detection and
// Correction of Spelling Errors", CACM 7, 1964).
func suggest(word string, known []string) string {
	const longest = 60 // nobody misspells more, and the cost grows with the square
	if len(word) > longest {
		return ""
	}
	a := fold(word)
	best, least := "", len(a)/3+1
	for _, k := range known {
		b := fold(k)
		if a == b {
			return k
		}
		if d := slipsBetween(a, b); d <= min(least, max(len(a), len(b))/3) && (best == "" || d < least) {
			best, least = k, d
		}
	}
	if best == "" {
		best = shared(a, known)
	}
	return best
}

// shared returns the only known word that begins the given one, or that it
// begins: "in" for "inches", "thickness" for "thick".
func shared(a string, known []string) string {
	best := ""
	for _, k := range known {
		b := fold(k)
		if len(b) > 1 && strings.HasPrefix(a, b) || len(a) > 2 && strings.HasPrefix(b, a) {
			if best != "" {
				return ""
			}
			best = k
		}
	}
	return best
}

// fold makes words alike that differ only in case or in the sign between parts.
func fold(s string) string {
	return strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(s))
}

// slipsBetween returns the edit distance with swaps of neighbours.
func slipsBetween(a, b string) int {
	s, t := []rune(a), []rune(b)
	rows := make([][]int, len(s)+1)
	for i := range rows {
		rows[i] = make([]int, len(t)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(s); i++ {
		for j := 1; j <= len(t); j++ {
			change := rows[i-1][j-1]
			if s[i-1] != t[j-1] {
				change++
			}
			d := min(change, rows[i-1][j]+1, rows[i][j-1]+1)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				d = min(d, rows[i-2][j-2]+1)
			}
			rows[i][j] = d
		}
	}
	return rows[len(s)][len(t)]
}

// cureFor proposes the nearest known word, or says what else to do.
func cureFor(word string, known []string, otherwise string) string {
	if s := suggest(word, known); s != "" {
		return fmt.Sprintf("did you mean %q?", s)
	}
	return otherwise
}

// listWords joins words for a message: a, b or c.
func listWords(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
	}
}
