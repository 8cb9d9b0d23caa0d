package toml

import (
	"fmt"
	"regexp"
	"sort"
	"strings"
	"unicode/utf8"
)

// reader walks over the file. A method that fails has reported its error and
// returns false; the statement it belongs to is then given up.
type reader struct {
	src     string
	i       int   // offset of the next byte
	lines   []int // offset of each line's first byte
	errs    []Error
	errAt   int // offset of the last error
	mark    int // offset of the last place asked for
	markAt  Pos
	root    *Table
	cur     *Table // table of the last header
	name    string // of cur, for messages
	key     string // key being read, for messages
	section int    // number of the last header, from 1
	depth   int
}

// Parse reads a file, which must be UTF-8. The tree holds all that could be
// read; the errors come in the order of the file, at most 50 of them. Time is
// linear in the size of the file.
func Parse(src []byte) (*Table, []Error) {
	r := &reader{src: strings.TrimPrefix(string(src), "\ufeff"), section: 1}
	r.lines = []int{0}
	for i := 0; i < len(r.src); i++ {
		if r.src[i] == '\n' {
			r.lines = append(r.lines, i+1)
		}
	}
	r.root = &Table{At: Pos{1, 1}, defined: true}
	r.cur = r.root
	for r.i < len(r.src) && len(r.errs) < maxErrors {
		start := r.i
		if !r.statement() {
			r.recover(start)
		}
	}
	sort.SliceStable(r.errs, func(a, b int) bool { return less(r.errs[a].At, r.errs[b].At) })
	return r.root, r.errs
}

func less(a, b Pos) bool { return a.Line < b.Line || a.Line == b.Line && a.Col < b.Col }

// pos returns the place of an offset. It counts on from the last place asked
// for, so that one long line costs no more than many short ones.
func (r *reader) pos(off int) Pos {
	n := sort.SearchInts(r.lines, off+1)
	if n == r.markAt.Line && off >= r.mark {
		r.markAt.Col += utf8.RuneCountInString(r.src[r.mark:off])
	} else {
		r.markAt = Pos{n, utf8.RuneCountInString(r.src[r.lines[n-1]:off]) + 1}
	}
	r.mark = off
	return r.markAt
}

// fail reports an error at an offset. It returns false for its caller to return.
func (r *reader) fail(off int, given, allowed, cure string) bool {
	r.errAt = off
	if len(r.errs) >= maxErrors {
		r.i = len(r.src) // nothing more is read
		return false
	}
	key := r.key
	if r.name != "" && key != "" {
		key = r.name + "." + key
	} else if key == "" {
		key = r.name
	}
	r.errs = append(r.errs, Error{r.pos(off), key, given, allowed, cure})
	return false
}

// peek returns the byte n after the next, or 0 at the end.
func (r *reader) peek(n int) byte {
	if r.i+n < len(r.src) {
		return r.src[r.i+n]
	}
	return 0
}

// has reports whether the rest begins with s.
func (r *reader) has(s string) bool { return strings.HasPrefix(r.src[r.i:], s) }

// space skips blanks and tabs.
func (r *reader) space() {
	for r.i < len(r.src) && (r.src[r.i] == ' ' || r.src[r.i] == '\t') {
		r.i++
	}
}

// newline skips one line end. A carriage return alone is none.
func (r *reader) newline() bool {
	switch {
	case r.has("\r\n"):
		r.i += 2
	case r.has("\n"):
		r.i++
	default:
		return false
	}
	return true
}

// comment skips a comment up to its line end, and refuses control characters.
func (r *reader) comment() bool {
	if r.peek(0) != '#' {
		return true
	}
	for r.i < len(r.src) && r.src[r.i] != '\n' && !r.has("\r\n") {
		if control(r.src[r.i]) {
			return r.fail(r.i, "a control character in a comment", "letters, signs and tabs", "delete it")
		}
		r.i++
	}
	return true
}

// control reports whether TOML forbids the byte in comments and strings.
func control(b byte) bool { return b < 0x20 && b != '\t' || b == 0x7f }

// blank skips blanks, line ends and comments inside an array.
func (r *reader) blank() bool {
	for {
		r.space()
		if !r.comment() {
			return false
		}
		if !r.newline() {
			return true
		}
	}
}

