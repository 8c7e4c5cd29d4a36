#!/bin/sh
# Makes the two demonstration books from the CSV files beside this script.
#   make-demo.sh BECKET OWNER_BOOK FLEET_BOOK
# Every command is run as on 2026-11-25 and the books' identities are fixed, so the same
# files always make the same books. An existing book is never written over.
set -eu

if [ $# -ne 3 ]; then
	echo "usage: make-demo.sh BECKET OWNER_BOOK FLEET_BOOK" >&2
	exit 2
fi
becket=$1
owner_book=$2
fleet_book=$3
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
for book in "$owner_book" "$fleet_book"; do
	if [ -e "$book" ]; then
		echo "make-demo.sh: $book is there already; remove it or name another" >&2
		exit 2
	fi
done

# At a terminal nothing is asked: what these lists come to is known.
owner() {
	"$becket" --book "$owner_book" --today 2026-11-25 "$@" </dev/null >/dev/null
}

fleet() {
	"$becket" --book "$fleet_book" --today 2026-11-25 "$@" </dev/null >/dev/null
}

# The owner's yacht.
owner book new --identity 71756c6c666973680000000000002026 --currency EUR
owner vessel Quillfish --use private --lay-up 11-01..03-31 --sheet practice \
	--area coastal --length 9.8 --persons 6 --built 2011 --base "Holm Quay" --margin 7
owner station "Varne Sound Raft Loft" --turn-round 35 --closed 12-20..01-31 \
	--kinds liferaft-canister,liferaft-valise,hydrostatic-release,raft-contents \
	--trip 45.00 --price liferaft-canister:service=420.00 \
	--price liferaft-canister:service@10y=510.00 --price liferaft-canister:test=95.00
owner station "Holm Quay Safety Service" --turn-round 14 \
	--kinds lifejacket-auto,lifejacket-manual,gas-cylinder,firing-head,lifejacket-light,danbuoy-inflatable,recovery-module,extinguisher-powder,extinguisher-foam,extinguisher-water,extinguisher-co2,extinguisher-clean-agent \
	--trip 12.00 --price lifejacket-auto:service=28.00 \
	--price lifejacket-manual:service=22.00 --price danbuoy-inflatable:service=46.00 \
	--price recovery-module:service=52.00 --price extinguisher-powder:service=14.00 \
	--price extinguisher-powder:test=38.00 --price extinguisher-co2:service=16.00 \
	--price extinguisher-co2:test=44.00 --price extinguisher-foam:service=14.00 \
	--price extinguisher-foam:test=36.00
# Rafts of every age at one price, and jackets, but farther off.
owner station "Sandle Reach Inflatables" --turn-round 21 --closed 12-20..01-10 \
	--kinds liferaft-canister,liferaft-valise,hydrostatic-release,raft-contents,lifejacket-auto,lifejacket-manual,gas-cylinder,firing-head,lifejacket-light,danbuoy-inflatable,recovery-module \
	--trip 64.00 --price liferaft-canister:service=430.00 \
	--price liferaft-canister:test=90.00 --price lifejacket-auto:service=26.00 \
	--price lifejacket-manual:service=20.00 --price danbuoy-inflatable:service=44.00 \
	--price recovery-module:service=50.00
owner import "$here/owner.csv"
owner record test LR-1 --on 2024-11-18 --by "Varne Sound Raft Loft" \
	--certificate VS-24-0311
owner record inspect LJ-1 LJ-2 LJ-4 LJ-6 --on 2026-03-28
owner record weigh LJ-1-CY --on 2026-03-28
owner record test FE-4 --on 2022-01-20 --by "Holm Quay Safety Service"
# PL-2 was never registered.
owner record register EB-1 PL-1 --on 2021-06-20

# The company's own list of what is carried stands beside its book.
sheets=$(dirname -- "$fleet_book")/sheets
mkdir -p "$sheets"
cp "$here/sheets/port-marrin.yaml" "$sheets/"

# The charter fleet: eight boats at Port Marrin, four at Cape Lorne in the south.
fleet book new --identity 6d617272696e6c6f726e650000002026 --currency EUR
charter() {
	name=$1
	base=$2
	shift 2
	fleet vessel "$name" --base "$base" --sheet practice --sheet port-marrin --area offshore \
		"$@"
}
charter Amberjay "Port Marrin" --use commercial --lay-up 11-01..03-20 --length 10.9 \
	--persons 8 --built 2016 --margin 7
charter Brindlewing "Port Marrin" --use commercial --lay-up 11-01..03-20 --length 11.4 \
	--persons 8 --built 2014 --margin 7
charter Coppersedge "Port Marrin" --use commercial --lay-up 10-15..03-20 \
	--winter 2027=2027-12-05..2028-03-20 --length 12.3 --persons 8 --built 2018 --margin 7
charter Dunelark "Port Marrin" --use commercial --lay-up 11-01..03-20 --length 10.2 \
	--persons 6 --built 2012 --margin 7
charter Emberfin "Port Marrin" --use commercial --lay-up 11-01..03-31 --length 9.4 \
	--persons 6 --built 2019 --margin 5
charter Foxmere "Port Marrin" --use commercial --lay-up 11-01..03-31 --length 13.6 \
	--persons 10 --built 2020 --margin 5
charter Galewort "Port Marrin" --use commercial --lay-up 11-15..03-20 --length 12.3 \
	--persons 8 --built 2018 --margin 7
charter Harrowgull "Port Marrin" --use private --lay-up 11-01..03-31 --length 11.1 \
	--persons 8 --built 2015 --margin 7
fleet vessel Harrowgull --use commercial --from 2027-06-01
charter Icequill "Cape Lorne" --use commercial --lay-up 06-01..08-31 --length 11.8 \
	--persons 8 --built 2017 --margin 7
charter Junipersail "Cape Lorne" --use commercial --lay-up none --length 12.0 \
	--persons 8 --built 2021
charter Kestrelvane "Cape Lorne" --use commercial --lay-up 06-01..08-31 --length 10.5 \
	--persons 6 --built 2013 --margin 7
charter Lowtide "Cape Lorne" --use commercial --lay-up 06-01..08-31 --length 9.9 \
	--persons 6 --built 2010 --margin 7
fleet station "Marrin Raft Station" --base "Port Marrin" --turn-round 21 \
	--closed 12-20..01-10 \
	--kinds liferaft-canister,liferaft-valise,hydrostatic-release,raft-contents \
	--trip 60.00 --price liferaft-canister:service=380.00 \
	--price liferaft-canister:service@10y=460.00 --price liferaft-canister:test=85.00 \
	--price liferaft-valise:service=340.00 --price liferaft-valise:service@10y=420.00 \
	--price liferaft-valise:test=85.00
fleet station "Marrin Safety Depot" --base "Port Marrin" --turn-round 14 \
	--closed 12-24..01-02 \
	--kinds lifejacket-auto,lifejacket-manual,gas-cylinder,firing-head,lifejacket-light,danbuoy-inflatable,recovery-module,extinguisher-powder,extinguisher-foam,extinguisher-co2,extinguisher-clean-agent \
	--trip 20.00 --price lifejacket-auto:service=24.00 \
	--price danbuoy-inflatable:service=42.00 --price recovery-module:service=48.00 \
	--price extinguisher-powder:service=12.00 --price extinguisher-powder:test=34.00 \
	--price extinguisher-co2:service=15.00 --price extinguisher-co2:test=40.00 \
	--price extinguisher-clean-agent:service=18.00 \
	--price extinguisher-clean-agent:test=46.00
fleet station "Lorne Inflatables" --base "Cape Lorne" --turn-round 14 \
	--closed 12-20..01-05 \
	--kinds liferaft-canister,liferaft-valise,hydrostatic-release,raft-contents,lifejacket-auto,gas-cylinder,firing-head,lifejacket-light,danbuoy-inflatable,recovery-module \
	--trip 35.00 --price liferaft-canister:service=395.00 \
	--price liferaft-canister:service@10y=480.00 --price liferaft-canister:test=90.00 \
	--price liferaft-valise:service=350.00 --price liferaft-valise:service@10y=430.00 \
	--price liferaft-valise:test=90.00 --price lifejacket-auto:service=26.00 \
	--price danbuoy-inflatable:service=44.00 --price recovery-module:service=50.00
fleet station "Lorne Fire Service" --base "Cape Lorne" --turn-round 7 \
	--kinds extinguisher-powder,extinguisher-foam,extinguisher-co2,extinguisher-clean-agent \
	--trip 15.00 --price extinguisher-powder:service=13.00 \
	--price extinguisher-powder:test=36.00 --price extinguisher-co2:service=16.00 \
	--price extinguisher-co2:test=42.00 --price extinguisher-clean-agent:service=19.00 \
	--price extinguisher-clean-agent:test=48.00
fleet import "$here/fleet.csv" --serials-are-right
fleet record test AJ-LR-1 CS-LR-1 EF-LR-1 FM-LR-1 --on 2026-01-12 \
	--by "Marrin Raft Station"
fleet record test IQ-LR-1 KV-LR-1 --on 2026-06-15 --by "Lorne Inflatables"
fleet record test AJ-FE-2 --on 2022-01-18 --by "Marrin Safety Depot"
fleet record inspect AJ-EB-1 BW-EB-1 CS-EB-1 DL-EB-1 EF-EB-1 FM-EB-1 GW-EB-1 HG-EB-1 \
	AJ-PL-1 CS-PL-1 EF-PL-1 GW-PL-1 --on 2026-02-20
fleet record inspect IQ-EB-1 JS-EB-1 KV-EB-1 LT-EB-1 IQ-PL-1 KV-PL-1 --on 2026-07-10
# EF-PL-1 was never registered.
fleet record register AJ-EB-1 BW-EB-1 CS-EB-1 DL-EB-1 EF-EB-1 FM-EB-1 GW-EB-1 HG-EB-1 \
	IQ-EB-1 JS-EB-1 KV-EB-1 LT-EB-1 AJ-PL-1 CS-PL-1 GW-PL-1 IQ-PL-1 KV-PL-1 \
	--on 2024-03-04
