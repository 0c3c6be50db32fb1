# One command each: `make demo` shows what lessonkit does, `make test` proves that it works here.
# Both make their own .venv and need nothing done by hand before.

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin

.PHONY: demo test lint clean

demo: $(VENV)/installed
	$(BIN)/lessonkit check curriculum
	$(BIN)/lessonkit sequence curriculum --unit paddles-grade-3 --class grade-3-heron
	$(BIN)/lessonkit export curriculum --plan paddles-grade-3-grade-3-heron --to exports

test: $(VENV)/installed-tests
	$(BIN)/python -m pytest -n auto

lint: $(VENV)/installed-lint
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy

clean:
	rm -rf $(VENV) build dist

$(VENV)/python-checked:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "lessonkit needs Python 3.11 or newer. Try: make demo PYTHON=python3.12"; exit 1; }
	$(PYTHON) -m venv $(VENV)
	touch $@

$(VENV)/installed: pyproject.toml $(VENV)/python-checked
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable .
	touch $@

$(VENV)/installed-tests: pyproject.toml $(VENV)/python-checked
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable '.[test]'
	touch $@ $(VENV)/installed

$(VENV)/installed-lint: pyproject.toml $(VENV)/python-checked
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable '.[test,lint]'
	touch $@