// statement reads one line: blank, a comment, a header, or a key with its value.
func (r *reader) statement() bool {
	r.key = ""
	r.space()
	switch c := r.peek(0); {
	case r.i == len(r.src):
		return true
	case c == '\n' || c == '#' || c == '\r':
	case c == '[':
		if !r.header() {
			return false
		}
	default:
		if !r.pair(r.cur) {
			return false
		}
	}
	return r.lineEnd()
}

// lineEnd expects nothing more on the line than a comment.
func (r *reader) lineEnd() bool {
	r.space()
	if !r.comment() {
		return false
	}
	if r.i == len(r.src) || r.newline() {
		return true
	}
	rest := r.word(r.i)
	if r.peek(0) == '\r' {
		return r.fail(r.i, "a carriage return alone", "line ends of LF or CR LF", "save the file with ordinary line ends")
	}
	cure := "start a new line, or put quotes round the whole text"
	if c := r.peek(1); r.peek(0) == ',' && c >= '0' && c <= '9' {
		cure = "write the decimal point as a point, or start a new line"
	}
	return r.fail(r.i, rest+" after the end of the value", "one key = value a line", cure)
}

// recover goes to where reading can resume: the line of the error when that is
// a statement of its own, else the line after.
func (r *reader) recover(start int) {
	at := max(r.errAt, start)
	n := sort.SearchInts(r.lines, at+1)
	first := r.lines[n-1]
	if first > start && r.startsStatement(first) {
		r.i = first
		return
	}
	if n < len(r.lines) {
		r.i = r.lines[n]
		return
	}
	r.i = len(r.src)
}

// resync goes on inside a list or inline table after a value that could not be
// read: to the next of the given bytes or the line's end. It returns false when
// the error stands in a line that is a statement of its own.
func (r *reader) resync(start int, ends string) bool {
	r.i = max(r.i, r.errAt)
	n := sort.SearchInts(r.lines, r.i+1)
	if first := r.lines[n-1]; first > start && r.startsStatement(first) {
		return false
	}
	if n := strings.IndexAny(r.src[r.i:], ends+"\n"); n >= 0 {
		r.i += n
		return true
	}
	r.i = len(r.src)
	return false
}

// newStatement reports whether the next byte is the first of a line that begins
// a statement of its own, as it does after a list that was not closed.
func (r *reader) newStatement() bool {
	n := sort.SearchInts(r.lines, r.i+1)
	first := r.lines[n-1]
	return strings.Trim(r.src[first:r.i], " \t") == "" && r.startsStatement(first)
}

// statementForm is a line that cannot continue a list: a bare key with its
// equals sign, or a header.
var statementForm = regexp.MustCompile(`^[ \t]*([A-Za-z0-9_-]+([ \t]*\.[ \t]*[A-Za-z0-9_-]+)*[ \t]*=|\[\[?[ \t]*[a-z][A-Za-z0-9_-]*([ \t]*\.[ \t]*[A-Za-z0-9_-]+)*[ \t]*\])`)

// wordItem is a list that looks like a header.
var wordItem = regexp.MustCompile(`^[ \t]*\[\[?[ \t]*(true|false|inf|nan)[ \t]*\]`)

// startsStatement reports whether the line at an offset is a statement.
func (r *reader) startsStatement(off int) bool {
	line, _, _ := strings.Cut(r.ahead(off), "\n")
	return statementForm.MatchString(line) && !wordItem.MatchString(line)
}

// ahead returns the next bytes at an offset: as many as any message or look
// ahead needs, so that one long line costs no more than many short ones.
func (r *reader) ahead(off int) string { return r.src[off:min(len(r.src), off+200)] }

// word quotes what stands at an offset, cut to a readable length.
func (r *reader) word(off int) string {
	line, _, _ := strings.Cut(r.ahead(off), "\n")
	line = strings.TrimRight(line, "\r ")
	if line == "" {
		if off >= len(r.src) {
			return "the end of the file"
		}
		return "the end of the line"
	}
	return Quote(line)
}

// longestShown is how many characters of a text a message shows.
const longestShown = 40

// Quote prints a text for a message: in quotes, control characters escaped, cut
// after 40 characters.
func Quote(s string) string {
	n := 0
	for i := range s {
		if n == longestShown {
			return fmt.Sprintf("%q…", s[:i])
		}
		n++
	}
	return fmt.Sprintf("%q", s)
}
