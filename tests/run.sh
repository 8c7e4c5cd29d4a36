#!/bin/sh
# Runs every check there is: installs what the tests need, builds twice (plain, and with the
# address and undefined-behaviour sanitizers), and runs the unit tests and fuzz replays of
# both, the style checks, the golden and the outside ones.
#
#   sh tests/run.sh
#
# The last line is `N passed, N failed`, with `, N skipped` when a test said why it could not
# run. Exit status 1 when anything failed. Builds are kept in build/ for the next run.
#
# A check is tests/{style,golden,outside}/*_test.{sh,py,mjs}. It is called with the program
# as its argument and BECKET, BUILD and ROOT in its environment, and counts as one test by
# its exit status, unless it prints lines `ok NAME`, `not ok NAME` or `skip NAME: why`,
# which count singly.
set -u
ROOT=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
cd "$ROOT" || exit 1
. src/packages.sh

passed=0
failed=0
skipped=0
logs=$(mktemp -d) || exit 1
trap 'rm -rf "$logs"' EXIT
trap 'exit 1' INT TERM
export ROOT TZ=UTC LC_ALL=C.UTF-8
export ASAN_OPTIONS=detect_leaks=1:abort_on_error=0
export UBSAN_OPTIONS=halt_on_error=1:print_stacktrace=1

finish() {
	last="$passed passed, $failed failed"
	[ "$skipped" = 0 ] || last="$last, $skipped skipped"
	echo
	echo "$last"
	[ "$failed" = 0 ] && [ "$passed" -gt 0 ]
	exit
}

# lines PATTERN FILE: how many lines of the file match.
lines() {
	grep -c -E "$1" "$2" || true
}

# count NAME STATUS LOG SECONDS: adds one check's results and shows them.
count() {
	ok=$(lines '^ok ' "$3")
	bad=$(lines '^not ok ' "$3")
	left=$(lines '^skip ' "$3")
	if [ $((ok + bad + left)) = 0 ]; then
		if [ "$2" = 0 ]; then ok=1; else bad=1; fi
	elif [ "$2" != 0 ] && [ "$bad" = 0 ]; then
		bad=1 # it said nothing wrong, and then fell over
	fi
	passed=$((passed + ok))
	failed=$((failed + bad))
	skipped=$((skipped + left))
	echo "  $1: $ok passed, $bad failed, $left skipped (${4} s)"
	grep -E '^skip ' "$3" | sed 's/^/    /'
	if [ "$bad" != 0 ]; then
		grep -v '^ok ' "$3" | tail -n 60 | sed 's/^/    /'
	fi
}

# check NAME COMMAND...: runs one check and counts it.
check() {
	name=$1
	shift
	begun=$(date +%s)
	"$@" >"$logs/log" 2>&1
	status=$?
	count "$name" "$status" "$logs/log" $(($(date +%s) - begun))
}

# run_script FILE: one check by the language it is written in.
run_script() {
	case $1 in
	*.py) check "$1" /usr/bin/python3 "$1" "$BECKET" ;;
	*.sh) check "$1" sh "$1" "$BECKET" ;;
	*.mjs) check "$1" node "$1" "$BECKET" ;;
	esac
}

# build NAME SETUP-OPTIONS...: configures build/NAME if it is not there yet, and builds it.
build() {
	BUILD=$ROOT/build/$1
	shift
	[ -f "$BUILD/build.ninja" ] || meson setup "$@" "$BUILD" || return 1
	ninja -C "$BUILD"
}

# run_binaries NAME: the unit tests and fuzz replays of the build, cmocka tests counted singly.
run_binaries() {
	begun=$(date +%s)
	meson test -C "$BUILD" --no-rebuild --num-processes 2 --timeout-multiplier 4 2>&1 |
		grep -E '^ *[0-9]+/[0-9]+ ' | sed 's/^/    /'
	/usr/bin/python3 tests/support/count_tests.py "$BUILD/meson-logs/testlog.json" \
		>"$logs/log" 2>&1
	count "unit and fuzz replay, $1" $? "$logs/log" $(($(date +%s) - begun))
}

echo "== packages"
# shellcheck disable=SC2086
if ! install_packages $BUILD_PACKAGES $TEST_PACKAGES; then
	echo "The packages above could not be installed."
	failed=1
	finish
fi
if [ -f tests/outside/package.json ]; then
	check "npm packages of tests/outside" npm --prefix tests/outside ci \
		--no-audit --no-fund --ignore-scripts
fi

echo "== plain build"
check "builds, plain" build plain
BECKET=$ROOT/build/plain/src/cli/becket
export BECKET BUILD
run_binaries plain

echo "== build with sanitizers"
check "builds, sanitized" build sanitized -Db_sanitize=address,undefined
run_binaries sanitized

for folder in golden outside; do
	echo "== $folder, sanitized program"
	BECKET=$BUILD/src/cli/becket
	for script in tests/"$folder"/*_test.*; do
		[ -e "$script" ] && run_script "$script"
	done
done

BUILD=$ROOT/build/plain
BECKET=$BUILD/src/cli/becket
echo "== golden, plain program"
for script in tests/golden/*_test.*; do
	[ -e "$script" ] && run_script "$script"
done

echo "== style"
for script in tests/style/*_test.*; do
	[ -e "$script" ] && run_script "$script"
done

finish
