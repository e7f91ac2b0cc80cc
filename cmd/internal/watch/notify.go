package watch

import "github.com/fsnotify/fsnotify"

// notifier reports changes in folders. plinth uses the system's; tests have their own.
type notifier interface {
	Add(dir string) error
	Remove(dir string) error
	Events() <-chan fsnotify.Event
	Errors() <-chan error
	Close() error
}

// system is fsnotify as a notifier.
type system struct{ w *fsnotify.Watcher }

func newFsnotify() (notifier, error) {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, err
	}
	return system{w}, nil
}

func (s system) Add(dir string) error          { return s.w.Add(dir) }
func (s system) Remove(dir string) error       { return s.w.Remove(dir) }
func (s system) Events() <-chan fsnotify.Event { return s.w.Events }
func (s system) Errors() <-chan error          { return s.w.Errors }
func (s system) Close() error                  { return s.w.Close() }
