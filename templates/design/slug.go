package design

import (
	"fmt"
	"strings"
	"unicode"
)

// plainLetters are the letters that accents stand on, so that Slug reads well
// for European names (the base letters of the Unicode decompositions).
var plainLetters = map[rune]string{'ß': "ss", 'æ': "ae", 'œ': "oe", 'ø': "o", 'đ': "d", 'ð': "d", 'þ': "th", 'ł': "l", 'ı': "i"}

func init() {
	for base, with := range map[string]string{
		"a": "àáâãäåāăą", "c": "çćĉċč", "d": "ď", "e": "èéêëēĕėęě", "g": "ĝğġģ", "h": "ĥħ", "i": "ìíîïĩīĭį", "j": "ĵ", "k": "ķ",
		"l": "ĺļľŀ", "n": "ñńņň", "o": "òóôõöōŏő", "r": "ŕŗř", "s": "śŝşšș", "t": "ţťŧț", "u": "ùúûüũūŭůűų", "w": "ŵ", "y": "ýÿŷ", "z": "źżž",
	} {
		for _, r := range with {
			plainLetters[r] = base
		}
	}
}

// reserved are names that some systems keep for devices.
var reserved = map[string]bool{"con": true, "prn": true, "aux": true, "nul": true}

// longestSlug keeps file names under every system's limit.
const longestSlug = 60

// Slug returns a file name for a name, without its ending: a to z, 0 to 9 and
// single hyphens, never empty. Letters of other scripts become u and their
// number in Unicode, so that the same name gives the same file everywhere and
// unlike names seldom meet. Where two do meet, the caller adds a number.
func Slug(name string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(name) {
		s := plainLetters[r]
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			s = string(r)
		case s == "" && (unicode.IsLetter(r) || unicode.IsNumber(r)):
			s = fmt.Sprintf("u%04x", r)
		}
		if s == "" {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteString(s)
		if b.Len() >= longestSlug {
			break
		}
	}
	out := strings.Trim(b.String()[:min(b.Len(), longestSlug)], "-")
	switch {
	case out == "":
		return "unnamed"
	case reserved[out]:
		return out + "-1"
	}
	return out
}
