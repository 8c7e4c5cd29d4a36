#!/bin/sh
# What another's packager may ask for: both compilers with each one's own optimisations build
# everything, tests included, without a warning, and pass the unit tests; an install leaves
# nothing out; assertions can't be turned off.
set -u
scratch=$(mktemp -d) || exit 1
trap 'rm -rf "$scratch"' EXIT
cd "$ROOT" || exit 1
status=0

# say NAME STATUS: one result, with the end of what was said when it is a bad one.
say() {
	if [ "$2" = 0 ]; then
		echo "ok build: $1"
	else
		echo "not ok build: $1"
		tail -n 40 "$scratch/said"
		status=1
	fi
}

# whole OPTIONS...: builds all there is and runs the unit tests of it.
whole() {
	rm -rf "$scratch/build"
	meson setup "$scratch/build" -Dwerror=true "$@" && nice ninja -C "$scratch/build" &&
		meson test -C "$scratch/build" --no-rebuild --num-processes 2 \
			--timeout-multiplier 10 --suite unit --suite fuzz
}

for compiler in gcc clang; do
	export CC="$compiler"
	for options in --buildtype=release --buildtype=minsize '--buildtype=release -Db_lto=true' \
		'-Doptimization=2 -Dc_args=-D_FORTIFY_SOURCE=3'; do
		# shellcheck disable=SC2086
		whole $options >"$scratch/said" 2>&1
		say "$compiler $options" $?
	done
done
unset CC

# As a packager builds it: nothing but a release, the options as they come.
rm -rf "$scratch/build"
{
	meson setup "$scratch/build" --buildtype=release --prefix=/usr &&
		nice ninja -C "$scratch/build" &&
		DESTDIR="$scratch/root" meson install -C "$scratch/build" --no-rebuild
} >"$scratch/said" 2>&1
say "a release installs" $?
for file in bin/becket share/man/man1/becket.1 \
	share/man/man1/becket-winter.1 share/zsh/site-functions/_becket \
	share/bash-completion/completions/becket.bash share/fish/vendor_completions.d/becket.fish; do
	[ -s "$scratch/root/usr/$file" ]
	say "it installs $file" $?
done

# refuses OPTIONS...: true when the options are refused with a word on assertions.
refuses() {
	rm -rf "$scratch/build"
	! meson setup "$scratch/build" "$@" >"$scratch/said" 2>&1 &&
		grep -q 'ERROR: .*becket is built with its assertions on' "$scratch/said"
}
for options in -Db_ndebug=true -Db_ndebug=if-release -Dc_args=-DNDEBUG; do
	refuses "$options"
	say "$options is refused" $?
done
exit $status
