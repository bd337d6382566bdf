# Sourced by build and test: makes the virtual environment of this clone and installs into it.
# EXTRA names the optional dependencies to install, if any. Nothing is compiled beforehand: of the
# modules installed a run imports a part, and compiling all of them takes a minute.
set -eu
# A machine may be set to keep no compiled modules: each of hundreds of processes would compile anew.
unset PYTHONDONTWRITEBYTECODE
cd "$(dirname "$0")/.."
if [ ! -x .venv/bin/python ]; then
    "${PYTHON:-python3}" - <<'PY'
import sys
if sys.version_info < (3, 11):
    sys.exit(f"Walebook needs Python 3.11 or newer; this is {sys.version.split()[0]}.")
PY
    "${PYTHON:-python3}" -m venv .venv
fi
.venv/bin/python -m pip install --no-compile --quiet --disable-pip-version-check --editable ".${EXTRA:+[$EXTRA]}"
