# Thin: each target makes .venv ready (quick when it is) and hands on. Further options: make publish ARGS='--draft'
# The tests start many processes: each would compile every module anew.
unexport PYTHONDONTWRITEBYTECODE

.PHONY: setup publish check test quick bench lock licences sbom audit
ARGS ?=

setup:
	@sh .ci/setup --again

publish:
	@sh .ci/setup
	@.venv/bin/benchleaf publish $(ARGS)

check:
	@sh .ci/setup
	@.venv/bin/benchleaf check $(ARGS)

test:
	@sh .ci/setup --for-tests
	@.venv/bin/ruff check --quiet .
	@.venv/bin/mypy --strict
	@.venv/bin/mypy --strict --platform win32 --cache-dir .mypy_cache/win32 builder/system
	@.venv/bin/mypy --strict --platform darwin --cache-dir .mypy_cache/darwin builder/system
	@TMPDIR=$$(sh .ci/scratch) .venv/bin/pytest -n auto --dist loadfile --no-loadscope-reorder $(ARGS)

quick:
	@sh .ci/setup --for-tests
	@TMPDIR=$$(sh .ci/scratch) .venv/bin/pytest -n auto --dist loadfile --no-loadscope-reorder -m 'not slow' $(ARGS)

bench:
	@sh .ci/setup --for-bench
	@.venv/bin/python -m tests.benchmarks $(ARGS)

lock:
	@sh .ci/lock

licences sbom audit:
	@sh .ci/setup
	@sh .ci/supply $@
