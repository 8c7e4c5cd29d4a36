#!/bin/sh
# clang-format has nothing to change in any C file that is kept in the tree.
cd "$ROOT" || exit 1
files=$(find src tests -name node_modules -prune -o -name '*.[ch]' -print | sort)
[ -n "$files" ] || exit 1
status=0
for file in $files; do
	if clang-format --dry-run --Werror "$file" 2>/dev/null; then
		echo "ok clang-format $file"
	else
		echo "not ok clang-format $file: run clang-format -i on it"
		status=1
	fi
done
exit $status
