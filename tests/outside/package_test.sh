#!/bin/sh
# The Debian package, as a person has it: lintian finds nothing, and in a bare root of the same
# release it installs with what it says it needs, keeps a book, goes again, and the book is still
# there.
#
#   package_test.sh BECKET          (as root, for the bare root; else that part is skipped)
set -u
work=$(mktemp -d)
trap 'umount "$work/root/proc" 2>/dev/null; rm -rf "$work"' EXIT
wrong=0

ok() {
	echo "ok $1"
}

not_ok() {
	echo "not ok $1"
	wrong=1
}

# is NAME COMMAND...: the command must succeed.
is() {
	name=$1
	shift
	if "$@" >"$work/said" 2>&1; then ok "$name"; else
		not_ok "$name"
		tail -n 20 "$work/said"
	fi
}

# inside COMMAND...: as a person in the bare root.
inside() {
	chroot "$work/root" env -i HOME=/root LC_ALL=C.UTF-8 PATH=/usr/sbin:/usr/bin:/sbin:/bin \
		DEBIAN_FRONTEND=noninteractive "$@"
}

# page_opens WORDS COMMAND...: what runs the page tells its address, which lets a browser in by a
# cookie that no script reads, and to a page with these words.
page_opens() {
	words=$1
	shift
	chroot "$work/root" env -i HOME=/root LC_ALL=C.UTF-8 PATH=/usr/bin:/bin "$@" >"$work/page" 2>&1 &
	page=$!
	tries=0
	while ! grep -q http: "$work/page" && [ $tries -lt 100 ]; do
		sleep 0.1
		tries=$((tries + 1))
	done
	/usr/bin/python3 - "$work/page" "$words" <<-'END'
		import re, sys, urllib.request
		said = open(sys.argv[1], encoding="utf-8").read()
		cookies = urllib.request.HTTPCookieProcessor()
		with urllib.request.build_opener(cookies).open(re.search(r"http:\S+", said).group()) as answer:
		    body = answer.read().decode()
		    print(answer.status, answer.url, body[:200])
		    flags = [(one.has_nonstandard_attr("HttpOnly"), one.get_nonstandard_attr("SameSite"))
		             for one in cookies.cookiejar]
		    print(flags)
		    sys.exit(not (answer.status == 200 and "<h1" in body and sys.argv[2] in body
		                  and flags == [(True, "Strict")]))
	END
	opened=$?
	kill "$page"
	wait "$page" 2>/dev/null
	return $opened
}

# in_root FILE: it is there, and not empty.
in_root() {
	test -s "$work/root/$1"
}

mkdir "$work/tree"
tar -C "$ROOT" --exclude=./build --exclude=node_modules --exclude=./.git -cf - . | tar -C "$work/tree" -xf -
is "the package is made" sh "$work/tree/src/package.sh"
deb=$(ls "$work"/tree/build/package/becket_*.deb 2>/dev/null)
[ -n "$deb" ] || exit 1
is "lintian finds nothing" lintian --allow-root --fail-on warning,error "${deb%.deb}.changes"
is "the menu entry is valid" desktop-file-validate "$work/tree/src/package/becket.desktop"
is "the program is hardened" sh -c "dpkg-deb -x '$deb' '$work/out' && hardening-check --nocfprotection '$work/out/usr/bin/becket'"

if [ "$(id -u)" != 0 ]; then
	echo "skip a bare root: only root can make one"
	exit $wrong
fi
# From wherever this machine has its packages.
from=$(apt-get indextargets --format '$(SITE)' 'Created-By: Packages' 2>/dev/null | head -n 1)
if ! debootstrap --variant=minbase --include=ca-certificates "$(. /etc/os-release; echo "$VERSION_CODENAME")" \
	"$work/root" "$from" >"$work/said" 2>&1; then
	tail -n 20 "$work/said"
	echo "skip a bare root: none can be made on this machine"
	exit $wrong
fi
cp "$deb" "$work/root/becket.deb"
cp /etc/resolv.conf "$work/root/etc/" 2>/dev/null
is "it installs in a bare root" inside apt-get install -y -q --no-install-recommends /becket.deb
is "its entry stands in the menu" in_root usr/share/applications/becket.desktop
is "with its icon" in_root usr/share/icons/hicolor/scalable/apps/becket.svg
is "the page opens at a first start" page_opens "A book for your boat" becket page --no-browser --port 0
is "it begins a book" inside becket vessel Quillfish
is "it says what it says" inside becket due
is "it writes a calendar" inside becket calendar /root/becket.ics
is "it writes a page" inside becket years 3 --html /root/years.html
is "its page opens" page_opens Quillfish becket page --no-browser --port 0
# as the service of a person would begin it; here no systemd runs
service=$(sed -n 's/^ExecStart=//p' "$work/root/usr/lib/systemd/user/becket-page.service")
# shellcheck disable=SC2086
is "what its service runs opens the page" page_opens Quillfish $service
is "it keeps a paper" inside sh -c 'echo paper >/root/p.txt && becket enter tether --vessel Quillfish --tag T-1 && becket attach T-1 /root/p.txt'
is "its manual is there" inside test -s /usr/share/man/man1/becket.1.gz
is "so is a page for each command" inside test -s /usr/share/man/man1/becket-winter.1.gz
is "no service runs unasked" sh -c "! find '$work/root/etc/systemd' '$work/root/usr/lib/systemd/user' -lname '*becket*' | grep -q ."
is "it is removed" inside apt-get remove -y -q becket
is "and the menu with it" sh -c "! test -e '$work/root/usr/share/applications/becket.desktop'"
is "and purged" inside dpkg --purge becket
is "the program is gone" inside sh -c '! command -v becket'
is "the book is still there" inside test -s /root/.local/share/becket/book.db
exit $wrong
