# make demo    builds the program and makes the demo set
# make test    all tests that need nothing but Go
# make verify  the slower checks in other people's programs (Debian, apt-get)
# make bench   benchmarks; make fuzz: each fuzz target for FUZZTIME
GO ?= go
FUZZTIME ?= 30s

.PHONY: build demo test verify bench fuzz
build:
	CGO_ENABLED=0 $(GO) build -trimpath -o routwright ./cmd/routwright

test:
	$(GO) vet ./...
	$(GO) test ./...
