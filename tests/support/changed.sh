# Sourced by the checks that look at what changed. POSIX sh.

# changed PATTERN...: the files of the tree that match and are not as main has them, committed
# or not; against the commit before where this is main itself. All that match where there is no
# git to ask.
changed() {
	if ! git rev-parse --git-dir >/dev/null 2>&1; then
		for pattern in "$@"; do
			find src tests -name "${pattern##*/}" -not -path '*/node_modules/*'
		done
		return
	fi
	base=$(git merge-base HEAD main 2>/dev/null) || base=HEAD~1
	[ "$base" != "$(git rev-parse HEAD)" ] || base=HEAD~1
	{
		git diff --name-only --diff-filter=d "$base" -- "$@" 2>/dev/null ||
			git ls-files -- "$@" # there is no commit before this one
		git ls-files --others --exclude-standard -- "$@"
	} | sort -u
}
