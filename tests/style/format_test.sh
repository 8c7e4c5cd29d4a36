#!/bin/sh
# clang-format has nothing to change in any C file that is kept in the tree.
cd "$ROOT" || exit 1
files=$(find src tests -name node_modules -prune -o -name '*.[ch]' -print | sort)
[ -n "$files" ] || exit 1
# shellcheck disable=SC2086
said=$(clang-format --dry-run --Werror $files 2>&1)
status=$?
for file in $files; do
	case $said in
	*"$file:"*) echo "not ok clang-format $file: run clang-format -i on it" ;;
	*) echo "ok clang-format $file" ;;
	esac
done
exit $status
