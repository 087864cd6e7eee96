# make demo    from a bare machine to the demo film in its window
# make build   the program, ./stillbeat
# make test    everything that is checked on every change
# make lint    the quick part of it: format and vet
# make bench   benchmarks
# make fuzz    each fuzz target for FUZZTIME
# make clean   what these made

GO ?= go
FUZZTIME ?= 10s
LEAST_GO := 26

.PHONY: build demo test lint bench fuzz clean go-is-there

build: go-is-there
	@bash .ci/packages build
	$(GO) build -trimpath -o stillbeat ./cmd/stillbeat

demo: build
	./stillbeat demo demo --force --open

test: lint
	@bash .ci/packages test
	$(GO) test -race -timeout 30m ./...

lint: go-is-there
	@bash .ci/packages build
	@unformatted=$$(gofmt -l .); if [ -n "$$unformatted" ]; then \
		echo "gofmt would change: $$unformatted"; exit 1; fi
	$(GO) vet -trimpath ./... # the build before it compiled the same

bench: go-is-there
	$(GO) test -run '^$$' -bench . -benchmem ./...

fuzz: go-is-there
	@grep -rno --include='*_test.go' '^func Fuzz[A-Za-z0-9_]*' . | while IFS=: read -r file line func; do \
		echo "$${func#func } in $$(dirname "$$file")"; \
		$(GO) test -run '^$$' -fuzz "^$${func#func }\$$" -fuzztime $(FUZZTIME) "$$(dirname "$$file")" || exit 1; done

clean:
	rm -f stillbeat
	rm -rf demo

go-is-there:
	@have=$$($(GO) version 2>/dev/null | sed -n 's/.*go1\.\([0-9]*\).*/\1/p'); \
	if [ "$${have:-0}" -lt $(LEAST_GO) ]; then \
		echo "Go 1.$(LEAST_GO) or newer is needed, found $${have:+1.}$${have:-none}; it is at https://go.dev/dl/"; exit 1; fi
