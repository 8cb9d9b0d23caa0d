package browser

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"sync"
	"time"
)

// Page is one page of a browser, a tab.
type Page struct {
	b               *Browser
	target, session string
	loaded          chan struct{}

	mu    sync.Mutex
	said  []string
	asked []string
}

// NewPage opens an empty page and listens to it.
func (b *Browser) NewPage() (*Page, error) {
	var made struct {
		TargetID string `json:"targetId"`
	}
	if err := b.call("", "Target.createTarget", object{"url": "about:blank"}, &made); err != nil {
		return nil, err
	}
	var joined struct {
		SessionID string `json:"sessionId"`
	}
	if err := b.call("", "Target.attachToTarget", object{"targetId": made.TargetID, "flatten": true}, &joined); err != nil {
		return nil, err
	}
	p := &Page{b: b, target: made.TargetID, session: joined.SessionID, loaded: make(chan struct{}, 16)}
	b.mu.Lock()
	b.pages[p.session] = p
	b.mu.Unlock()
	for _, domain := range []string{"Page", "Runtime", "Log", "Network"} {
		if err := p.call(domain+".enable", nil, nil); err != nil {
			return nil, err
		}
	}
	return p, nil
}

type object map[string]any

func (p *Page) call(method string, params, result any) error {
	return p.b.call(p.session, method, params, result)
}

// Close closes the page.
func (p *Page) Close() error {
	return p.b.call("", "Target.closeTarget", object{"targetId": p.target}, nil)
}

// event keeps what the page said and asked for.
func (p *Page) event(method string, params json.RawMessage) {
	var e struct {
		Type string `json:"type"` // of a console call
		Args []struct {
			Value       any    `json:"value"`
			Description string `json:"description"`
		} `json:"args"`
		Exception struct {
			Text      string `json:"text"`
			Exception struct {
				Description string `json:"description"`
			} `json:"exception"`
		} `json:"exceptionDetails"`
		Entry struct {
			Level string `json:"level"`
			Text  string `json:"text"`
			URL   string `json:"url"`
		} `json:"entry"`
		Request struct {
			URL string `json:"url"`
		} `json:"request"`
	}
	if json.Unmarshal(params, &e) != nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	switch method {
	case "Page.loadEventFired":
		select {
		case p.loaded <- struct{}{}:
		default:
		}
	case "Runtime.consoleAPICalled":
		if e.Type == "error" || e.Type == "warning" || e.Type == "assert" {
			words := []string{"console", e.Type}
			for _, a := range e.Args {
				if a.Description != "" {
					words = append(words, a.Description)
				} else {
					words = append(words, fmt.Sprint(a.Value))
				}
			}
			p.said = append(p.said, strings.Join(words, " "))
		}
	case "Runtime.exceptionThrown":
		p.said = append(p.said, "exception "+e.Exception.Text+" "+e.Exception.Exception.Description)
	case "Log.entryAdded":
		if e.Entry.Level == "error" || e.Entry.Level == "warning" {
			p.said = append(p.said, strings.TrimSpace("log "+e.Entry.Level+" "+e.Entry.Text+" "+e.Entry.URL))
		}
	case "Network.requestWillBeSent":
		p.asked = append(p.asked, e.Request.URL)
	}
}

// Said returns every warning, error and exception so far.
func (p *Page) Said() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return append([]string(nil), p.said...)
}

// Asked returns the address of every request so far, pictures held in the page
// (data:) and the page itself too.
func (p *Page) Asked() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return append([]string(nil), p.asked...)
}

// Open goes to an address and waits until all of it is loaded.
func (p *Page) Open(url string) error {
	p.forget()
	var went struct {
		ErrorText string `json:"errorText"`
	}
	if err := p.call("Page.navigate", object{"url": url}, &went); err != nil {
		return err
	}
	if went.ErrorText != "" {
		return fmt.Errorf("%s: %s", url, went.ErrorText)
	}
	return p.wait()
}

// Reload loads the page again.
func (p *Page) Reload() error {
	p.forget()
	if err := p.call("Page.reload", nil, nil); err != nil {
		return err
	}
	return p.wait()
}

func (p *Page) forget() {
	for {
		select {
		case <-p.loaded:
		default:
			return
		}
	}
}

func (p *Page) wait() error {
	select {
	case <-p.loaded:
		return nil
	case <-p.b.gone:
		return errors.New("the browser has ended")
	case <-time.After(patience):
		return fmt.Errorf("not loaded within %v", patience)
	}
}

// Size sets the window, in CSS pixels, and the pixels of a picture to each.
func (p *Page) Size(w, h int, scale float64) error {
	return p.call("Emulation.setDeviceMetricsOverride", object{"width": w, "height": h, "deviceScaleFactor": scale, "mobile": false}, nil)
}

// Media sets the medium, "screen" or "print", and the colour scheme that its reader
// prefers, "light" or "dark".
func (p *Page) Media(medium, scheme string) error {
	return p.call("Emulation.setEmulatedMedia", object{"media": medium,
		"features": []object{{"name": "prefers-color-scheme", "value": scheme}}}, nil)
}

// Scripts allows the page scripts, or not, from the next Open on. Eval works either
// way.
func (p *Page) Scripts(on bool) error {
	return p.call("Emulation.setScriptExecutionDisabled", object{"value": !on}, nil)
}

// Eval evaluates an expression, waits for a promise, and decodes the value into
// into, which may be nil.
func (p *Page) Eval(expression string, into any) error {
	var out struct {
		Result struct {
			Value json.RawMessage `json:"value"`
		} `json:"result"`
		Exception *struct {
			Text      string `json:"text"`
			Exception struct {
				Description string `json:"description"`
			} `json:"exception"`
		} `json:"exceptionDetails"`
	}
	if err := p.call("Runtime.evaluate", object{"expression": expression, "returnByValue": true, "awaitPromise": true}, &out); err != nil {
		return err
	}
	if e := out.Exception; e != nil {
		return fmt.Errorf("%.80s: %s %s", expression, e.Text, e.Exception.Description)
	}
	if into == nil {
		return nil
	}
	return json.Unmarshal(out.Result.Value, into)
}

// Print returns the page as a tagged PDF on paper of w × h inches, with the margins
// that the page asks for.
func (p *Page) Print(w, h float64) ([]byte, error) {
	var out struct{ Data []byte }
	err := p.call("Page.printToPDF", object{"paperWidth": w, "paperHeight": h, "printBackground": false, "preferCSSPageSize": false,
		"generateTaggedPDF": true}, &out)
	return out.Data, err
}

// Shot returns a PNG of w × h CSS pixels of the page from (x, y) on, which may lie
// below the window.
func (p *Page) Shot(x, y, w, h float64) ([]byte, error) {
	var out struct{ Data []byte }
	err := p.call("Page.captureScreenshot", object{"format": "png", "captureBeyondViewport": true,
		"clip": object{"x": x, "y": y, "width": w, "height": h, "scale": 1}}, &out)
	return out.Data, err
}
