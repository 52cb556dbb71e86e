#!/bin/sh
# The way back after an update that does not start: runs after each end of the service, as root, outside every version of the
# program, so that none can break it. Copy to /opt/rillkeeper/way-back.sh; the unit names it (ExecStopPost).
#
# A folder that fails three times within ten minutes is left, once, for the one before it: the link "current" then leads where
# "before" led, and "went-back" names the folder that failed, of which the host tells until it is stopped in a clean way.
# way-back.sh [FOLDER [COUNTER [UPTIME]]]
set -eu

folder=${1:-/opt/rillkeeper}
# In memory: it counts by the time since the machine was started.
counter=${2:-/run/rillkeeper-failures}
uptime=${3:-/proc/uptime}

failures=3
seconds=600

# Both are set by systemd for ExecStopPost (systemd.exec(5)).
if [ "${SERVICE_RESULT:-success}" = success ]; then
  rm -f "$counter"
  # systemd also calls it a success when a signal that was asked for ended it: somebody has looked. A machine that goes down,
  # perhaps by itself in the night, is nobody.
  [ "$(systemctl is-system-running 2> /dev/null)" = stopping ] || rm -f "$folder/went-back"
  exit 0
fi
# A wrong command line, or another host that has the board already: no fault of the program.
case ${EXIT_STATUS:-} in 2 | 3) exit 0 ;; esac

# Where a link leads: by name where that lies beside it, since it may have been made with the whole path.
target() {
  to=$(readlink -f "$folder/$1")
  if [ "${to%/*}" = "$(readlink -f "$folder")" ]; then to=${to##*/}; fi
  echo "$to"
}
[ -L "$folder/before" ] || exit 0
current=$(target current)
before=$(target before)

read -r up _ < "$uptime"
now=${up%%.*}

# Those of the folder in force and of late, and this one.
kept=$(
  if [ -f "$counter" ]; then
    while read -r at which; do
      case $at in '' | *[!0-9]*) continue ;; esac
      if [ "$which" = "$current" ] && [ "$at" -le "$now" ] && [ $((now - at)) -lt "$seconds" ]; then
        echo "$at $which"
      fi
    done < "$counter"
  fi
  echo "$now $current"
)
printf '%s\n' "$kept" > "$counter"

[ "$(printf '%s\n' "$kept" | wc -l)" -ge "$failures" ] || exit 0
[ "$before" != "$current" ] || exit 0
[ -f "$folder/$before/dist/main.mjs" ] || exit 0

# rename(2) leaves no moment without a link.
point() {
  ln -sfn "$2" "$folder/$1.back.new"
  mv -T "$folder/$1.back.new" "$folder/$1"
  sync "$folder"
}
# Told first: cut behind it, the next failure goes on from here, and the host does not speak of its own folder.
point went-back "$current"
point current "$before"
rm -f "$folder/before" "$counter"
echo "rillkeeper: $current failed $failures times within $seconds s; $before runs again" >&2
