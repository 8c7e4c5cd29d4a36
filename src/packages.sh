# Sourced by src/first-run.sh and tests/run.sh: the Debian packages that are needed, and the
# one function that installs them. POSIX sh.

BUILD_PACKAGES="gcc libc6-dev libcsv-dev libcurl4-openssl-dev libcyaml-dev libical-dev \
libmagic-dev libmicrohttpd-dev libqrencode-dev libsodium-dev \
libsqlite3-dev libunistring-dev libxml2-dev libyaml-dev libzip-dev meson ninja-build pkg-config python3 \
scdoc zlib1g-dev"

PACKAGE_PACKAGES="build-essential debhelper"

TEST_PACKAGES="calcurse chromium clang clang-format clang-tidy default-jre-headless debootstrap desktop-file-utils devscripts fish git glpk-utils groff-base khal \
libcmocka-dev libjansson-dev libreoffice-calc-nogui lintian nginx-light nodejs npm openssl poppler-utils python3-dateutil python3-icalendar python3-recurring-ical-events \
python3-vobject python3-yaml radicale sqlite3 time todoman vdirsyncer xandikos zsh"

DEEP_PACKAGES="cppcheck valgrind"

# Prints those of the named packages that are not installed. A Node.js from elsewhere brings
# an npm of its own, which Debian's package would fight with.
missing_packages() {
	installed=$(dpkg-query -W -f='${Package} ${Status}\n' "$@" 2>/dev/null |
		sed -n 's/ .* installed$/ /p')
	for package in "$@"; do
		if [ "$package" = npm ] && command -v npm >/dev/null 2>&1; then
			continue
		fi
		case " $(echo $installed) " in
		*" $package "*) ;;
		*) printf '%s ' "$package" ;;
		esac
	done
}

# Installs what is missing of the named packages, saying so first. Does nothing at all when
# nothing is missing.
install_packages() {
	missing=$(missing_packages "$@")
	[ -n "$missing" ] || return 0
	if ! command -v apt-get >/dev/null 2>&1; then
		echo "Needed, and this is no Debian to install it on: $missing" >&2
		return 1
	fi
	as_root=
	if [ "$(id -u)" != 0 ]; then
		as_root=sudo
		if ! command -v sudo >/dev/null 2>&1; then
			echo "Installing needs root or sudo. Missing: $missing" >&2
			return 1
		fi
	fi
	echo "Installing: $missing"
	$as_root apt-get update -q >/dev/null &&
		# shellcheck disable=SC2086
		$as_root env DEBIAN_FRONTEND=noninteractive \
			apt-get install -y -q --no-install-recommends $missing >/dev/null
}
