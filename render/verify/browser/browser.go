// Package browser drives a Chromium for tests, over the pipe of its DevTools
// protocol: it opens files, sets the window, the medium and the scripts, runs
// expressions, takes pictures and prints, and keeps what a page said on its console
// and asked of the network. It needs nothing but the browser, and knows nothing of
// what it shows.
//
// The commands are of the protocol's stable part
// (https://chromedevtools.github.io/devtools-protocol/).
package browser

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"sync"
	"time"
)

// patience is how long one command may take: a book prints in seconds, on a
// machine that does much else in tens of them.
const patience = 2 * time.Minute

// Browser is a running browser without a window.
type Browser struct {
	cmd  *exec.Cmd
	in   io.WriteCloser
	dir  string
	gone chan struct{} // closed when the browser's end of the pipe is

	mu      sync.Mutex
	next    int
	waiting map[int]chan reply
	pages   map[string]*Page // by session
}

type reply struct {
	Result json.RawMessage
	Err    error
}

// message is what comes over the pipe: an answer where ID is not 0, else an event.
type message struct {
	ID        int             `json:"id"`
	SessionID string          `json:"sessionId"`
	Method    string          `json:"method"`
	Params    json.RawMessage `json:"params"`
	Result    json.RawMessage `json:"result"`
	Error     *struct {
		Message string `json:"message"`
		Data    string `json:"data"`
	} `json:"error"`
}

// Start runs the program without a window, with a profile of its own, and without a
// network beyond this machine. It runs as root, too: only what the tests made is
// opened, so the sandbox, which root cannot have, is left out. The environment is
// that of the test and what env adds, "NAME=value" each.
func Start(program string, env ...string) (*Browser, error) {
	dir, err := os.MkdirTemp("", "browser")
	if err != nil {
		return nil, err
	}
	b := &Browser{dir: dir, gone: make(chan struct{}), waiting: map[int]chan reply{}, pages: map[string]*Page{}}
	fail := func(err error) (*Browser, error) { return nil, errors.Join(err, os.RemoveAll(dir)) }
	theirIn, ourOut, err := os.Pipe()
	if err != nil {
		return fail(err)
	}
	ourIn, theirOut, err := os.Pipe()
	if err != nil {
		return fail(err)
	}
	b.in = ourOut
	b.cmd = exec.Command(program, "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-extensions",
		"--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1", "--font-render-hinting=none", "--force-color-profile=srgb",
		"--remote-debugging-pipe", "--user-data-dir="+dir)
	b.cmd.Env = append(os.Environ(), env...)
	b.cmd.ExtraFiles = []*os.File{theirIn, theirOut} // its descriptors 3 and 4
	if err := b.cmd.Start(); err != nil {
		return fail(err)
	}
	theirIn.Close()
	theirOut.Close()
	go b.read(ourIn)
	return b, nil
}

// Close ends the browser and removes its profile.
func (b *Browser) Close() error {
	_ = b.call("", "Browser.close", nil, nil)
	b.in.Close()
	done := make(chan struct{})
	go func() { _ = b.cmd.Wait(); close(done) }()
	select {
	case <-done:
	case <-time.After(10 * time.Second):
		_ = b.cmd.Process.Kill()
		<-done
	}
	return os.RemoveAll(b.dir)
}

// read takes messages, each ended by a zero byte, until the pipe closes.
func (b *Browser) read(r io.ReadCloser) {
	defer r.Close()
	defer close(b.gone)
	in := bufio.NewReaderSize(r, 1<<20)
	for {
		text, err := in.ReadBytes(0)
		if err != nil {
			return
		}
		var m message
		if json.Unmarshal(text[:len(text)-1], &m) != nil {
			continue
		}
		b.mu.Lock()
		answer, page := b.waiting[m.ID], b.pages[m.SessionID]
		delete(b.waiting, m.ID)
		b.mu.Unlock()
		switch {
		case m.ID != 0 && answer != nil:
			q := reply{Result: m.Result}
			if m.Error != nil {
				q.Err = fmt.Errorf("%s %s", m.Error.Message, m.Error.Data)
			}
			answer <- q
		case m.ID == 0 && page != nil:
			page.event(m.Method, m.Params)
		}
	}
}

// call runs one command, of a page's session or, with none, of the browser.
func (b *Browser) call(session, method string, params, result any) error {
	answer := make(chan reply, 1)
	b.mu.Lock()
	b.next++
	m := map[string]any{"id": b.next, "method": method}
	if session != "" {
		m["sessionId"] = session
	}
	if params != nil {
		m["params"] = params
	}
	text, err := json.Marshal(m)
	if err == nil {
		b.waiting[b.next] = answer
		_, err = b.in.Write(append(text, 0))
	}
	b.mu.Unlock()
	if err != nil {
		return fmt.Errorf("%s: %w", method, err)
	}
	select {
	case q := <-answer:
		if q.Err != nil {
			return fmt.Errorf("%s: %w", method, q.Err)
		}
		if result == nil {
			return nil
		}
		return json.Unmarshal(q.Result, result)
	case <-b.gone:
		return fmt.Errorf("%s: the browser has ended", method)
	case <-time.After(patience):
		return fmt.Errorf("%s: no answer within %v", method, patience)
	}
}
