package main

import (
	"path/filepath"
	"time"

	"github.com/fsnotify/fsnotify"
)

// settle is how long a file must stay quiet after a change before it is read:
// editors write in several steps. Common practice.
const settle = 80 * time.Millisecond

// watcher tells when one of some files was saved. It watches the folders that
// they lie in, since many editors write a new file and rename it over the old one.
type watcher struct {
	notify  *fsnotify.Watcher
	names   chan []string // files to be watched from now on
	changed chan struct{}
	failed  chan error
}

func newWatcher(files []string) (*watcher, error) {
	n, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, err
	}
	w := &watcher{notify: n, names: make(chan []string, 1), changed: make(chan struct{}, 1), failed: make(chan error, 1)}
	if err := w.watch(files); err != nil {
		n.Close()
		return nil, err
	}
	go w.run()
	return w, nil
}

// watch sets the files that are watched.
func (w *watcher) watch(files []string) error {
	want := map[string]bool{}
	for _, f := range files {
		want[filepath.Dir(f)] = true
	}
	for _, d := range w.notify.WatchList() {
		if !want[d] {
			_ = w.notify.Remove(d) // gone with its folder, or not: it is asked for no more
		}
		delete(want, d)
	}
	for d := range want {
		if err := w.notify.Add(d); err != nil {
			return err
		}
	}
	select { // only the latest counts
	case <-w.names:
	default:
	}
	w.names <- files
	return nil
}

func (w *watcher) close() { w.notify.Close() }

// run turns events into at most one change each time the files have settled.
func (w *watcher) run() {
	var names map[string]bool
	var quiet <-chan time.Time
	for {
		select {
		case files := <-w.names:
			names = map[string]bool{}
			for _, f := range files {
				names[filepath.Clean(f)] = true
			}
		case e, ok := <-w.notify.Events:
			if !ok {
				return
			}
			if names[filepath.Clean(e.Name)] && !e.Has(fsnotify.Chmod) {
				quiet = time.After(settle)
			}
		case <-quiet:
			quiet = nil
			select {
			case w.changed <- struct{}{}:
			default: // one is waiting already
			}
		case err, ok := <-w.notify.Errors:
			if !ok {
				return
			}
			w.failed <- err
			return
		}
	}
}
