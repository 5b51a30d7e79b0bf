# Make a virtual environment that holds gaugestack; read by demo/run, tests/run and .ci/run.
#
#     source tests/venv.bash
#     make_venv DIRECTORY [EXTRA]      afterwards DIRECTORY/bin/gaugestack runs
#
# What is there already and still fits pyproject.toml is left as it is.  The
# checkout is installed in place, so an edit needs no second installation.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
unset PYTHONPATH PYTHONHOME

fail() {
    echo "error: $*" >&2
    exit 1
}

find_python() {
    local python
    for python in "${PYTHON:-python3}" python3.11 python3.12 python3.13 python3.14; do
        if "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            echo "$python"
            return
        fi
    done
    fail "no Python 3.11 or newer was found; install one, or name it: PYTHON=/path/to/python $0"
}

make_venv() {
    local venv=$1 extra=${2:-} python stamp want
    stamp=$venv/.gaugestack-${extra:-plain}
    want="$root $(cksum <"$root/pyproject.toml")"
    if [[ -x $venv/bin/python && -f $stamp && $(<"$stamp") == "$want" ]]; then
        return
    fi
    python=$(find_python)
    echo "preparing $venv ..." >&2
    "$python" -m venv "$venv" || fail "$python cannot make $venv (on Debian: apt install python3-venv)"
    "$venv/bin/python" -m pip install --quiet --disable-pip-version-check \
        --editable "$root${extra:+[$extra]}" || fail "the installation into $venv failed"
    echo "$want" >"$stamp"
}
