# make demo     builds the program and makes the demo set in demo/
# make test     all tests that need nothing but Go
# make verify   opens the demo set in other people's programs and measures it, and
#               every design's book in a browser; installs what it needs with
#               apt-get and npm
# make peers    tests against GEOS, Clipper and a geometry library in Go, and the
#               table of times; installs what it needs with apt-get
# make bench    benchmarks
# make fuzz     every fuzz target for FUZZTIME
# make cross    the program for Linux, macOS and Windows, without cgo, in dist/
GO ?= go
FUZZTIME ?= 30s
VERSION ?= $(shell git describe --tags --always --dirty 2>/dev/null || echo 0.1.0)

.PHONY: build demo test verify peers bench fuzz cross
build:
	CGO_ENABLED=0 $(GO) build -trimpath -ldflags "-X main.version=$(VERSION)" -o routwright ./cmd/routwright

demo: build
	./routwright check testdata/millrace.toml
	./routwright make testdata/millrace.toml -o demo
	@echo
	@echo "Print first:  demo/print/ (100 %, no fitting), then measure both rulers."

test:
	$(GO) vet ./...
	$(GO) test ./...

SET ?= demo
verify: demo
	testdata/verify/install.sh
	@for d in testdata/designs/*.toml; do \
		./routwright make "$$d" -o "verify/$$(basename "$$d" .toml)" >/dev/null || exit 1; \
	done
	ROUTWRIGHT_SET=$(abspath $(SET)) ROUTWRIGHT_SETS=$(abspath verify) $(GO) test -tags verify -count=1 -timeout 45m -v ./render/verify

peers:
	@dpkg -s libgeos-dev libpolyclipping-dev g++ >/dev/null 2>&1 || \
		{ apt-get update -qq && apt-get install -y -qq libgeos-dev libpolyclipping-dev g++ >/dev/null; }
	cd testdata/peers && $(GO) vet -tags native ./... && $(GO) test -tags native -count 1 -v ./...

bench:
	$(GO) test -run '^$$' -bench . -benchmem ./...

fuzz:
	@for p in $$($(GO) list ./...); do \
		for f in $$($(GO) test -list '^Fuzz' $$p 2>/dev/null | grep '^Fuzz'); do \
			echo "$$p $$f"; $(GO) test -run '^$$' -fuzz "^$$f\$$" -fuzztime $(FUZZTIME) -fuzzminimizetime 20x $$p || exit 1; \
		done; \
	done

cross:
	@for t in linux/amd64 linux/arm64 darwin/amd64 darwin/arm64 windows/amd64; do \
		os=$${t%/*}; arch=$${t#*/}; echo "$$t"; \
		CGO_ENABLED=0 GOOS=$$os GOARCH=$$arch $(GO) build -trimpath -o dist/routwright-$$os-$$arch ./cmd/routwright || exit 1; \
	done
