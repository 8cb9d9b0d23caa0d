package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/signal"
	"time"

	"github.com/urfave/cli/v2"
)

func viewCommand() *cli.Command {
	return &cli.Command{
		Name:      "view",
		Usage:     "show sheets, findings and shop book in the browser, live as the design file is saved",
		ArgsUsage: "FILE",
		Description: "Prints an address of this machine to open in a browser, and goes on until it is\n" +
			"interrupted. Each time the design file is saved, or a drawing that it names, everything is\n" +
			"solved, checked and drawn again. While the design is wrong, the last good sheets stay and\n" +
			"the errors stand above them. Nothing is written, and nobody but this machine can connect.\n\n" +
			"Example:  routwright view guitar.toml",
		OnUsageError: usageError,
		Flags: []cli.Flag{
			setFlag(),
			&cli.IntFlag{Name: "port", Usage: "`NUMBER` of the port on 127.0.0.1; 0 takes a free one"},
		},
		Action: func(c *cli.Context) error {
			name, err := oneArg(c, "the name of a design file")
			if err != nil {
				return err
			}
			port := c.Int("port")
			if port < 0 || port > 65535 {
				return codedError{exitUsage, fmt.Errorf("--port %d: a number from 0 to 65535", port)}
			}
			if _, err := readDesign(name); err != nil {
				return err
			}
			old, err := recordOf(c.String("set"))
			if err != nil {
				return err
			}
			ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
			defer stop()
			return failed(serveView(ctx, newViewer(name, kept(old)), port, func(address string) {
				fmt.Fprintf(c.App.Writer, "%s  shows %s; Ctrl-C ends\n", address, name)
			}))
		},
	}
}

// serveView shows a design until ctx ends. ready is told the address.
func serveView(ctx context.Context, v *viewer, port int, ready func(address string)) error {
	name := v.name
	w, err := newWatcher(v.files())
	if err != nil {
		return fmt.Errorf("cannot watch %s: %w", name, err)
	}
	defer w.close()
	l, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", port))
	if err != nil {
		return err
	}
	// No write timeout: the stream of events stays open.
	s := &http.Server{Handler: v.handler(l.Addr().String()), ReadHeaderTimeout: 5 * time.Second, BaseContext: func(net.Listener) context.Context { return ctx }}
	done := make(chan error, 1)
	go func() { done <- s.Serve(l) }()
	ready("http://" + l.Addr().String() + "/")
	for {
		select {
		case <-w.changed:
			v.build()
			if err := w.watch(v.files()); err != nil {
				return fmt.Errorf("cannot watch %s: %w", name, err)
			}
		case err := <-w.failed:
			return err
		case err := <-done:
			return err
		case <-ctx.Done():
			end, cancel := context.WithTimeout(context.Background(), time.Second)
			defer cancel()
			if err := s.Shutdown(end); err != nil && !errors.Is(err, context.DeadlineExceeded) {
				return err
			}
			return nil
		}
	}
}
