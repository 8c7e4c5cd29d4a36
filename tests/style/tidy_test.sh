#!/bin/sh
# clang-tidy finds nothing in any source of the program, two files at a time. What each
# file is compiled with comes from the build's own list.
cd "$ROOT" || exit 1
find src -name '*.c' | sort >"$BUILD/tidy-files"
[ -s "$BUILD/tidy-files" ] || exit 1
# shellcheck disable=SC2016
xargs -P 2 -I FILE sh -c '
	if found=$(clang-tidy --quiet -p "$BUILD" FILE 2>&1); then
		echo "ok clang-tidy FILE"
	else
		printf "%s\nnot ok clang-tidy FILE\n" "$found"
	fi' <"$BUILD/tidy-files" | tee "$BUILD/tidy-found"
! grep -q '^not ok' "$BUILD/tidy-found"
