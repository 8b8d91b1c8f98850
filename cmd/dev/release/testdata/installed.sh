#!/bin/bash
# Runs as root in a fresh Debian root, with the packages in /root/old and /root/new and
# the commands of the page install in /root/blocks. It prints "ok WHAT" or "not ok WHAT"
# for each check, and "end" at last. Where systemd does not run, the service is started
# as its unit says, by hand and by its user.
unit=/usr/lib/systemd/system/kerfside.service
home=/var/lib/kerfside
here() { [ -d /run/systemd/system ]; }

# check WHAT COMMAND… runs a command that must succeed.
check() {
	local what=$1 said
	shift
	if said=$("$@" 2>&1); then
		echo "ok $what"
	else
		echo "not ok $what"
		printf '%s\n' "$said" | tail -n 40 | sed 's/^/# /'
	fi
}

block() { cd "$1" && sh -eu "/root/blocks/$2"; }

# answers ADDRESS waits until the server answers there: it has a minute, and says why not.
answers() {
	local i
	for i in $(seq 600); do
		curl --fail --silent --max-time 5 "http://$1/api/status" && return
		sleep 0.1
	done
	here && systemctl status kerfside --no-pager
	tail /root/by-hand.log
	return 1
}

silent() {
	local i
	for i in $(seq 600); do
		curl --silent --max-time 5 "http://$1/" >/dev/null || return 0
		sleep 0.1
	done
	return 1
}

# up starts what the package would have, where there is no systemd.
up() {
	here && return
	local KERFSIDE_FLAGS
	. /etc/default/kerfside
	# shellcheck disable=SC2086,SC2046
	(cd $home && eval exec runuser -u kerfside -- $(sed -n 's/^ExecStart=//p' $unit)) >>/root/by-hand.log 2>&1 </dev/null &
}

down() { here || pkill --exact kerfside; }

again() {
	if here; then block /root restart; else down; silent localhost:8480; up; fi
}

owned() { [ "$(ps -o user= -C kerfside)" = kerfside ]; }

# confined reads what the kernel knows of the running service (proc(5)): no privileges to
# gain, a filter of system calls, and of all capabilities the one to bind low ports.
confined() {
	local status
	status=$(cat "/proc/$(pidof kerfside)/status")
	printf '%s\n' "$status"
	grep -q 'NoNewPrivs:.1' <<<"$status" && grep -q 'Seccomp:.2' <<<"$status" &&
		grep -q 'CapEff:.0000000000000400' <<<"$status" && grep -q 'CapBnd:.0000000000000400' <<<"$status"
}

# exposed reads how open systemd finds the unit, from 0 to 10, in tenths.
exposed() {
	systemd-analyze security --offline=true --no-pager --threshold=20 $unit | tail -n 1
	systemd-analyze security --offline=true --no-pager --threshold=20 $unit >/dev/null
}

# verified: no word at all, for systemd only warns of a key that it does not know.
verified() {
	local said
	said=$(systemd-analyze verify --man=no $unit 2>&1) && [ -z "$said" ] || { echo "$said"; return 1; }
}

crews() { sudo -u kerfside kerfside crew list -db $home/kerfside.db; }
kept() { [ "$(crews)" = "$before" ] || { crews; echo "was: $before"; return 1; }; }
version() { [ "$(dpkg-query -W -f '${Version}' kerfside)" = "$(dpkg-deb -f /root/$1/*.deb Version)" ]; }

# killed: another process answers.
killed() {
	local former
	former=$(pidof kerfside) && kill -KILL "$former" && up
	answers "$1" && pidof kerfside && [ "$(pidof kerfside)" != "$former" ]
}
purge() { apt-get purge kerfside | tee /root/purge.log && grep -q "left in $home" /root/purge.log; }

here && echo "booted"

which_package() { [ -e "/root/old/kerfside_0.0.1_$(block /root which).deb" ]; }
check "it says which package it takes" which_package
check "its files are what they were" block /root/old check
check "the old package installs in two commands" block /root/old deb
up
check "it serves" answers localhost:8480
check "its pages of help" curl --fail --silent http://localhost:8480/help/install
check "systemd finds nothing to say of its unit" verified
check "systemd finds its unit closed" exposed
check "it runs as its user" owned
here && check "it is confined" confined
check "nobody else reads its folder" [ "$(stat -c '%U %a' $home)" = "kerfside 700" ]
check "an invented crew" sh -c "systemctl stop kerfside; pkill --exact kerfside; rm -f $home/kerfside.db*; sudo -u kerfside kerfside demo -db $home/kerfside.db"
sed -i 's/^KERFSIDE_FLAGS=.*/KERFSIDE_FLAGS="-addr localhost:80"/' /etc/default/kerfside
if here; then
	check "the block restart" block /root restart
	door=localhost:80
else
	sed -i 's/localhost:80"/localhost:8481"/' /etc/default/kerfside
	door=localhost:8481
	up
fi
check "it serves where its flags say" answers $door
check "the block backup" block /root backup
before=$(crews)
check "the crew is there" grep -q "Osier Ford Repair" <<<"$before"
check "it comes back after a kill" killed $door
check "the new package upgrades it" block /root/new upgrade
here || { down; silent $door; up; }
check "it has the new version" version new
check "it serves after the upgrade" answers $door
check "the crew stays after the upgrade" kept
check "it goes" block /root remove
down
check "it serves no more" silent $door
check "its program is gone" [ ! -e /usr/bin/kerfside ]
check "its journal stays" [ -s $home/kerfside.db ]
check "it installs once more" block /root/new upgrade
up
check "it serves with the flags that it had" answers $door
check "the crew stays after all" kept
here || down
check "a purge says what it leaves" purge
check "a purge leaves the journal" [ -s $home/kerfside.db ]
check "a purge takes the flags" [ ! -e /etc/default/kerfside ]
check "the archive unpacks and runs" block /root/new archive
echo "end"
