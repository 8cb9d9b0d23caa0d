package ingest

import (
	"regexp"
	"strings"
)

// rule is a style rule with a simple selector: ".hidden", "#sketch", "path" or
// "*". weight orders rules by specificity (CSS 2, 6.4.3).
type rule struct {
	selector string
	weight   int
	props    map[string]string
}

// cssMatters are the properties that decide what is drawn and where.
var cssMatters = map[string]bool{
	"display": true, "visibility": true, "transform": true, "transform-origin": true, "clip-path": true, "mask": true,
	"x": true, "y": true, "cx": true, "cy": true, "r": true, "rx": true, "ry": true, "width": true, "height": true, "d": true,
}

var cssComment = regexp.MustCompile(`(?s)/\*.*?\*/`)

var simpleSelector = regexp.MustCompile(`^(\*|[.#]?[\p{L}_-][\p{L}\p{N}_-]*)$`)

// rules reads a style sheet as far as it decides what is drawn. odd holds the
// selectors of rules that matter and are not simple.
func rules(sheet string) (list []rule, odd []string) {
	for _, block := range strings.Split(cssComment.ReplaceAllString(sheet, ""), "}") {
		head, body, ok := strings.Cut(block, "{")
		if !ok {
			continue
		}
		props := map[string]string{}
		for k, v := range declarations(body) {
			if cssMatters[k] {
				props[k] = v
			}
		}
		if len(props) == 0 {
			continue
		}
		for _, s := range strings.Split(head, ",") {
			s = strings.TrimSpace(s)
			if !simpleSelector.MatchString(s) {
				odd = append(odd, s)
				continue
			}
			weight := map[byte]int{'#': 3, '.': 2, '*': 0}
			w, special := weight[s[0]]
			if !special {
				w = 1
			}
			list = append(list, rule{s, w, props})
		}
	}
	return list, odd
}

// declarations reads "name: value; name: value".
func declarations(s string) map[string]string {
	m := map[string]string{}
	for _, d := range strings.Split(s, ";") {
		if k, v, ok := strings.Cut(d, ":"); ok {
			m[strings.TrimSpace(k)] = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(v), "!important"))
		}
	}
	return m
}

// matches reports whether the rule is for n.
func (r rule) matches(n *node) bool {
	switch r.selector[0] {
	case '*':
		return true
	case '#':
		return n.id() == r.selector[1:]
	case '.':
		for _, c := range strings.Fields(n.attr["class"]) {
			if c == r.selector[1:] {
				return true
			}
		}
		return false
	}
	return n.name == r.selector
}

// applySheets gives every node the properties of the style sheets in the tree:
// the heavier rule wins, of equals the later.
func applySheets(root *node) (odd []string) {
	var list []rule
	root.each(func(n *node) {
		if n.name == "style" {
			l, o := rules(n.text)
			list, odd = append(list, l...), append(odd, o...)
		}
	})
	if len(list) == 0 {
		return odd
	}
	root.each(func(n *node) {
		won := map[string]int{}
		for _, r := range list {
			if !r.matches(n) {
				continue
			}
			for k, v := range r.props {
				if w, has := won[k]; has && w > r.weight {
					continue
				}
				if n.css == nil {
					n.css = map[string]string{}
				}
				won[k], n.css[k] = r.weight, v
			}
		}
	})
	return odd
}

// each calls f for n and all below it.
func (n *node) each(f func(*node)) {
	f(n)
	for _, k := range n.kids {
		k.each(f)
	}
}

// cssOnly returns the value of a property in the style attribute, else in a
// style sheet.
func (n *node) cssOnly(property string) string {
	if s, ok := n.attr["style"]; ok && strings.Contains(s, property) {
		if v, ok := declarations(s)[property]; ok {
			return v
		}
	}
	return n.css[property]
}

// style returns the value of a property; CSS rules over the presentation
// attribute (SVG 1.1, 6.4).
func (n *node) style(property string) string {
	if v := n.cssOnly(property); v != "" {
		return v
	}
	return strings.TrimSpace(n.attr[property])
}
