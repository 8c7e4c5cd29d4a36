#!/bin/sh
# Runs the checks: installs what they need, builds twice (plain, and with the address and
# undefined-behaviour sanitizers), warnings being errors, and runs the tiers.
#
#   sh tests/run.sh              every tier but `deep`, `long` and `mutants`
#   sh tests/run.sh TIER...      quick, golden, plain, elsewhere, outside, rough, clients, browser,
#                                fuzz, analyse, deep, long, mutants: these alone; `quick` builds
#                                plain and installs nothing
#
# TESTS_SCALE=10 in the environment draws ten times as many random cases. Unless told it is 1; and a
# fifth of that in the tiers `outside`, `rough` and `clients` of a run of every tier.
#
# The last line is `N passed, N failed`, with `, N skipped` when a test said why it could not
# run. Exit status 1 when anything failed. Builds are kept in build/ for the next run.
#
# Every check is a test of tests/meson.build. A unit test counts for each cmocka test in it. A
# script tests/{style,golden,outside}/*_test.{sh,py} is called with the program as its argument
# and BECKET, BUILD and ROOT in its environment, and counts as one test by its exit status,
# unless it prints lines `ok NAME`, `not ok NAME` or `skip NAME: why`, which count singly.
set -u
ROOT=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
cd "$ROOT" || exit 1
. src/packages.sh

whole=$([ $# = 0 ] && echo yes || echo no)
passed=0
failed=0
skipped=0
logs=$(mktemp -d) || exit 1
browser=
trap 'rm -rf "$logs"; [ -z "$browser" ] || kill "$browser" 2>/dev/null' EXIT
trap 'exit 1' INT TERM

# finish: the closing line, and the status that goes with it.
finish() {
	last="$passed passed, $failed failed"
	[ "$skipped" = 0 ] || last="$last, $skipped skipped"
	echo
	echo "$last"
	[ "$failed" = 0 ] && [ "$passed" -gt 0 ]
	exit
}

# step NAME COMMAND...: something that must be done before there is anything to test. It counts
# as one test; when it fails that is the end.
step() {
	echo "== $1"
	shift
	if ! "$@" >"$logs/step" 2>&1; then
		tail -n 60 "$logs/step"
		failed=$((failed + 1))
		finish
	fi
	passed=$((passed + 1))
}

# build NAME SETUP-OPTIONS...: configures build/NAME if it is not there yet, and builds it.
build() {
	folder=$ROOT/build/$1
	shift
	[ -f "$folder/build.ninja" ] || meson setup -Dwerror=true "$@" "$folder" || return 1
	ninja -C "$folder"
}

# meson_test LOG BUILD TIER...: becomes meson, which runs the tiers, three tests at a time as many
# of them wait, and writes LOG.json. Where all tiers are run those of the tier `plain` are left to
# the plain build.
meson_test() {
	log=$1
	folder=build/$2
	leave=
	rm -f "$folder/meson-logs/$log.json"
	[ "$whole$2" = yessanitized ] && leave='--no-suite plain'
	shift 2
	# shellcheck disable=SC2046,SC2086
	exec meson test -C "$folder" --no-rebuild --num-processes 3 --timeout-multiplier 4 \
		--logbase "$log" $(printf -- '--suite %s ' "$@") $leave >"$logs/$log" 2>&1
}

# count LOG BUILD TIER...: counts what its tests said.
count() {
	log=$1
	shift
	echo "== $*"
	/usr/bin/python3 tests/support/count_tests.py "build/$1/meson-logs/$log.json" \
		"$logs/counts" || tail -n 20 "$logs/$log"
	read -r more_passed more_failed more_skipped <"$logs/counts"
	passed=$((passed + more_passed))
	failed=$((failed + more_failed))
	skipped=$((skipped + more_skipped))
}

# tiers BUILD TIER...: runs and counts them.
tiers() {
	(meson_test testlog "$@")
	count testlog "$@"
}

if [ "$*" = quick ]; then
	step "build, plain" build plain
	tiers plain quick
	finish
fi

# shellcheck disable=SC2086
step "packages" install_packages $BUILD_PACKAGES $TEST_PACKAGES
step "npm packages of tests/outside" npm --prefix tests/outside ci \
	--no-audit --no-fund --ignore-scripts
step "build, plain" build plain
# With -O1 and no more than the lines of what is found, which builds in half the time and runs no
# slower. How long a number may get the compiler can not see then.
step "build, sanitized" build sanitized -Db_sanitize=address,undefined \
	-Doptimization=1 -Ddebug=false "-Dc_args=-g1 -Wno-format-truncation"
if [ "$whole" = yes ]; then
	# beside the others, for it takes as long as a third of them
	meson_test browser plain browser &
	browser=$!
	tiers sanitized unit fuzz golden rough clients
	tiers plain unit style plain elsewhere analyse # the cases, that is, but no golden twice
	TESTS_SCALE=${TESTS_SCALE:-0.2}
	export TESTS_SCALE
	tiers plain outside # numbers, which the sanitizers have no part in
	wait "$browser"
	browser=
	count browser plain browser
fi
for tier in "$@"; do
	case $tier in
	deep)
		# shellcheck disable=SC2086
		step "packages of the tier deep" install_packages $DEEP_PACKAGES
		tiers plain deep
		;;
	rough | clients | fuzz) tiers sanitized "$tier" ;;
	long) tiers plain long outside rough clients ;; # which draw all their random cases there
	*) tiers plain "$tier" ;;
	esac
done
finish
