# Everything installs into .venv; a stamp file there remembers what is already installed, so a repeated call is quick.
PYTHON ?= python3
SERVE ?= 1
WORKERS ?= auto

VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip install --quiet --disable-pip-version-check
COMPILE := $(BIN)/uv pip compile --quiet --universal --python-version 3.11 --fork-strategy fewest --generate-hashes \
	--no-annotate --no-header --no-emit-index-url --no-emit-find-links $(if $(UPGRADE),--upgrade)

.PHONY: demo papers test torture check bench requirements clean help
help:  ## say what can be asked for
	@sed -n 's/^\([a-z]*\):[^#]*## \(.*\)/  make \1|\2/p' Makefile | column -t -s '|'

demo: $(VENV)/.runtime  ## tell the demo job, write its hand-over record, serve the bench (SERVE=0 stops before serving)
	$(BIN)/gudgeon demo $(if $(filter 0,$(SERVE)),--no-serve)

papers: $(VENV)/.runtime  ## every kind of paper for every job of the demo, in out/papers
	$(BIN)/python tools/make_papers.py out/papers

test: $(VENV)/.dev $(VENV)/.system  ## run every test
	$(BIN)/python -m pytest -n $(WORKERS) --maxprocesses 4 --dist loadscope

torture: $(VENV)/.dev  ## work thousands of randomly worn engines (N=1000, SEED=0: the first seed)
	$(BIN)/python tools/torture_engines.py $(or $(N),1000) $(or $(SEED),0)

check: $(VENV)/.dev  ## format, lint, types, import contracts, budgets, words, wheels
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/lint-imports --no-logo
	$(BIN)/python -m pytest tests/house/test_budgets.py tests/house/test_words.py
	$(BIN)/python tools/check_wheels.py

bench: $(VENV)/.dev  ## measure, and print each ratio beside its limit
	$(BIN)/python bench/run.py

requirements: $(VENV)/.dev  ## write the hashed requirements anew after a change of pyproject.toml (UPGRADE=1 moves the pins)
	printf 'hatchling\neditables\n' | $(COMPILE) pyproject.toml - --output-file requirements.txt
	$(COMPILE) pyproject.toml --extra dev --constraint requirements.txt --output-file requirements-dev.txt

clean:  ## remove what can be made again, never the data of a workshop
	rm -rf $(VENV) build dist out .mypy_cache .ruff_cache .pytest_cache .hypothesis .import_linter_cache
	find src tests tools bench -name __pycache__ -prune -exec rm -rf {} +

$(BIN)/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
		{ echo 'Gudgeon needs Python 3.11 or newer. Name one: make demo PYTHON=python3.12' >&2; exit 1; }
	@$(PYTHON) -m venv $(VENV) || \
		{ rm -rf $(VENV); echo 'Python could not make a virtual environment. On Debian: apt-get install python3-venv' >&2; exit 1; }

# The package itself is installed without its dependencies and without a fetched builder: all of that is in the hashed file.
$(VENV)/.runtime: requirements.txt pyproject.toml | $(BIN)/python
	$(PIP) --require-hashes --only-binary :all: -r requirements.txt
	$(PIP) --no-deps --no-build-isolation -e .
	@touch $@

# One plain Python file that is offered without a wheel; a test compares with it. tools/check_wheels.py names it too.
SOURCE_ONLY := miniball
$(VENV)/.dev: requirements-dev.txt $(VENV)/.runtime
	$(PIP) --require-hashes --only-binary :all: --no-binary $(SOURCE_ONLY) -r requirements-dev.txt
	@touch $@

# Browser tests drive Debian's Chromium; the papers are read back with poppler's pdftotext.
MISSING = $(shell command -v chromium >/dev/null 2>&1 || echo chromium) $(shell command -v pdftotext >/dev/null 2>&1 || echo poppler-utils)
$(VENV)/.system: | $(BIN)/python
	@missing='$(strip $(MISSING))'; \
	if [ -n "$$missing" ] && [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then \
		apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $$missing >/dev/null; \
	elif [ -n "$$missing" ]; then \
		echo "The tests need $$missing. On Debian: sudo apt-get install $$missing" >&2; exit 1; \
	fi
	@touch $@
