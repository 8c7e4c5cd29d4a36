#!/bin/sh
# clang-tidy finds nothing in the sources of the program that changed, or with --all in any,
# two files at a time. What each file is compiled with comes from the build's own list.
#   tidy_test.sh BECKET [--all]
cd "$ROOT" || exit 1
. tests/support/changed.sh
scratch=$(mktemp -d) || exit 1
trap 'rm -rf "$scratch"' EXIT
if [ "${2:-}" = --all ]; then
	find src -name '*.c' | sort >"$scratch/files"
	[ -s "$scratch/files" ] || exit 1
else
	changed 'src/*.c' >"$scratch/files"
	[ -s "$scratch/files" ] || echo "ok clang-tidy: no source of the program changed"
fi
# shellcheck disable=SC2016
xargs -r -P 2 -I FILE sh -c '
	if found=$(clang-tidy --quiet -p "$BUILD" FILE 2>&1); then
		echo "ok clang-tidy FILE"
	else
		printf "%s\nnot ok clang-tidy FILE\n" "$found"
	fi' <"$scratch/files" | tee "$scratch/found"
! grep -q '^not ok' "$scratch/found"
